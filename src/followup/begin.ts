import type { CaseFile } from '../../shared/case-file.ts'
import type { FollowUpPlan, FollowUps } from '../../shared/follow-up.ts'
import { FOLLOW_UP_FORM, type FollowUpEvent, type FollowUpStart } from '../../shared/follow-up-event.ts'
import type { Moment } from '../../shared/moment.ts'
import type { ProtocolStamp } from '../../shared/stored-event.ts'
import { hoursLater } from '../triage/calendar.ts'
import { knownOf } from '../triage/fact-states.ts'
import { FALSE, highOf, intervalOf } from '../triage/intervals.ts'
import type { Protocol } from '../triage/prepare.ts'

/** What a beginning is made of besides the plan: whose it is, what it is called, and the case it comes from. */
export interface BeginningOf {
  readonly runId: string
  readonly animalId: string
  readonly stamp: ProtocolStamp
  readonly now: Moment
  readonly caseFile: CaseFile
}

/**
 * The plans to begin out of those an assessment names: one that another of them takes over from is left out, so that
 * no place is asked for twice.
 */
export function plansToBegin({ plans }: FollowUps, ids: readonly string[]): FollowUpPlan[] {
  const named = [...new Set(ids)].flatMap(id => plans[id] ?? [])
  const replaced = new Set(named.flatMap(({ replaces }) => replaces))
  return named.filter(({ id }) => !replaced.has(id))
}

/**
 * The first event of a plan. A conditional limit counts unless its condition is surely false: what is not known takes
 * the sooner. A moment told with uncertainty counts from its earliest.
 */
export function startOf(protocol: Protocol, plan: FollowUpPlan, of: BeginningOf): FollowUpStart {
  const { caseFile, now } = of
  // What cannot be measured gives no urgency, but it does not lengthen the time that one may wait either.
  const told = Object.entries(caseFile.answers).filter(([, { kind }]) => kind !== 'cannot-measure')
  const known = knownOf(protocol, { ...caseFile, answers: Object.fromEntries(told) }, now)
  const questions = new Set(plan.limits.flatMap(({ from }) => from ?? []))
  const since = [...questions].flatMap(question => {
    const answer = caseFile.answers[question]
    if (answer?.kind !== 'since') return []
    return [
      [question, new Date(hoursLater(Date.parse(answer.began), -answer.uncertaintyHours)).toISOString()],
    ]
  })
  const places = plan.spotsFrom === undefined ? undefined : caseFile.answers[plan.spotsFrom]
  return {
    form: FOLLOW_UP_FORM,
    runId: of.runId,
    animalId: of.animalId,
    seq: 0,
    at: now.instant,
    zone: now.zone,
    kind: 'started',
    plan: plan.id,
    protocol: of.stamp,
    spots: places?.kind === 'several' ? places.chosen : [],
    since: Object.fromEntries(since),
    limits: plan.limits.flatMap(({ id, when }) =>
      when !== undefined && highOf(intervalOf(when, known)) !== FALSE ? [id] : [],
    ),
  }
}

/** The events that end the runs of this animal that a beginning plan takes over from, itself included. */
export function replacedBy(
  plan: FollowUpPlan,
  start: FollowUpStart,
  runs: readonly {
    readonly plan: string
    readonly events: readonly FollowUpEvent[]
    readonly isOver: boolean
  }[],
): FollowUpEvent[] {
  const goes = new Set([plan.id, ...plan.replaces])
  return runs.flatMap(({ plan: id, events, isOver }): FollowUpEvent[] => {
    const last = events.at(-1)
    if (isOver || !last || !goes.has(id) || last.animalId !== start.animalId || last.runId === start.runId)
      return []
    const { at, zone, animalId } = start
    const seq = Math.max(...events.map(event => event.seq)) + 1
    return [
      {
        form: FOLLOW_UP_FORM,
        runId: last.runId,
        animalId,
        seq,
        at,
        zone,
        kind: 'stopped',
        because: 'replaced',
      },
    ]
  })
}
