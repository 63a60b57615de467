import type { AnimalEvent, WeighIn } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import type { ExplainedStep, UnexplainingEvent } from './explain.ts'
import { noiseFloorGrams } from './noiseFloor.ts'
import { medianOfThree, roundTo } from './numbers.ts'
import type { Certainty, ComparisonPolicy } from './policy.ts'
import { type Reading, type WeightSeries, weightSeries } from './series.ts'
import { elapsedDays, instantMilliseconds, wholeDays } from './time.ts'

/** The newest reading against one earlier weight of the same animal. */
export interface LossStep {
  /** The earlier weight, less what events in between explain. */
  readonly referenceGrams: number
  /** The latest reading that weighed at least that much. */
  readonly referenceAt: string
  /** A median of three neighbouring readings, or one reading alone. */
  readonly basis: 'medianOfThree' | 'singleReading'
  /** What is missing now; 0 when nothing is. */
  readonly lossGrams: number
  /** The same in percent of the reference. */
  readonly lossPercent: number
  /** Days of 24 hours between the reference reading and the newest. */
  readonly overDays: number
}

/** What is known about the newest weight compared with the animal's own past. Holds no urgency. */
export interface WeightComparison {
  readonly newest: { readonly at: string; readonly massGrams: number; readonly ageDays: number } | undefined
  /** Whether the newest reading still speaks for today. */
  readonly newestIsFresh: boolean
  /** Days with a weighing inside the window of the reference, the newest included. */
  readonly recentReadings: number
  /** Against the best weight of the shorter window; undefined when nothing was weighed in it. */
  readonly recent: LossStep | undefined
  /** Against the best weight of the longer window, for slow loss. */
  readonly slow: LossStep | undefined
  /** `recent`, or `slow` where there is no recent reference: the weight to name on a screen. */
  readonly reference: LossStep | undefined
  readonly lossGrams: number | undefined
  readonly lossPercent: number | undefined
  readonly overDays: number | undefined
  /** Every loss beyond the noise floor that no other exceeds in fewer or as many days, shortest first. */
  readonly losses: readonly LossStep[]
  /** A difference up to this many grams means nothing. */
  readonly noiseFloorGrams: number
  readonly beyondNoise: boolean
  /** Whether the two newest readings, or two weighings of the newest day, both show the loss. */
  readonly certainSinceTwoReadings: boolean
  /** Whether to weigh again at once because the newest reading lies far from what came before and stands alone. */
  readonly weighAgainNow: boolean
  /** Whether one step of the scale is too large a part of this animal. */
  readonly scaleTooCoarse: boolean
  /** Grams that events explain and that are left out of the loss. */
  readonly explainedGrams: number
  readonly explained: readonly ExplainedStep[]
  readonly unexplaining: readonly UnexplainingEvent[]
  /** How sure it is that there is a loss beyond the noise, or that there is none. */
  readonly confidence: Certainty
}

/**
 * Compares the newest weight with the best the same animal had: the highest running median of three in the
 * last `referenceDays` (and `slowReferenceDays`) before it. A reading whose two neighbours are not both near
 * in time, such as the first on record, stands for itself, because nothing contradicts it. Events explain a
 * step up to their size; everything else is loss. The newest reading is believed.
 */
export function compareWeights(
  weighIns: readonly WeighIn[],
  events: readonly AnimalEvent[],
  policy: ComparisonPolicy,
  now: Moment,
): WeightComparison {
  return compareSeries(weightSeries(weighIns, events, policy, now), policy, now)
}

/** `compareWeights` for a record that is already made ready. */
export function compareSeries(series: WeightSeries, policy: ComparisonPolicy, now: Moment): WeightComparison {
  const newest = series.readings.at(-1)
  if (newest === undefined) return { ...NOTHING_WEIGHED, unexplaining: series.unexplaining }
  const ageDays = elapsedDays(newest.atMilliseconds, instantMilliseconds(now.instant, 'now.instant'))
  const fresh = ageDays <= policy.freshDays
  const steps = stepsDownTo(series, newest, policy)
  const recent = greatestLoss(steps.filter(({ step }) => Math.floor(step.overDays) <= policy.referenceDays))
  const slow = greatestLoss(steps)
  const reference = recent ?? slow
  const shown = reference?.step
  const floor = noiseFloorGrams(
    shown?.referenceGrams ?? newest.massGrams,
    newest.scaleStepGrams,
    reference?.scaleStepGrams ?? newest.scaleStepGrams,
    policy,
  )
  const beyond = steps.filter(({ step, floorGrams }) => step.lossGrams > floorGrams)
  const losses = staircase(beyond.map(({ step }) => step))
  const greatest = greatestLoss(beyond)
  const twice = greatest !== undefined && shownTwice(series, newest, greatest)
  const recentReadings = series.readings.filter(
    ({ atMilliseconds }) => wholeDays(atMilliseconds, newest.atMilliseconds) <= policy.referenceDays,
  ).length
  const beyondNoise = losses.length > 0
  const scaleTooCoarse = newest.scaleStepGrams > (policy.coarseStepPercent / 100) * newest.massGrams
  return {
    newest: { at: newest.at, massGrams: newest.massGrams, ageDays: roundTo(ageDays, 4) },
    newestIsFresh: fresh,
    recentReadings,
    recent: recent?.step,
    slow: slow?.step,
    reference: shown,
    lossGrams: shown?.lossGrams,
    lossPercent: shown?.lossPercent,
    overDays: shown?.overDays,
    losses,
    noiseFloorGrams: roundTo(floor, 6),
    beyondNoise,
    certainSinceTwoReadings: twice,
    weighAgainNow: !twice && newest.weighings === 1 && (series.newestLooksOdd || beyondNoise),
    scaleTooCoarse,
    explainedGrams: series.explained.reduce((sum, { explainedGrams }) => sum + explainedGrams, 0),
    explained: series.explained,
    unexplaining: series.unexplaining,
    confidence: confidenceOf(),
  }

  function confidenceOf(): Certainty {
    if (reference === undefined) return 'cantTellYet'
    if (greatest !== undefined) {
      return fresh && twice && greatest.step.basis === 'medianOfThree' ? 'sure' : 'likely'
    }
    if (!fresh || scaleTooCoarse || recentReadings < policy.enoughReadings) return 'cantTellYet'
    return 'sure'
  }
}

