import type { Moment } from '../../shared/moment.ts'
import type { WeightComparison } from './compareWeights.ts'
import { reaches } from './lossCell.ts'
import { noiseFloorGrams } from './noiseFloor.ts'
import { median } from './numbers.ts'
import type { WeightPolicy } from './policy.ts'
import type { Reading, WeightSeries } from './series.ts'
import { elapsedDays, instantMilliseconds } from './time.ts'
import { fittedReadings, type WindowTrend } from './trend.ts'

/** The names of the flags, in the order in which they are shown. */
export const FLAG_NAMES = [
  'fastLoss',
  'slowLoss',
  'downwardOnThree',
  'youngNotGaining',
  'fastGain',
  'steady',
  'tooFewReadings',
] as const

export type FlagName = (typeof FLAG_NAMES)[number]

/** A flag that is up or down, and how surely; or one that the readings cannot settle yet. */
export type Flag =
  | { readonly holds: boolean; readonly certainty: 'sure' | 'likely' }
  | { readonly certainty: 'cantTellYet' }

export type Flags = Readonly<Record<FlagName, Flag>>

/** Whether the animal is still growing. */
export type LifeStage = 'young' | 'grown' | 'unknown'

const OPEN: Flag = { certainty: 'cantTellYet' }

/**
 * The flags that rules may use. A flag is open (`cantTellYet`) until the readings suffice, never silently
 * down; a loss larger than the noise floor needs no more than two readings. When the newest reading is no
 * longer fresh, a loss once seen stays likely and everything else is open again.
 */
export function weightFlags(
  series: WeightSeries,
  comparison: WeightComparison,
  trends: readonly WindowTrend[],
  life: LifeStage,
  policy: WeightPolicy,
  now: Moment,
): Flags {
  const readings = fittedReadings(series)
  const context: Context = { readings, comparison, trends, life, policy }
  const flags = {
    fastLoss: lossFlag(comparison, policy.flags.fastLoss, policy),
    slowLoss: lossFlag(comparison, policy.flags.slowLoss, policy),
    downwardOnThree: downwardOnThree(context),
    youngNotGaining: youngNotGaining(context),
    fastGain: fastGain(context),
    steady: steady(context),
  }
  const tooFewReadings: Flag = { holds: comparison.recentReadings < policy.enoughReadings, certainty: 'sure' }
  const newest = readings.at(-1)
  const nowMilliseconds = instantMilliseconds(now.instant, 'now.instant')
  if (newest === undefined || elapsedDays(newest.atMilliseconds, nowMilliseconds) > policy.freshDays) {
    return {
      fastLoss: stale(flags.fastLoss),
      slowLoss: stale(flags.slowLoss),
      downwardOnThree: stale(flags.downwardOnThree),
      youngNotGaining: life === 'grown' ? flags.youngNotGaining : OPEN,
      fastGain: life === 'young' ? flags.fastGain : OPEN,
      steady: OPEN,
      tooFewReadings,
    }
  }
  return { ...flags, tooFewReadings }
}

interface Context {
  readonly readings: readonly Reading[]
  readonly comparison: WeightComparison
  readonly trends: readonly WindowTrend[]
  readonly life: LifeStage
  readonly policy: WeightPolicy
}

function flag(holds: boolean, sure: boolean): Flag {
  return { holds, certainty: sure ? 'sure' : 'likely' }
}

function stale(value: Flag): Flag {
  return value.certainty !== 'cantTellYet' && value.holds ? flag(true, false) : OPEN
}

/** A loss of at least so many percent in so many days, read as in the grid of `lossCell`. */
function lossFlag(
  comparison: WeightComparison,
  limit: { readonly atLeastPercent: number; readonly withinDays?: number },
  policy: WeightPolicy,
): Flag {
  const { recent, slow, reference, losses } = comparison
  if (reference === undefined) return OPEN
  const shown = losses.find(loss => reaches(loss, limit))
  if (shown !== undefined)
    return flag(true, comparison.certainSinceTwoReadings && shown.basis === 'medianOfThree')
  const steps = [recent, slow, ...losses].filter(step => step !== undefined)
  if (steps.some(step => reaches(step, limit))) return OPEN
  const floorPercent = (100 * comparison.noiseFloorGrams) / reference.referenceGrams
  const nearIt = steps.some(({ lossPercent, overDays }) =>
    reaches({ lossPercent: lossPercent + floorPercent, overDays }, limit),
  )
  return flag(false, !nearIt && comparison.recentReadings >= policy.enoughReadings)
}

