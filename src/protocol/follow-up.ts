import { createHash } from 'node:crypto'
import type { Condition } from '../../shared/compiled.ts'
import type { ConditionSource, FollowUpSource } from '../../shared/content.ts'
import type { FollowUpPlan, FollowUps, FollowUpTiming, FollowUpWords } from '../../shared/follow-up.ts'
import type { Level, Urgency } from '../../shared/urgency.ts'
import type { ContentDocument, Path } from './documents.ts'
import type { ProtocolSource } from './source.ts'

/** How the compiler reads a condition and a level; the follow-up part uses the same two. */
export interface Readers {
  condition(
    document: ContentDocument,
    path: Path,
    written: ConditionSource | undefined,
  ): Condition | undefined
  level(urgency: Urgency, withinHours?: number): Level
}

type Placed = ProtocolSource['carePlans'][number]

function compiledPlan(
  { value, document }: Placed,
  followUp: FollowUpSource,
  timing: FollowUpTiming,
  { condition, level }: Readers,
): FollowUpPlan {
  return {
    id: value.id,
    begins: followUp.begins,
    timing,
    looks: value.lookAgain.map(({ hours, morning, day }) => ({
      ...(hours === undefined ? {} : { hours }),
      ...(morning === undefined ? {} : { morning }),
      ...(day === undefined ? {} : { day }),
    })),
    thenEveryDays: followUp.thenEveryDays,
    options: followUp.options.map(({ id, means, urgency, withinHours }) => ({
      id,
      means,
      ...(urgency === undefined ? {} : { level: level(urgency, withinHours) }),
    })),
    ...(followUp.spotsFrom === undefined ? {} : { spotsFrom: followUp.spotsFrom }),
    replaces: followUp.replaces,
    ...(followUp.records === undefined ? {} : { records: followUp.records }),
    closesFromDay: followUp.closesFromDay ?? 0,
    weighDays: followUp.weighDays,
    ...(followUp.thenWeighEveryDays === undefined ? {} : { thenWeighEveryDays: followUp.thenWeighEveryDays }),
    limits: followUp.limits.map(({ id, when, days, hours, looks, from, urgency, withinHours }, index) => {
      const read = condition(document, ['followUp', 'limits', index, 'when'], when)
      return {
        id,
        ...(read === undefined ? {} : { when: read }),
        ...(days === undefined ? {} : { days }),
        ...(hours === undefined ? {} : { hours }),
        ...(looks === undefined ? {} : { looks }),
        ...(from === undefined ? {} : { from }),
        level: level(urgency, withinHours),
      }
    }),
    missed: level(followUp.missed.urgency, followUp.missed.withinHours),
    lastLookDays: followUp.lastLookDays,
  }
}

/** The follow-up part of a protocol: every plan that has one, logic and words apart. */
export function followUpsOf({ species, carePlans }: ProtocolSource, readers: Readers): FollowUps {
  const { basis: _basis, ...hours } = species.value.followUp
  const timing: FollowUpTiming = { ...species.value.clock, ...hours }
  const plans: Record<string, FollowUpPlan> = {}
  const words: Record<string, FollowUpWords> = {}
  for (const placed of carePlans) {
    const { followUp, id } = placed.value
    if (!followUp) continue
    plans[id] = compiledPlan(placed, followUp, timing, readers)
    words[id] = {
      ask: followUp.ask,
      options: followUp.options.map(({ text }) => text),
      reasons: followUp.limits.map(({ reason }) => reason),
    }
  }
  return {
    hash: createHash('sha256').update(JSON.stringify(plans)).digest('hex').slice(0, 16),
    plans,
    words,
  }
}
