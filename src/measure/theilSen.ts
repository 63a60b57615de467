import { kendallVariance } from './mannKendall.ts'
import { twoSidedZ } from './normal.ts'
import { median } from './numbers.ts'
import { ALL, type Stretch, sampledStretch, type TakenSlopes, takeSlopes } from './pairSlopes.ts'
import { select } from './select.ts'

/** Under this many values the ranks of the limits are rounded outward instead of interpolated. */
const INTERPOLATE_FROM = 10

/** With fewer values than this a guess costs more than it saves. */
const GUESS_FROM = 30

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
  const guess = guessedStretch(times, values, confidence)
  let taken = takeSlopes(times, values, guess)
  if (taken.pairs === 0) return undefined
  const ranks = limitRanks(times.length, taken.pairs, taken.tieSizes, confidence)
  if (!holdsRanks(taken, ranks)) taken = takeSlopes(times, values, ALL)
  const { pairs, s, tieSizes, below, inside } = taken

  // Once the outer ends of the two limits stand in their places, few slopes are left between them to look at.
  const lowIndex = ranks === undefined ? -1 : indexOf(ranks.low) - below
  const highIndex = ranks === undefined ? pairs : indexOf(Math.ceil(ranks.high)) - below
  const lowest = ranks === undefined ? Number.NaN : select(inside, lowIndex)
  const highest = ranks === undefined ? Number.NaN : select(inside, highIndex, lowIndex + 1)
  const middle = (pairs >> 1) - below
  const upper = middle < highIndex ? select(inside, middle, lowIndex + 1, highIndex - 1) : highest
  const slope = pairs % 2 === 1 ? upper : (greatest(inside, Math.max(lowIndex, 0), middle - 1) + upper) / 2
  const limits = ranks && {
    low: between(lowest, least(inside, lowIndex + 1, middle), ranks.low - Math.floor(ranks.low)),
    high: between(highest, greatest(inside, middle, highIndex - 1), Math.ceil(ranks.high) - ranks.high),
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

/** The stretch of slopes that is likely to hold the limits, from a sample; all of them where there are few. */
function guessedStretch(times: Float64Array, values: Float64Array, confidence: number): Stretch {
  const count = times.length
  if (count < GUESS_FROM) return ALL
  // Ties and equal times only make the limits narrower than this.
  const untied = (count * (count - 1) * (2 * count + 5)) / 18
  const share = (twoSidedZ(confidence) * Math.sqrt(untied)) / (count * (count - 1))
  return sampledStretch(times, values, 0.5 - share, 0.5 + share)
}

/** Whether the slopes taken are all, or hold the ranks of both limits. */
function holdsRanks({ below, inside, pairs }: TakenSlopes, ranks: Ranks | undefined): boolean {
  if (inside.length === pairs) return true
  return (
    ranks !== undefined &&
    indexOf(ranks.low) >= below &&
    indexOf(Math.ceil(ranks.high)) < below + inside.length
  )
}

interface Ranks {
  readonly low: number
  readonly high: number
}

/** The ranks, counted from 1, of Sen's limits among the slopes in order; undefined where they fall outside. */
function limitRanks(
  count: number,
  pairs: number,
  sizes: readonly number[],
  confidence: number,
): Ranks | undefined {
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
