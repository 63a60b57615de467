import { kendallVariance } from './mannKendall.ts'
import { twoSidedZ } from './normal.ts'
import { median } from './numbers.ts'
import { select } from './select.ts'

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
  const { slopes, s, tieSizes } = pairwiseSlopes(times, values)
  const pairs = slopes.length
  if (pairs === 0) return undefined

  const ranks = limitRanks(times.length, pairs, tieSizes, confidence)
  // Once the outer ends of the two limits stand in their places, few slopes are left between them to look at.
  const lowIndex = ranks === undefined ? -1 : indexOf(ranks.low)
  const highIndex = ranks === undefined ? pairs : indexOf(Math.ceil(ranks.high))
  const lowest = ranks === undefined ? Number.NaN : select(slopes, lowIndex)
  const highest = ranks === undefined ? Number.NaN : select(slopes, highIndex, lowIndex + 1)
  const middle = pairs >> 1
  const upper = middle < highIndex ? select(slopes, middle, lowIndex + 1, highIndex - 1) : highest
  const slope = pairs % 2 === 1 ? upper : (greatest(slopes, Math.max(lowIndex, 0), middle - 1) + upper) / 2
  const limits = ranks && {
    low: between(lowest, least(slopes, lowIndex + 1, middle), ranks.low - Math.floor(ranks.low)),
    high: between(highest, greatest(slopes, middle, highIndex - 1), Math.ceil(ranks.high) - ranks.high),
  }

  for (let index = 0; index < times.length; index++)
    values[index] = (values[index] ?? Number.NaN) - slope * (times[index] ?? Number.NaN)
  return { slope, intercept: medianByOrder(values), ...(limits && { limits }), pairs, s, tieSizes }
}

/** Median value - slope * median time: the other convention for the intercept, for comparison with other programs. */
export function interceptOfMedians(
  times: readonly number[],
  values: readonly number[],
  slope: number,
): number {
  return median(values) - slope * median(times)
}

/** Room for the slopes, kept from one fit to the next: to make it anew takes longer than to fill it. */
let room = new Float64Array(0)

function roomFor(pairs: number): Float64Array {
  if (room.length < pairs) room = new Float64Array(pairs)
  return room
}

/** The slope of every pair of two different times, how many rise less how many fall, and the groups of equal values. */
function pairwiseSlopes(times: Float64Array, values: Float64Array) {
  const count = times.length
  const slopes = roomFor((count * (count - 1)) / 2)
  // How many values have so many equals before them: one value of every group that is larger than that number.
  const groupsLargerThan = new Int32Array(count + 1)
  let pairs = 0
  let s = 0
  for (let later = 1; later < count; later++) {
    const time = times[later] ?? Number.NaN
    const value = values[later] ?? Number.NaN
    let equals = 0
    for (let earlier = 0; earlier < later; earlier++) {
      // Read without `at`: the engine inlines only so many calls into one function.
      const rise = value - (values[earlier] ?? Number.NaN)
      const span = time - (times[earlier] ?? Number.NaN)
      equals += Number(rise === 0)
      if (span === 0) continue
      slopes[pairs++] = rise / span
      s += Number(rise > 0) - Number(rise < 0)
    }
    groupsLargerThan[equals] = (groupsLargerThan[equals] ?? 0) + 1
  }
  groupsLargerThan[0] = (groupsLargerThan[0] ?? 0) + Math.min(count, 1)
  return { slopes: slopes.subarray(0, pairs), s, tieSizes: sizesOf(groupsLargerThan) }
}

/** The sizes of the groups, from how many groups are larger than 0, 1, 2 and so on. */
function sizesOf(groupsLargerThan: Int32Array): number[] {
  const sizes: number[] = []
  for (let size = 1; size < groupsLargerThan.length; size++) {
    const ofThisSize = (groupsLargerThan[size - 1] ?? 0) - (groupsLargerThan[size] ?? 0)
    for (let group = 0; group < ofThisSize; group++) sizes.push(size)
  }
  return sizes
}

/** The ranks, counted from 1, of Sen's limits among the slopes in order; undefined where they fall outside. */
function limitRanks(
  count: number,
  pairs: number,
  sizes: readonly number[],
  confidence: number,
): { readonly low: number; readonly high: number } | undefined {
  const halfWidth = twoSidedZ(confidence) * Math.sqrt(kendallVariance(sizes))
  const low = (pairs - halfWidth) / 2
  const high = (pairs + halfWidth) / 2 + 1
  const ranks = count < INTERPOLATE_FROM ? { low: Math.floor(low), high: Math.ceil(high) } : { low, high }
  return ranks.low < 1 || ranks.high > pairs ? undefined : ranks
}

/** The middle value, or the mean of the two; reorders the values. */
function medianByOrder(values: Float64Array): number {
  const middle = values.length >> 1
  const upper = select(values, middle)
  return values.length % 2 === 1 ? upper : (greatest(values, 0, middle - 1) + upper) / 2
}

/** The index of a rank counted from 1, the part after the point cut off; `|` keeps it an integer for the engine. */
function indexOf(rank: number): number {
  return (rank | 0) - 1
}

/** From one value so far towards the next; the value itself where nothing is to be added. */
function between(value: number, next: number, fraction: number): number {
  return fraction === 0 ? value : value + fraction * (next - value)
}

function greatest(values: Float64Array, from: number, to: number): number {
  let result = Number.NEGATIVE_INFINITY
  for (let index = from; index <= to; index++) {
    const value = values[index] ?? Number.NaN
    if (value > result) result = value
  }
  return result
}

function least(values: Float64Array, from: number, to: number): number {
  let result = Number.POSITIVE_INFINITY
  for (let index = from; index <= to; index++) {
    const value = values[index] ?? Number.NaN
    if (value < result) result = value
  }
  return result
}
