import type { Moment } from '../../../shared/moment.ts'
import type { LossStep } from '../../measure/compareWeights.ts'
import type { Flag } from '../../measure/flags.ts'
import type { WeightPolicy } from '../../measure/policy.ts'
import type { WeightReport } from '../../measure/weightReport.ts'
import { calendarDaysBetween } from '../../triage/calendar.ts'
import { pastDay } from '../wording/dates.ts'
import { labels } from '../wording/labels.ts'
import { shownTrend } from './chart/chart-data.ts'
import { numberWords } from './words.ts'

/** What a weight report says, in sentences. Nothing is computed here, and nothing is said that the report does not bear. */

export interface Said {
  /** The one sentence above the chart. */
  readonly main: string
  /** What belongs to it: how sure, what explains it, what would settle it. */
  readonly more: readonly string[]
  /** The weight went down more than the scale's noise. */
  readonly worry: boolean
}

const inDays = (days: number) => (days === 0 ? 'within a day' : `in ${labels.days(days)}`)
const holds = (flag: Flag) => flag.certainty !== 'cantTellYet' && flag.holds

/** Says what a record of weights shows. */
export function sayReport(
  report: WeightReport,
  policy: WeightPolicy,
  isYoung: boolean,
  now: Moment,
  locale: string,
): Said {
  const { grams, percent } = numberWords(locale)
  const { series, comparison, flags, trends } = report
  const { newest, losses } = comparison
  const when = (instant: string) => pastDay(instant, now, locale)
  const said = (main: string, more: readonly string[] = [], worry = false): Said => ({ main, more, worry })
  if (newest === undefined) return said('There is no weight yet. The first one starts the record.')
  const weight = `${grams(newest.massGrams)} ${when(newest.at)}`
  if (series.readings.length === 1)
    return said(`One weight: ${weight}.`, ['A second one, some days later, shows which way it goes.'])

  const asides = [
    ...(comparison.explainedGrams > 0
      ? [`What happened in between explains ${grams(comparison.explainedGrams)} of the change.`]
      : []),
    ...(comparison.newestIsFresh ? [] : ['The newest weight is old. Weigh it again to know about today.']),
    ...(comparison.scaleTooCoarse
      ? ['This scale is too coarse for so light an animal. Use a finer one.']
      : []),
  ]
  const worst = losses.at(-1)
  if (worst !== undefined) {
    const lost = ({ lossPercent, referenceAt }: LossStep) =>
      `${percent(lossPercent)} ${inDays(calendarDaysBetween(Date.parse(referenceAt), Date.parse(newest.at), now.zone))}`
    const recent =
      comparison.recent !== undefined &&
      losses.some(({ lossGrams }) => lossGrams === comparison.recent?.lossGrams)
        ? comparison.recent
        : worst
    return said(
      `It lost ${grams(recent.lossGrams)}: ${weight}, against ${grams(recent.referenceGrams)} before. That is ${lost(recent)}.`,
      [
        ...(worst.lossGrams > recent.lossGrams ? [`Looking further back, it lost ${lost(worst)}.`] : []),
        ...(comparison.certainSinceTwoReadings
          ? []
          : ['Only the newest weighing shows it. Until a second one says otherwise, it counts.']),
        ...(holds(flags.downwardOnThree) ? ['It goes down from one weighing to the next.'] : []),
        'Start a check: it asks what else you see, and says how soon a vet is needed.',
        ...asides,
      ],
      true,
    )
  }
  const trend = shownTrend(trends, isYoung)
  const perWeek =
    trend?.limits === undefined
      ? []
      : [
          `Per week: ${percent(trend.percentPerWeek, true)}, and likely between ${percent(trend.limits.lowPercentPerWeek, true)} and ${percent(trend.limits.highPercentPerWeek, true)}.`,
        ]
  if (holds(flags.downwardOnThree))
    return said(`Its weight goes down over many weighings: ${weight}.`, [...perWeek, ...asides], true)
  if (holds(flags.youngNotGaining))
    return said(
      `A growing animal, and no gain that this scale can show in ${labels.days(policy.flags.youngNotGaining.overDays)}: ${weight}.`,
      asides,
      true,
    )
  if (holds(flags.fastGain))
    return said(
      `It gained ${percent(policy.flags.fastGain.atLeastPercent)} or more in ${labels.days(policy.flags.fastGain.withinDays)}: ${weight}.`,
      asides,
    )
  if (holds(flags.steady))
    return said(
      `Steady: every weight of the last ${labels.days(policy.flags.steady.overDays)} is within ${percent(policy.flags.steady.withinPercent)} of their middle.`,
      [`The newest is ${weight}.`, ...asides],
    )
  if (trend !== undefined && trend.percentPerWeek > 0 && trend.upProbability <= policy.flags.trendProbability)
    return said(`Its weight goes up: ${weight}.`, [...perWeek, ...asides])
  if (trend !== undefined && trend.downProbability <= policy.flags.trendProbability)
    return said(`Its weight drifts down, so far by less than it swings from day to day: ${weight}.`, [
      ...perWeek,
      ...asides,
    ])
  const before = series.readings.at(-2)
  const gained = before !== undefined && newest.massGrams - before.massGrams > comparison.noiseFloorGrams
  if (gained)
    return said(
      `It weighs more than last time: ${weight}, against ${grams(before.massGrams)} ${when(before.at)}.`,
      asides,
    )
  const few = holds(flags.tooFewReadings)
  return said(
    `No change that this scale can show: ${weight}${before === undefined ? '' : `, and ${grams(before.massGrams)} ${when(before.at)}`}.`,
    [
      `A difference up to ${grams(comparison.noiseFloorGrams)} means nothing here.`,
      ...(few ? ['With so few weights a small change cannot be told yet.'] : []),
      ...asides,
    ],
  )
}

/** Why the next weighing is due, and what it would settle. */
export function sayNext(report: WeightReport, now: Moment, locale: string): readonly string[] {
  const { grams } = numberWords(locale)
  const { next, comparison } = report
  const days = calendarDaysBetween(Date.parse(now.instant), Date.parse(next.dueAt), now.zone)
  const day = days <= 0 ? 'today' : days === 1 ? 'tomorrow' : futureDay(next.dueAt, now, locale)
  const why = {
    nothingWeighed: 'The first weight is what later ones are read against.',
    confirmTheNewest: 'The newest weight stands alone. A second one today tells whether it is true.',
    afterAnEvent: 'Something happened that changes its weight. This weighing finds the new start.',
    stillOpen: 'It settles what the weights so far leave open.',
    routine: 'That keeps the record good enough to see a slow loss.',
  }[next.because]
  const line = next.lines.find(({ flag }) => flag === 'fastLoss') ?? next.lines[0]
  return [
    `Weigh next ${day}. ${why}`,
    ...(line === undefined || comparison.newest === undefined || comparison.losses.length > 0
      ? []
      : [`At ${grams(line.atOrBelowGrams)} or less, start a check.`]),
  ]
}

function futureDay(instant: string, now: Moment, locale: string): string {
  const format = new Intl.DateTimeFormat(locale, {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone: now.zone,
  })
  return `on ${format.format(new Date(instant))}`
}
