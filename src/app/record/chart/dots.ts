import type { Reading } from '../../../measure/series.ts'

/**
 * The readings that are drawn, where more lie in one column of pixels than can be told apart: of each column the
 * lightest and the heaviest, and the newest of all. Odd ones stand in a list of their own, all of them.
 *
 * @param columnOf the column of pixels that an instant, in milliseconds, falls into
 */
export function drawnReadings(
  readings: readonly Reading[],
  columnOf: (ms: number) => number,
): { readonly dots: readonly Reading[]; readonly odd: readonly Reading[] } {
  const dots: Reading[] = []
  const odd: Reading[] = []
  let column = Number.NaN
  let low: Reading | undefined
  let high: Reading | undefined
  const close = () => {
    if (low !== undefined) dots.push(low)
    if (high !== undefined && high !== low && high.massGrams !== low?.massGrams) dots.push(high)
    low = high = undefined
  }
  for (const reading of readings) {
    if (reading.outlier) {
      odd.push(reading)
      continue
    }
    const its = columnOf(reading.atMilliseconds)
    if (its !== column) close()
    column = its
    if (low === undefined || reading.massGrams < low.massGrams) low = reading
    if (high === undefined || reading.massGrams > high.massGrams) high = reading
  }
  close()
  const newest = readings.at(-1)
  if (newest !== undefined && !newest.outlier && !dots.includes(newest)) dots.push(newest)
  return { dots, odd }
}
