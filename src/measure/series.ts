import type { AnimalEvent, WeighIn } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import {
  type ExplainedStep,
  explainingEvents,
  explainSteps,
  onPresentFooting,
  type UnexplainingEvent,
} from './explain.ts'
import { type DayWeight, mergeSameDay, timedWeighIns } from './mergeSameDay.ts'
import { markOutliers, newestLooksOdd } from './outliers.ts'
import type { ComparisonPolicy } from './policy.ts'
import { instantMilliseconds } from './time.ts'

/** One day's weight in its place in the record. */
export interface Reading extends DayWeight {
  /** Marked as an odd one; kept and drawn, but not used as a reference or in a fit. */
  readonly outlier: boolean
  /** Between an explaining event and the new baseline after it; not used as a reference or in a fit. */
  readonly settling: boolean
  /** The mass less what later events explain, in grams. */
  readonly footingGrams: number
}

/** A weight record made ready for every computation: nothing in it is deleted. */
export interface WeightSeries {
  readonly readings: readonly Reading[]
  /** Index of the first reading of the present stretch, after the last event that explained a step. */
  readonly presentFrom: number
  readonly explained: readonly ExplainedStep[]
  readonly unexplaining: readonly UnexplainingEvent[]
  /** Whether the newest reading lies so far off its neighbours that it should be weighed again at once. */
  readonly newestLooksOdd: boolean
  /** Weighings dated after `now`, which are left out. */
  readonly notYet: number
}

/**
 * Makes a weight record ready: weighings of one day merged, events applied, outliers marked within the
 * stretches between events. Weighings and events later than `now` are left out and counted.
 */
export function weightSeries(
  weighIns: readonly WeighIn[],
  events: readonly AnimalEvent[],
  policy: ComparisonPolicy,
  now: Moment,
): WeightSeries {
  const nowMilliseconds = instantMilliseconds(now.instant, 'now.instant')
  const past = timedWeighIns(weighIns, policy.defaultScaleStepGrams).filter(
    ({ atMilliseconds }) => atMilliseconds <= nowMilliseconds,
  )
  const pastEvents = events
    .map((event, index) => ({ event, atMilliseconds: instantMilliseconds(event.at, `events.${index}.at`) }))
    .filter(({ atMilliseconds }) => atMilliseconds <= nowMilliseconds)
  const { usable, notSeen } = explainingEvents(pastEvents, policy.explanations)
  const cuts = usable.map(({ atMilliseconds }) => atMilliseconds)
  const days = mergeSameDay(past, now.zone, cuts)
  const { steps, unexplaining } = explainSteps(days, usable, policy)
  const footing = onPresentFooting(days, steps)
  const starts = [0, ...steps.map(({ beforeIndex }) => beforeIndex + 1)]
  const outliers = starts.flatMap((from, place) => {
    const to = starts[place + 1] ?? days.length
    return markOutliers(days.slice(from, to), to === days.length, policy)
  })
  const settling = new Set<number>()
  for (const { beforeIndex, baselineIndex } of steps) {
    for (let index = beforeIndex + 1; index < baselineIndex; index++) settling.add(index)
  }
  return {
    readings: days.map(
      ({ at, atMilliseconds, massGrams, scaleStepGrams, weighings, spreadGrams }, index) => ({
        at,
        atMilliseconds,
        massGrams,
        scaleStepGrams,
        weighings,
        spreadGrams,
        outlier: outliers[index] === true,
        settling: settling.has(index),
        footingGrams: footing[index] ?? massGrams,
      }),
    ),
    presentFrom: steps.filter(({ explainedGrams }) => explainedGrams > 0).at(-1)?.baselineIndex ?? 0,
    explained: steps,
    unexplaining: [...notSeen, ...unexplaining],
    newestLooksOdd: newestLooksOdd(days.slice(starts.at(-1)), policy),
    notYet: weighIns.length - past.length,
  }
}
