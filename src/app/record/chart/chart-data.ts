import type { AnimalEvent } from '../../../../shared/case-file.ts'
import type { Moment } from '../../../../shared/moment.ts'
import { type GrowthData, growthBand } from '../../../measure/growthBand.ts'
import type { Reading, WeightSeries } from '../../../measure/series.ts'
import type { WindowTrend } from '../../../measure/trend.ts'
import type { WeightReport } from '../../../measure/weightReport.ts'

const DAY_MS = 86_400_000
const WEEK_MS = 7 * DAY_MS

/** One point of a line or of the edge of an area. */
export interface ChartPoint {
  readonly ms: number
  readonly massGrams: number
}

export interface ChartEvent {
  readonly ms: number
  readonly at: string
  readonly kind: AnimalEvent['kind']
}

/** All that the chart draws, in grams and milliseconds; it knows no screen. */
export interface ChartData {
  readonly fromMs: number
  readonly toMs: number
  readonly readings: readonly Reading[]
  /** The weight that the others are read against. */
  readonly referenceGrams: number | undefined
  /** Where the present stretch begins: what was before a lost tail is not read against it. */
  readonly presentMs: number
  /** Lines so many percent under it. */
  readonly lossLines: readonly { readonly percent: number; readonly massGrams: number }[]
  readonly fit:
    | {
        readonly line: readonly ChartPoint[]
        /** The slopes at Sen's limits through the middle of the line, as the edges of an area. */
        readonly limits: readonly [readonly ChartPoint[], readonly ChartPoint[]] | undefined
      }
    | undefined
  readonly events: readonly ChartEvent[]
  /** What published growth would allow; not a pass mark. */
  readonly band: readonly { readonly ms: number; readonly lowGrams: number; readonly highGrams: number }[]
}

/** Kinds of event that the chart marks: what comes daily would hide the rest. */
const MARKED: readonly AnimalEvent['kind'][] = [
  'tail-lost',
  'eggs-laid',
  'new-home',
  'winter-rest-began',
  'winter-rest-ended',
  'treated',
  'loose-droppings',
  'died',
]

export interface ChartInput {
  readonly report: WeightReport
  /** All weights, where the report rests on the recent ones of a long record. */
  readonly series?: WeightSeries
  readonly events: readonly AnimalEvent[]
  readonly now: Moment
  /** Percent of loss at which a line is drawn; from content. */
  readonly lossPercents: readonly number[]
  /** Only so many days before the newest reading. */
  readonly spanDays?: number | undefined
  readonly isYoung: boolean
  readonly hatchedOn?: string | undefined
  readonly growth?: GrowthData | undefined
}

/** Chooses what of a report is drawn; undefined when nothing was weighed. */
export function chartData(input: ChartInput): ChartData | undefined {
  const { report, series = report.series, events, now, lossPercents, spanDays } = input
  const newest = series.readings.at(-1)
  if (newest === undefined) return undefined
  const oldest = spanDays === undefined ? 0 : newest.atMilliseconds - spanDays * DAY_MS
  const readings = series.readings.filter(({ atMilliseconds }) => atMilliseconds >= oldest)
  const firstMs = readings[0]?.atMilliseconds ?? newest.atMilliseconds
  // Up to today, so that an old weight looks old, but never mostly emptiness.
  const nowMs = Math.max(Date.parse(now.instant), newest.atMilliseconds)
  const width = Math.max(newest.atMilliseconds - firstMs, WEEK_MS)
  const toMs = Math.min(nowMs, newest.atMilliseconds + width / 2)
  const fromMs = Math.min(firstMs, toMs - WEEK_MS)
  const { reference } = report.comparison
  return {
    fromMs,
    toMs,
    readings,
    referenceGrams: reference?.referenceGrams,
    presentMs: series.readings[series.presentFrom]?.atMilliseconds ?? fromMs,
    lossLines: lossPercents.flatMap(percent =>
      reference === undefined ? [] : [{ percent, massGrams: reference.referenceGrams * (1 - percent / 100) }],
    ),
    fit: fitOf(shownTrend(report.trends, input.isYoung), fromMs),
    events: events
      .map(({ at, kind }) => ({ at, kind, ms: Date.parse(at) }))
      .filter(({ ms, kind }) => MARKED.includes(kind) && ms >= fromMs && ms <= toMs)
      .sort((one, other) => one.ms - other.ms),
    band: bandOf(input, fromMs, toMs),
  }
}

/**
 * Which of the fitted windows is told and drawn: the longest, as it rests on most weights; of a young animal the
 * shortest that has limits, because its growth slows from month to month.
 */
export function shownTrend(trends: readonly WindowTrend[], isYoung: boolean): WindowTrend | undefined {
  return isYoung ? (trends.find(({ limits }) => limits !== undefined) ?? trends.at(-1)) : trends.at(-1)
}

function fitOf(trend: WindowTrend | undefined, fromMs: number): ChartData['fit'] {
  if (trend === undefined) return undefined
  const [start, end] = trend.line.map(({ at, massGrams }) => ({ ms: Date.parse(at), massGrams }))
  if (start === undefined || end === undefined || start.ms < fromMs) return undefined
  const middle: ChartPoint = {
    ms: (start.ms + end.ms) / 2,
    massGrams: Math.sqrt(start.massGrams * end.massGrams),
  }
  const along = (percentPerWeek: number): ChartPoint[] =>
    [start.ms, middle.ms, end.ms].map(ms => ({
      ms,
      massGrams: middle.massGrams * (1 + percentPerWeek / 100) ** ((ms - middle.ms) / WEEK_MS),
    }))
  const { limits } = trend
  return {
    line: [start, end],
    limits: limits && [along(limits.lowPercentPerWeek), along(limits.highPercentPerWeek)],
  }
}

const BAND_POINTS = 24

function bandOf({ hatchedOn, growth, isYoung }: ChartInput, fromMs: number, toMs: number): ChartData['band'] {
  if (!isYoung || hatchedOn === undefined || growth === undefined) return []
  const hatchedMs = Date.parse(hatchedOn)
  const endMs = Math.min(toMs, hatchedMs + growth.validToDays * DAY_MS)
  const startMs = Math.max(fromMs, hatchedMs)
  if (endMs <= startMs) return []
  return Array.from({ length: BAND_POINTS }, (_, at) => {
    const ms = startMs + ((endMs - startMs) * at) / (BAND_POINTS - 1)
    return { ms, band: growthBand(Math.min((ms - hatchedMs) / DAY_MS, growth.validToDays), growth) }
  }).flatMap(({ ms, band }) => (band === undefined ? [] : [{ ms, ...band }]))
}

/** How far a reading lies from the reference, in percent of it; below is negative. */
export function againstReferencePercent(
  massGrams: number,
  referenceGrams: number | undefined,
): number | undefined {
  return referenceGrams === undefined ? undefined : (100 * (massGrams - referenceGrams)) / referenceGrams
}
