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
 * The value that would stand at index `rank` if `values` were sorted. Reorders `values` between `from` and
 * `to` (both included), so that everything before `rank` is no greater and everything after no less: Hoare's
 * selection by partition, the pivot being the median of three.
 */
export function select(values: Float64Array, rank: number, from = 0, to = values.length - 1): number {
  let low = from
  let high = to
  while (low < high) {
    const pivot = medianOfThree(at(values, low), at(values, (low + high) >> 1), at(values, high))
    let left = low
    let right = high
    while (left <= right) {
      while (at(values, left) < pivot) left++
      while (at(values, right) > pivot) right--
      if (left <= right) {
        const swapped = at(values, left)
        values[left] = at(values, right)
        values[right] = swapped
        left++
        right--
      }
    }
    if (right < rank) low = left
    if (left > rank) high = right
  }
  return at(values, rank)
}

/**
 * The element at an index that is known to exist; NaN otherwise, which no comparison mistakes for a weight.
 * For one kind of array only, so that the engine compiles it to a single load.
 */
export function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN
}