const NOTHING_WEIGHED: WeightComparison = {
  newest: undefined,
  newestIsFresh: false,
  recentReadings: 0,
  recent: undefined,
  slow: undefined,
  reference: undefined,
  lossGrams: undefined,
  lossPercent: undefined,
  overDays: undefined,
  losses: [],
  noiseFloorGrams: 0,
  beyondNoise: false,
  certainSinceTwoReadings: false,
  weighAgainNow: false,
  scaleTooCoarse: false,
  explainedGrams: 0,
  explained: [],
  unexplaining: [],
  confidence: 'cantTellYet',
}

interface MeasuredStep {
  readonly step: LossStep
  readonly referenceMilliseconds: number
  readonly scaleStepGrams: number
  readonly floorGrams: number
}

/** The newest reading against every earlier one that may serve as a reference, newest first. */
function stepsDownTo(series: WeightSeries, newest: Reading, policy: ComparisonPolicy): MeasuredStep[] {
  const usable = series.readings.filter(
    reading =>
      reading === newest ||
      (!reading.outlier &&
        !reading.settling &&
        elapsedDays(reading.atMilliseconds, newest.atMilliseconds) <=
          policy.slowReferenceDays + policy.neighboursWithinDays),
  )
  const steps: MeasuredStep[] = []
  for (let index = usable.length - 2; index >= 0; index--) {
    const reading = usable[index]
    if (reading === undefined) continue
    if (wholeDays(reading.atMilliseconds, newest.atMilliseconds) > policy.slowReferenceDays) break
    const { referenceGrams, held, basis } = smoothed(
      usable[index - 1],
      reading,
      usable[index + 1],
      newest,
      policy,
    )
    const lossGrams = Math.max(0, referenceGrams - newest.massGrams)
    const step: LossStep = {
      referenceGrams: roundTo(referenceGrams, 6),
      referenceAt: held.at,
      basis,
      lossGrams: roundTo(lossGrams, 6),
      lossPercent: lossGrams === 0 ? 0 : roundTo((100 * lossGrams) / referenceGrams, 6),
      overDays: roundTo(elapsedDays(held.atMilliseconds, newest.atMilliseconds), 4),
    }
    const floorGrams =
      lossGrams === 0
        ? 0
        : noiseFloorGrams(referenceGrams, newest.scaleStepGrams, held.scaleStepGrams, policy)
    steps.push({
      step,
      referenceMilliseconds: held.atMilliseconds,
      scaleStepGrams: held.scaleStepGrams,
      floorGrams,
    })
  }
  return steps
}

/** A reading smoothed by its neighbours where both are near, and the latest of the three that weighed as much. */
function smoothed(
  before: Reading | undefined,
  reading: Reading,
  after: Reading | undefined,
  newest: Reading,
  policy: ComparisonPolicy,
): { readonly referenceGrams: number; readonly held: Reading; readonly basis: LossStep['basis'] } {
  const near = (other: Reading): boolean =>
    Math.abs(elapsedDays(other.atMilliseconds, reading.atMilliseconds)) <= policy.neighboursWithinDays
  if (before === undefined || after === undefined || !near(before) || !near(after)) {
    return { referenceGrams: reading.footingGrams, held: reading, basis: 'singleReading' }
  }
  const referenceGrams = medianOfThree(before.footingGrams, reading.footingGrams, after.footingGrams)
  const held = [after, reading, before].find(
    candidate => candidate !== newest && candidate.footingGrams >= referenceGrams,
  )
  return { referenceGrams, held: held ?? reading, basis: 'medianOfThree' }
}

/** The step from the highest reference; of equals the one over fewer days. */
function greatestLoss(steps: readonly MeasuredStep[]): MeasuredStep | undefined {
  let greatest: MeasuredStep | undefined
  for (const candidate of steps) {
    if (greatest === undefined || isGreater(candidate.step, greatest.step)) greatest = candidate
  }
  return greatest
}

function isGreater(one: LossStep, other: LossStep): boolean {
  if (one.referenceGrams !== other.referenceGrams) return one.referenceGrams > other.referenceGrams
  return one.overDays < other.overDays
}

function staircase(steps: readonly LossStep[]): LossStep[] {
  const byDays = [...steps].sort(
    (one, other) => one.overDays - other.overDays || other.lossPercent - one.lossPercent,
  )
  const kept: LossStep[] = []
  for (const step of byDays) if (step.lossPercent > (kept.at(-1)?.lossPercent ?? 0)) kept.push(step)
  return kept
}

/** Whether a second weighing, of the newest day or the reading before it, also lies beyond the noise under the reference. */
function shownTwice(series: WeightSeries, newest: Reading, greatest: MeasuredStep): boolean {
  const certainlyBelow = greatest.step.referenceGrams - greatest.floorGrams
  if (newest.weighings > 1 && newest.massGrams + newest.spreadGrams < certainlyBelow) return true
  const previous = series.readings.findLast(
    reading => reading !== newest && !reading.outlier && !reading.settling,
  )
  if (previous === undefined || previous.atMilliseconds <= greatest.referenceMilliseconds) return false
  return previous.footingGrams < certainlyBelow
}
