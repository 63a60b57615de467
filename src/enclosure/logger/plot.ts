/** A point of a plot: milliseconds of the clock on the wall, and the value. */
export interface PlotPoint {
  readonly at: number
  readonly value: number
}

/**
 * Thins a series to at most two points a bucket of equal time, the lowest and the highest in the order they came, so
 * that no extreme is lost. A series that is short enough stays whole.
 */
export function thinned(times: Float64Array, values: Float64Array, buckets: number): PlotPoint[] {
  const points: PlotPoint[] = []
  const begin = times[0] ?? 0
  const width = ((times.at(-1) ?? begin) - begin) / buckets || 1
  if (times.length <= 2 * buckets) {
    for (let at = 0; at < times.length; at += 1) {
      const value = values[at] ?? Number.NaN
      if (!Number.isNaN(value)) points.push({ at: times[at] ?? 0, value })
    }
    return points
  }
  let bucket = 0
  let low = -1
  let high = -1
  const flush = () => {
    if (low < 0) return
    for (const at of low === high ? [low] : [Math.min(low, high), Math.max(low, high)])
      points.push({ at: times[at] ?? 0, value: values[at] ?? 0 })
    low = -1
    high = -1
  }
  for (let at = 0; at < times.length; at += 1) {
    const value = values[at] ?? Number.NaN
    if (Number.isNaN(value)) continue
    const own = Math.min(buckets - 1, Math.floor(((times[at] ?? 0) - begin) / width))
    if (own !== bucket) {
      flush()
      bucket = own
    }
    if (low < 0 || value < (values[low] ?? 0)) low = at
    if (high < 0 || value > (values[high] ?? 0)) high = at
  }
  flush()
  return points
}
