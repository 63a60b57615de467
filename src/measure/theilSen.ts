import { kendallVariance, tieSizes } from './mannKendall.ts'
import { twoSidedZ } from './normal.ts'
import { at, median, select } from './numbers.ts'

/** Under this many values the ranks of the limits are rounded outward instead of interpolated. */
const INTERPOLATE_FROM = 10

/** A line through the middle of all pairwise slopes. */
export interface TheilSenLine {
  /** Median of the slopes of all pairs that differ in time, in value per unit of time. */
  readonly slope: number
  /** Median of (value - slope * time): the line splits the residuals in half. The one to draw. */
  readonly intercept: number
  /** Sen's confidence limits of the slope; absent when there are too few pairs for the confidence asked. */
  readonly limits?: { readonly low: number; readonly high: number }
  /** How many pairs had two different times. */
  readonly pairs: number
  /** Kendall's S of those pairs, rising less falling, and the groups of equal values: what the test of the trend needs. */
  readonly s: number
  readonly tieSizes: readonly number[]
}

/**
 * Theil-Sen slope with Sen's limits (Sen 1968, JASA 63:1379-1389; ranks after Gilbert 1987, chapter 16):
 * with C = z * sqrt(Var S) and N' slopes in order, the limits stand at ranks (N' - C)/2 and (N' + C)/2 + 1.
 * From ten values on ranks between two slopes are interpolated, below that rounded outward (which gives the
 * limits of Sen's own example). The times ascend
 * and are as many as the values; undefined when no two times differ.
 */
export function theilSen(
  atTimes: readonly number[],
  withValues: readonly number[],
  confidence: number,
): TheilSenLine | undefined {
  const times = new Float64Array(atTimes)
  const values = new Float64Array(withValues)
  const count = times.length
  const slopes = new Float64Array((count * (count - 1)) / 2)
  let pairs = 0
  let s = 0
  for (let later = 1; later < count; later++) {
    const time = at(times, later)
    const value = at(values, later)
    for (let earlier = 0; earlier < later; earlier++) {
      const span = time - at(times, earlier)
      if (span === 0) continue
      const slope = (value - at(values, earlier)) / span
      slopes[pairs++] = slope
      if (slope > 0) s++
      else if (slope < 0) s--
    }
  }
  if (pairs === 0) return undefined

  const last = pairs - 1
  const middle = pairs >> 1
  const upper = select(slopes, middle, 0, last)
  const slope = pairs % 2 === 1 ? upper : (greatest(slopes, 0, middle - 1) + upper) / 2

  const sizes = tieSizes(values)
  const halfWidth = twoSidedZ(confidence) * Math.sqrt(kendallVariance(sizes))
  const exactLow = (pairs - halfWidth) / 2
  const exactHigh = (pairs + halfWidth) / 2 + 1
  const lowRank = count < INTERPOLATE_FROM ? Math.floor(exactLow) : exactLow
  const highRank = count < INTERPOLATE_FROM ? Math.ceil(exactHigh) : exactHigh

  const residuals = new Float64Array(count)
  for (let index = 0; index < count; index++) residuals[index] = at(values, index) - slope * at(times, index)
  const line = { slope, intercept: median(residuals), pairs, s, tieSizes: sizes }
  if (lowRank < 1 || highRank > pairs) return line
  return {
    ...line,
    limits: {
      low: valueAtRank(slopes, lowRank, 0, middle),
      high: valueAtRank(slopes, highRank, middle, last),
    },
  }
}

/** Median value - slope * median time: the other convention for the intercept, for comparison with other programs. */
export function interceptOfMedians(
  times: readonly number[],
  values: readonly number[],
  slope: number,
): number {
  return median(values) - slope * median(times)
}

/** The value at a rank counted from 1, interpolated between whole ranks; only `from` to `to` is reordered. */
function valueAtRank(slopes: Float64Array, rank: number, from: number, to: number): number {
  const index = Math.floor(rank) - 1
  const fraction = rank - Math.floor(rank)
  const low = select(slopes, index, from, to)
  if (fraction === 0) return low
  const next = least(slopes, index + 1, to)
  return low + fraction * (next - low)
}

function greatest(values: Float64Array, from: number, to: number): number {
  let result = Number.NEGATIVE_INFINITY
  for (let index = from; index <= to; index++) result = Math.max(result, at(values, index))
  return result
}

function least(values: Float64Array, from: number, to: number): number {
  let result = Number.POSITIVE_INFINITY
  for (let index = from; index <= to; index++) result = Math.min(result, at(values, index))
  return result
}
