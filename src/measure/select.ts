/**
 * The value that would stand at index `rank` if `values` were sorted. Reorders `values` between `from` and
 * `to` (both included), so that everything before `rank` is no greater and everything after no less: Hoare's
 * selection by partition, the pivot being the median of three.
 */
export function select(values: Float64Array, rank: number, from = 0, to = values.length - 1): number {
  let low = from
  let high = to
  while (low < high) {
    const pivot = pivotOf(values, low, high)
    let left = low
    let right = high
    while (left <= right) {
      let lower = values[left] ?? Number.NaN
      while (lower < pivot) lower = values[++left] ?? Number.NaN
      let upper = values[right] ?? Number.NaN
      while (upper > pivot) upper = values[--right] ?? Number.NaN
      if (left <= right) {
        values[left++] = upper
        values[right--] = lower
      }
    }
    if (right < rank) low = left
    if (left > rank) high = right
  }
  return values[rank] ?? Number.NaN
}

function pivotOf(values: Float64Array, low: number, high: number): number {
  const first = values[low] ?? Number.NaN
  const middle = values[(low + high) >> 1] ?? Number.NaN
  const last = values[high] ?? Number.NaN
  return Math.max(Math.min(first, middle), Math.min(Math.max(first, middle), last))
}
