import type { LoggerPolicy, Quantity } from '../../../shared/enclosure.ts'
import { rounded } from '../units.ts'
import { type PlotPoint, thinned } from './plot.ts'
import type { LoggerSeries } from './read.ts'
import { type ThermostatSwing, thermostatSwing } from './thermostat.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

export interface RangeEnds {
  readonly low?: number | undefined
  readonly high?: number | undefined
}

export interface Extreme {
  readonly value: number
  /** What the clock on the wall showed, without a zone. */
  readonly at: string
}

/** One part of the day of one quantity. */
export interface PartOfDay {
  readonly quantity?: string
  readonly range: RangeEnds
  readonly hours: number
  /** Shares of the time, in percent; absent where there is no range. */
  readonly insidePercent?: number
  readonly belowPercent?: number
  readonly abovePercent?: number
  readonly lowest: Extreme
  readonly highest: Extreme
}

export interface Measured {
  readonly day?: PartOfDay
  readonly night?: PartOfDay
  /** At most two points for each of the content's buckets, extremes kept. */
  readonly plot: readonly PlotPoint[]
}

export interface LoggerSummary {
  readonly from: string
  readonly to: string
  readonly readings: number
  readonly stepSeconds: number
  readonly unreadable: LoggerSeries['unreadable']
  readonly temperature?: Measured
  readonly humidity?: Measured
  /** The longest time in one piece below the lower end of the range of its part of the day. */
  readonly longestCold?: {
    readonly from: string
    readonly to: string
    readonly hours: number
    readonly lowest: number
  }
  readonly thermostat?: ThermostatSwing
  readonly gaps: {
    readonly count: number
    readonly hours: number
    readonly longest?: { readonly from: string; readonly to: string; readonly hours: number }
  }
}

const wall = (ms: number): string => new Date(ms).toISOString().slice(0, 19)
const hours = (ms: number): number => rounded(ms / HOUR_MS, 2)

/** The usual time between two readings, in milliseconds: the middle of all steps. */
function usualStep(times: Float64Array): number {
  const steps = new Float64Array(Math.max(0, times.length - 1))
  for (let at = 1; at < times.length; at += 1) steps[at - 1] = (times[at] ?? 0) - (times[at - 1] ?? 0)
  steps.sort()
  return steps[Math.floor(steps.length / 2)] ?? 0
}

interface Tally {
  ms: number
  below: number
  above: number
  low: number
  high: number
}

function partOf(
  tally: Tally,
  quantity: Quantity | undefined,
  values: Float64Array,
  times: Float64Array,
): PartOfDay | undefined {
  if (tally.low < 0) return undefined
  const range: RangeEnds = quantity ? { low: quantity.used.low, high: quantity.used.high } : {}
  const share = (ms: number) => (tally.ms > 0 ? rounded((ms / tally.ms) * 100, 1) : 0)
  const extreme = (at: number): Extreme => ({
    value: rounded(values[at] ?? 0, 2),
    at: wall(times[at] ?? 0),
  })
  const hasRange = range.low !== undefined || range.high !== undefined
  return {
    ...(quantity ? { quantity: quantity.id } : {}),
    range,
    hours: hours(tally.ms),
    ...(hasRange
      ? {
          insidePercent: share(tally.ms - tally.below - tally.above),
          belowPercent: share(tally.below),
          abovePercent: share(tally.above),
        }
      : {}),
    lowest: extreme(tally.low),
    highest: extreme(tally.high),
  }
}

/** What the quantities of a place are, by day and by night, and for humidity. */
export interface PlaceRanges {
  readonly day: Quantity | undefined
  readonly night: Quantity | undefined
  readonly humidity: Quantity | undefined
}

/**
 * Sums a series up. Each reading stands for the time until the next one, but for no more than the usual step after a
 * gap, and belongs to the part of the day in which it was taken.
 */
