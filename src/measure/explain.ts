import type { AnimalEvent } from '../../shared/case-file.ts'
import type { DayWeight } from './mergeSameDay.ts'
import type { Explanation } from './policy.ts'
import { elapsedDays } from './time.ts'

/** An event of a kind that can explain a step, with its time in milliseconds. */
export interface ExplainingEvent {
  readonly at: string
  readonly atMilliseconds: number
  readonly share: number
  readonly explanation: Explanation
}

/** A step down between two readings and how much of it events explain. */
export interface ExplainedStep {
  readonly events: readonly { readonly at: string; readonly kind: string }[]
  /** Index of the last reading before the events. */
  readonly beforeIndex: number
  /** Index of the new baseline after them. */
  readonly baselineIndex: number
  readonly stepGrams: number
  /** The most the events could explain. */
  readonly upToGrams: number
  /** What they do explain: the step, up to that size, and never less than nothing. */
  readonly explainedGrams: number
  readonly explainedByKind: readonly { readonly explanation: Explanation; readonly grams: number }[]
}

/** An event that explains nothing, and why. */
export interface UnexplainingEvent {
  readonly at: string
  readonly kind: string
  readonly why: 'notSeen' | 'weighedTooLate' | 'notWeighedSince'
}

/** The events of kinds that can explain a step, in order of time, apart from those that had to be seen and were not. */
export function explainingEvents(
  events: readonly { readonly event: AnimalEvent; readonly atMilliseconds: number }[],
  explanations: readonly Explanation[],
): { readonly usable: ExplainingEvent[]; readonly notSeen: UnexplainingEvent[] } {
  const usable: ExplainingEvent[] = []
  const notSeen: UnexplainingEvent[] = []
  for (const { event, atMilliseconds } of events) {
    const explanation = explanations.find(({ kind }) => kind === event.kind)
    if (explanation === undefined) continue
    if (explanation.onlyIfSeen && event.seen !== true) {
      notSeen.push({ at: event.at, kind: event.kind, why: 'notSeen' })
      continue
    }
    usable.push({
      at: event.at,
      atMilliseconds,
      explanation,
      share: explanation.byShare ? (event.share ?? 1) : 1,
    })
  }
  usable.sort((one, other) => one.atMilliseconds - other.atMilliseconds)
  return { usable, notSeen }
}

/**
 * The steps that events explain, in order of time. An event explains something only when the animal was
 * weighed before it and again within `explainedWithinDays` after it; the new baseline is the first of those
 * readings at least `newBaselineDays` after it, otherwise the last of them. Events whose stretches overlap
 * share one step, so that no gram is explained twice.
 */
export function explainSteps(
  readings: readonly DayWeight[],
  events: readonly ExplainingEvent[],
  policy: { readonly explainedWithinDays: number; readonly newBaselineDays: number },
): { readonly steps: ExplainedStep[]; readonly unexplaining: UnexplainingEvent[] } {
  const groups: { beforeIndex: number; baselineIndex: number; events: ExplainingEvent[] }[] = []
  const unexplaining: UnexplainingEvent[] = []
  for (const event of events) {
    const afterIndex = readings.findIndex(({ atMilliseconds }) => atMilliseconds > event.atMilliseconds)
    if (afterIndex === 0) continue
    if (afterIndex === -1) {
      unexplaining.push({ at: event.at, kind: event.explanation.kind, why: 'notWeighedSince' })
      continue
    }
    const baselineIndex = baselineAfter(readings, event, afterIndex, policy)
    if (baselineIndex === undefined) {
      unexplaining.push({ at: event.at, kind: event.explanation.kind, why: 'weighedTooLate' })
      continue
    }
    const group = groups.at(-1)
    if (group !== undefined && afterIndex - 1 < group.baselineIndex) {
      group.baselineIndex = Math.max(group.baselineIndex, baselineIndex)
      group.events.push(event)
    } else {
      groups.push({ beforeIndex: afterIndex - 1, baselineIndex, events: [event] })
    }
  }
  const steps = groups.map(({ beforeIndex, baselineIndex, events: together }) => {
    const beforeGrams = readings[beforeIndex]?.massGrams ?? 0
    const stepGrams = beforeGrams - (readings[baselineIndex]?.massGrams ?? 0)
    const capacities = capacityByKind(together, beforeGrams)
    const upToGrams = capacities.reduce((sum, { grams }) => sum + grams, 0)
    const explainedGrams = Math.min(Math.max(stepGrams, 0), upToGrams)
    return {
      events: together.map(({ at, explanation }) => ({ at, kind: explanation.kind })),
      beforeIndex,
      baselineIndex,
      stepGrams,
      upToGrams,
      explainedGrams,
      explainedByKind: capacities.map(({ explanation, grams }) => ({
        explanation,
        grams: upToGrams === 0 ? 0 : (explainedGrams * grams) / upToGrams,
      })),
    }
  })
  return { steps, unexplaining }
}

/**
 * Every reading's mass on the footing of the newest: what later events took off, as far as it is explained,
 * is taken off the readings from before them, so that readings on both sides of a lost tail can be compared
 * and all that is not explained stays visible as loss. In grams, in the order of the readings.
 */
export function onPresentFooting(readings: readonly DayWeight[], steps: readonly ExplainedStep[]): number[] {
  const takenByKind = new Map<Explanation, number>()
  const footing = readings.map(({ massGrams }) => massGrams)
  let step = steps.length - 1
  for (let index = readings.length - 1; index >= 0; index--) {
    for (
      let current = steps[step];
      current !== undefined && current.beforeIndex === index;
      current = steps[step]
    ) {
      for (const { explanation, grams } of current.explainedByKind) {
        const sofar = takenByKind.get(explanation) ?? 0
        takenByKind.set(explanation, explanation.repeats === 'adds' ? sofar + grams : Math.max(sofar, grams))
      }
      step--
    }
    for (const grams of takenByKind.values()) footing[index] = (footing[index] ?? 0) - grams
  }
  return footing
}

function baselineAfter(
  readings: readonly DayWeight[],
  event: ExplainingEvent,
  afterIndex: number,
  policy: { readonly explainedWithinDays: number; readonly newBaselineDays: number },
): number | undefined {
  let last: number | undefined
  for (let index = afterIndex; index < readings.length; index++) {
    const days = elapsedDays(
      event.atMilliseconds,
      readings[index]?.atMilliseconds ?? Number.POSITIVE_INFINITY,
    )
    if (days > policy.explainedWithinDays) break
    last = index
    if (days >= policy.newBaselineDays) break
  }
  return last
}

/** The most each kind of event could have taken: several parts of one tail add up to one tail at most. */
function capacityByKind(events: readonly ExplainingEvent[], beforeGrams: number) {
  const shares = new Map<Explanation, number>()
  for (const { explanation, share } of events) {
    const sofar = shares.get(explanation) ?? 0
    shares.set(
      explanation,
      explanation.repeats === 'adds' ? Math.min(1, sofar + share) : Math.max(sofar, share),
    )
  }
  return [...shares].map(([explanation, share]) => ({
    explanation,
    grams: (share * explanation.upToPercent * beforeGrams) / 100,
  }))
}
