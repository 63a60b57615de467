/** A number rounded to so many decimal places; results of exp, log and pow pass through it before they are compared or shown. */
export function roundTo(value: number, places: number): number {
  const scale = 10 ** places
  return Math.round(value * scale) / scale
}

/** The middle value, or the mean of the two middle values; NaN for none. */
export function median(values: ArrayLike<number>): number {
  const sorted = new Float64Array(values).sort()
  const middle = sorted.length >> 1
  const upper = sorted[middle] ?? Number.NaN
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2
}

/** The middle one of three values. */
export function medianOfThree(first: number, second: number, third: number): number {
  return Math.max(Math.min(first, second), Math.min(Math.max(first, second), third))
}

/**
 * The element at an index that is known to exist; NaN otherwise, which no comparison mistakes for a weight.
 * For one kind of array only, so that the engine compiles it to a single load.
 */
export function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN
}
