import { kendallTest } from './mannKendall.ts'
import { roundTo } from './numbers.ts'
import type { TrendPolicy } from './policy.ts'
import type { Reading, WeightSeries } from './series.ts'
import { theilSen } from './theilSen.ts'
import { elapsedDays, wholeDays } from './time.ts'

const DAYS_PER_WEEK = 7

/** Places to which percent per week and probabilities are rounded, because they pass through exp and log. */
const PLACES = 6

/** The trend over one window that ends at the newest reading. */
export interface WindowTrend {
  readonly windowDays: number
  readonly readings: number
  /** Days from the first to the last reading in the window. */
  readonly spanDays: number
  /** Median change in percent of body weight per week. */
  readonly percentPerWeek: number
  /** Sen's limits of it; absent when there are too few readings for the confidence asked. */
  readonly limits?: { readonly lowPercentPerWeek: number; readonly highPercentPerWeek: number }
  /** The fitted weight at the window's first and last reading, in grams: the two ends of the line to draw. */
  readonly line: readonly [LinePoint, LinePoint]
  /** One-sided probability that chance alone orders the readings so much downward, or upward. */
  readonly downProbability: number
  readonly upProbability: number
  /** Whether those probabilities are exact. */
  readonly exact: boolean
}

/** One end of a fitted line. */
export interface LinePoint {
  readonly at: string
  readonly massGrams: number
}

/** Readings that may enter a fit: of the present stretch, not marked, not settling after an event. */
export function fittedReadings(series: WeightSeries): Reading[] {
  return series.readings.slice(series.presentFrom).filter(({ outlier, settling }) => !outlier && !settling)
}

/**
 * The trend in every window of the policy that holds enough readings of the present stretch. The slope is
 * Theil-Sen on the natural logarithm of the mass, b per day, told as 100 * (exp(7 b) - 1) percent per week;
 * the probabilities are those of Mann-Kendall.
 */
export function windowTrends(series: WeightSeries, policy: TrendPolicy): WindowTrend[] {
  const fitted = fittedReadings(series)
  const newest = fitted.at(-1)
  if (newest === undefined) return []
  return policy.windowsDays.flatMap(windowDays => {
    const inside = fitted.filter(
      ({ atMilliseconds }) => wholeDays(atMilliseconds, newest.atMilliseconds) <= windowDays,
    )
    const trend =
      inside.length < policy.leastReadings ? undefined : trendOf(inside, windowDays, policy.confidence)
    return trend === undefined ? [] : [trend]
  })
}

function trendOf(
  readings: readonly Reading[],
  windowDays: number,
  confidence: number,
): WindowTrend | undefined {
  const first = readings[0]
  const last = readings.at(-1)
  if (first === undefined || last === undefined) return undefined
  const days = readings.map(({ atMilliseconds }) => elapsedDays(first.atMilliseconds, atMilliseconds))
  const logarithms = readings.map(({ massGrams }) => Math.log(massGrams))
  const fit = theilSen(days, logarithms, confidence)
  if (fit === undefined) return undefined
  const spanDays = elapsedDays(first.atMilliseconds, last.atMilliseconds)
  const test = kendallTest(fit.s, fit.tieSizes)
  return {
    windowDays,
    readings: readings.length,
    spanDays: roundTo(spanDays, 4),
    percentPerWeek: percentPerWeek(fit.slope),
    ...(fit.limits && {
      limits: {
        lowPercentPerWeek: percentPerWeek(fit.limits.low),
        highPercentPerWeek: percentPerWeek(fit.limits.high),
      },
    }),
    line: [
      { at: first.at, massGrams: roundTo(Math.exp(fit.intercept), PLACES) },
      { at: last.at, massGrams: roundTo(Math.exp(fit.intercept + fit.slope * spanDays), PLACES) },
    ],
    downProbability: roundTo(test.downProbability, PLACES),
    upProbability: roundTo(test.upProbability, PLACES),
    exact: test.exact,
  }
}

/** A slope of ln(mass) per day as percent per week: 100 * (exp(7 b) - 1). */
export function percentPerWeek(slopeOfLogarithmPerDay: number): number {
  return roundTo(100 * Math.expm1(DAYS_PER_WEEK * slopeOfLogarithmPerDay), PLACES)
}