function downwardOnThree({ readings, comparison, trends, policy }: Context): Flag {
  const newest = readings.at(-1)
  const before = readings.at(-2)
  const first = readings.at(-3)
  const significant = trends.some(
    ({ readings: count, percentPerWeek, spanDays, downProbability }) =>
      count >= 3 &&
      downProbability <= policy.flags.trendProbability &&
      -percentPerWeek * (spanDays / 7) >
        (100 * comparison.noiseFloorGrams) / (newest?.massGrams ?? Number.NaN),
  )
  if (significant) return flag(true, true)
  if (newest === undefined || before === undefined) return OPEN
  if (newest.massGrams >= before.massGrams) return flag(false, true)
  if (first === undefined) return OPEN
  if (before.massGrams >= first.massGrams) return flag(false, true)
  const floor = noiseFloorGrams(first.massGrams, first.scaleStepGrams, newest.scaleStepGrams, policy)
  return first.massGrams - newest.massGrams > floor ? flag(true, false) : OPEN
}

function youngNotGaining({ readings, life, policy }: Context): Flag {
  if (life === 'grown') return flag(false, true)
  const newest = readings.at(-1)
  if (newest === undefined) return OPEN
  const { overDays } = policy.flags.youngNotGaining
  const gainedSince = (reading: Reading): boolean =>
    newest.massGrams - reading.massGrams >
    noiseFloorGrams(reading.massGrams, reading.scaleStepGrams, newest.scaleStepGrams, policy)
  const since = readings.slice(0, -1).filter(({ atMilliseconds }) => {
    return elapsedDays(atMilliseconds, newest.atMilliseconds) <= policy.referenceDays
  })
  const longAgo = since.findLast(
    ({ atMilliseconds }) => Math.floor(elapsedDays(atMilliseconds, newest.atMilliseconds)) >= overDays,
  )
  if (longAgo === undefined) return since.some(gainedSince) ? flag(false, false) : OPEN
  if (gainedSince(longAgo)) return flag(false, true)
  if (life === 'unknown') return OPEN
  const between = readings.slice(readings.indexOf(longAgo) + 1, -1)
  return flag(true, between.length > 0 && !between.some(reading => reading.massGrams > newest.massGrams))
}

function fastGain({ readings, life, policy }: Context): Flag {
  if (life === 'young') return flag(false, true)
  const newest = readings.at(-1)
  if (newest === undefined) return OPEN
  const { atLeastPercent, withinDays } = policy.flags.fastGain
  const within = readings
    .slice(0, -1)
    .filter(
      ({ atMilliseconds }) => Math.floor(elapsedDays(atMilliseconds, newest.atMilliseconds)) <= withinDays,
    )
  const lowest = within.reduce<Reading | undefined>(
    (low, reading) => (low === undefined || reading.massGrams < low.massGrams ? reading : low),
    undefined,
  )
  if (lowest === undefined) return OPEN
  const gained = (reading: Reading): boolean =>
    Math.round((1000 * (reading.massGrams - lowest.massGrams)) / lowest.massGrams) / 10 >= atLeastPercent
  if (!gained(newest)) return flag(false, within.length > 1)
  const floor = noiseFloorGrams(lowest.massGrams, lowest.scaleStepGrams, newest.scaleStepGrams, policy)
  if (newest.massGrams - lowest.massGrams <= floor || life === 'unknown') return OPEN
  const before = within.at(-1)
  return flag(true, before !== undefined && gained(before))
}

function steady({ readings, comparison, trends, policy }: Context): Flag {
  const { withinPercent, overDays, atLeastReadings } = policy.flags.steady
  const newest = readings.at(-1)
  if (newest === undefined) return OPEN
  const inside = readings.filter(
    ({ atMilliseconds }) => Math.floor(elapsedDays(atMilliseconds, newest.atMilliseconds)) <= overDays,
  )
  const middle = median(inside.map(({ massGrams }) => massGrams))
  const strays = inside.some(({ massGrams }) => Math.abs(massGrams - middle) > (withinPercent / 100) * middle)
  if (strays || comparison.losses.some(({ lossPercent }) => lossPercent > withinPercent))
    return flag(false, true)
  if (inside.length < atLeastReadings) return OPEN
  const drifts = trends.some(
    ({ downProbability, upProbability }) =>
      Math.min(downProbability, upProbability) <= policy.flags.trendProbability,
  )
  return flag(!drifts, !drifts)
}