export function summaryOf(
  series: LoggerSeries,
  ranges: PlaceRanges,
  policy: LoggerPolicy,
  setCelsius: number | undefined,
): LoggerSummary {
  const { times, celsius, percent, unreadable } = series
  const step = usualStep(times)
  const gapMs = policy.gapSteps * step
  const count = times.length
  const isDay = (ms: number): boolean => {
    const hour = (ms % DAY_MS) / HOUR_MS
    const { dayFromHour: from, dayToHour: to } = policy
    return from <= to ? hour >= from && hour < to : hour >= from || hour < to
  }

  const gaps = { count: 0, ms: 0, at: -1, longestMs: 0 }
  const cold = { from: -1, to: 0, lowest: 0, bestFrom: -1, bestTo: 0, bestLowest: 0 }
  const closeCold = () => {
    if (cold.from >= 0 && cold.to - cold.from > cold.bestTo - cold.bestFrom) {
      cold.bestFrom = cold.from
      cold.bestTo = cold.to
      cold.bestLowest = cold.lowest
    }
    cold.from = -1
  }
  cold.bestTo = -1
  const empty = (): Tally => ({ ms: 0, below: 0, above: 0, low: -1, high: -1 })
  const tallies = { dayWarmth: empty(), nightWarmth: empty(), dayDamp: empty(), nightDamp: empty() }
  const take = (
    tally: Tally,
    values: Float64Array,
    at: number,
    held: number,
    range: Quantity | undefined,
  ) => {
    const value = values[at] ?? Number.NaN
    const low = range?.used.low ?? Number.NEGATIVE_INFINITY
    const high = range?.used.high ?? Number.POSITIVE_INFINITY
    tally.ms += held
    if (value < low) tally.below += held
    else if (value > high) tally.above += held
    if (tally.low < 0 || value < (values[tally.low] ?? 0)) tally.low = at
    if (tally.high < 0 || value > (values[tally.high] ?? 0)) tally.high = at
  }

  for (let at = 0; at < count; at += 1) {
    const time = times[at] ?? 0
    const until = at + 1 < count ? (times[at + 1] ?? time) - time : step
    const isGap = step > 0 && until > gapMs
    const held = isGap ? step : until
    if (isGap) {
      gaps.count += 1
      gaps.ms += until
      if (until > gaps.longestMs) {
        gaps.longestMs = until
        gaps.at = at
      }
    }
    const day = isDay(time)
    const warmth = celsius[at] ?? Number.NaN
    if (!Number.isNaN(warmth)) {
      const range = day ? ranges.day : ranges.night
      take(day ? tallies.dayWarmth : tallies.nightWarmth, celsius, at, held, range)
      const low = range?.used.low
      if (low !== undefined && warmth < low) {
        if (cold.from < 0) {
          cold.from = time
          cold.lowest = warmth
        }
        cold.to = time + held
        cold.lowest = Math.min(cold.lowest, warmth)
      } else closeCold()
    }
    if (isGap) closeCold()
    if (!Number.isNaN(percent[at] ?? Number.NaN))
      take(day ? tallies.dayDamp : tallies.nightDamp, percent, at, held, ranges.humidity)
  }
  closeCold()

  const measured = (
    values: Float64Array,
    day: Tally,
    night: Tally,
    dayRange: Quantity | undefined,
    nightRange: Quantity | undefined,
  ): Measured | undefined => {
    const dayPart = partOf(day, dayRange, values, times)
    const nightPart = partOf(night, nightRange, values, times)
    if (!dayPart && !nightPart) return undefined
    return {
      ...(dayPart ? { day: dayPart } : {}),
      ...(nightPart ? { night: nightPart } : {}),
      plot: thinned(times, values, policy.plotBuckets).map(({ at, value }) => ({
        at,
        value: rounded(value, 2),
      })),
    }
  }
  const temperature = measured(celsius, tallies.dayWarmth, tallies.nightWarmth, ranges.day, ranges.night)
  const humidity = measured(percent, tallies.dayDamp, tallies.nightDamp, ranges.humidity, ranges.humidity)
  const thermostat = temperature && thermostatSwing(times, celsius, policy, gapMs, setCelsius)
  const gapFrom = times[gaps.at] ?? 0
  return {
    from: wall(times[0] ?? 0),
    to: wall(times[count - 1] ?? 0),
    readings: count,
    stepSeconds: rounded(step / 1000, 1),
    unreadable,
    ...(temperature ? { temperature } : {}),
    ...(humidity ? { humidity } : {}),
    ...(cold.bestFrom >= 0
      ? {
          longestCold: {
            from: wall(cold.bestFrom),
            to: wall(cold.bestTo),
            hours: hours(cold.bestTo - cold.bestFrom),
            lowest: rounded(cold.bestLowest, 2),
          },
        }
      : {}),
    ...(thermostat ? { thermostat } : {}),
    gaps: {
      count: gaps.count,
      hours: hours(gaps.ms),
      ...(gaps.at >= 0
        ? {
            longest: {
              from: wall(gapFrom),
              to: wall(gapFrom + gaps.longestMs),
              hours: hours(gaps.longestMs),
            },
          }
        : {}),
    },
  }
}
