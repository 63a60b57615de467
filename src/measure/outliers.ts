import type { DayWeight } from './mergeSameDay.ts'
import { noiseFloorGrams } from './noiseFloor.ts'
import { at, median } from './numbers.ts'
import type { NoisePolicy, OutlierPolicy } from './policy.ts'
import { elapsedDays } from './time.ts'

/** Makes the median absolute deviation estimate the standard deviation of normal data (Hampel identifier). */
const DEVIATION_SCALE = 1.4826

/**
 * The Hampel identifier over one sample: the median and how far from it a value may lie, `threshold` times
 * 1.4826 times the median absolute deviation.
 */
export function hampelLimit(values: readonly number[], threshold: number): { readonly middle: number; readonly limit: number } {
  const middle = median(values)
  const limit = threshold * DEVIATION_SCALE * median(values.map(value => Math.abs(value - middle)))
  return { middle, limit }
}

/**
 * Which readings of one stretch of the record are outliers, by the Hampel identifier in a window that moves
 * along. Three exceptions keep it honest about weights: a deviation within the noise floor is never one; a
 * reading whose neighbour lies off on the same side is confirmed, not an outlier; and the newest reading of
 * the record (`lastIsNewest`) is never one, however low, because a fresh loss looks exactly like that.
 */
export function markOutliers(
  readings: readonly DayWeight[],
  lastIsNewest: boolean,
  policy: NoisePolicy & { readonly outliers: OutlierPolicy },
): boolean[] {
  const off = readings.map((_, index) => deviation(readings, index, policy))
  return off.map((side, index) => {
    if (side === 0 || (lastIsNewest && index === readings.length - 1)) return false
    const window = windowAround(readings, index, policy.outliers)
    const { middle, limit } = limitOf(window.readings, policy, readings[index])
    const confirmed = [index - 1, index + 1].some(neighbour => {
      const reading = readings[neighbour]
      if (reading === undefined || neighbour < window.from || neighbour > window.to) return false
      return (reading.massGrams - middle) * side > limit
    })
    return !confirmed
  })
}

/** Whether the newest reading would have been marked if it were not the newest: a reason to weigh again at once. */
export function newestLooksOdd(
  readings: readonly DayWeight[],
  policy: NoisePolicy & { readonly outliers: OutlierPolicy },
): boolean {
  return deviation(readings, readings.length - 1, policy) !== 0
}

/** -1 or 1 when a reading lies beyond the limit of its window below or above, otherwise 0. */
function deviation(
  readings: readonly DayWeight[],
  index: number,
  policy: NoisePolicy & { readonly outliers: OutlierPolicy },
): -1 | 0 | 1 {
  const reading = readings[index]
  if (reading === undefined) return 0
  const { from, to } = windowAround(readings, index, policy.outliers)
  const count = to - from + 1
  if (count < policy.outliers.atLeastReadings) return 0
  const masses = new Float64Array(count)
  for (let place = 0; place < count; place++) masses[place] = readings[from + place]?.massGrams ?? Number.NaN
  const middle = middleOf(masses)
  const away = reading.massGrams - middle
  for (let place = 0; place < count; place++) masses[place] = Math.abs(at(masses, place) - middle)
  if (Math.abs(away) <= policy.outliers.threshold * DEVIATION_SCALE * middleOf(masses)) return 0
  if (Math.abs(away) <= noiseFloorGrams(middle, reading.scaleStepGrams, reading.scaleStepGrams, policy)) return 0
  return away < 0 ? -1 : 1
}

/** Median of a handful of numbers, sorted in place by insertion: this runs once per reading of ten years. */
function middleOf(values: Float64Array): number {
  for (let index = 1; index < values.length; index++) {
    const value = at(values, index)
    let place = index - 1
    while (place >= 0 && at(values, place) > value) {
      values[place + 1] = at(values, place)
      place--
    }
    values[place + 1] = value
  }
  const upper = values.length >> 1
  return values.length % 2 === 1 ? at(values, upper) : (at(values, upper - 1) + at(values, upper)) / 2
}

function windowAround(readings: readonly DayWeight[], index: number, policy: OutlierPolicy) {
  const centre = readings[index]?.atMilliseconds ?? 0
  const near = (place: number): boolean => {
    const reading = readings[place]
    return reading !== undefined && Math.abs(elapsedDays(reading.atMilliseconds, centre)) <= policy.withinDays
  }
  let from = index
  let to = index
  while (index - from < policy.readingsEachSide && near(from - 1)) from--
  while (to - index < policy.readingsEachSide && near(to + 1)) to++
  return { from, to, readings: [] as readonly DayWeight[] }
}
