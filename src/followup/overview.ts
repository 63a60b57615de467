import type { FollowUpPlan, FollowUps } from '../../shared/follow-up.ts'
import type { FollowUpEvent } from '../../shared/follow-up-event.ts'
import type { Moment } from '../../shared/moment.ts'
import { rankOf } from '../../shared/urgency.ts'
import type { FollowUpState } from './chart.ts'
import { type PlanStanding, standingOfPlan } from './standing.ts'

/** One run of one plan of one animal, with how it stands. */
export interface Run {
  readonly runId: string
  readonly animalId: string
  readonly plan: FollowUpPlan
  readonly events: readonly FollowUpEvent[]
  readonly standing: PlanStanding
}

/** What needs the owner first: higher stands before. Raised plans stand among themselves by urgency. */
const PRESSING: Readonly<Record<FollowUpState, number>> = {
  'danger-check': 9,
  raised: 8,
  'asked-twice': 7,
  'limit-passed': 6,
  'look-missed': 5,
  'look-due': 4,
  'under-way': 3,
  better: 2,
  'handed-to-vet': 1,
  ended: 0,
  'not-started': 0,
}

/** A run whose plan this protocol does not have. */
export interface LostRun {
  readonly runId: string
  readonly plan: string
}

/**
 * Every run, most pressing first. A plan that a newer protocol no longer has is handed back apart, so that the app can
 * say so: it is not dropped in silence.
 */
export function runsOf(
  { plans }: FollowUps,
  events: readonly FollowUpEvent[],
  now: Moment,
): { readonly runs: readonly Run[]; readonly lost: readonly LostRun[] } {
  const byRun = new Map<string, FollowUpEvent[]>()
  for (const event of events) byRun.set(event.runId, [...(byRun.get(event.runId) ?? []), event])
  const runs: Run[] = []
  const lost: LostRun[] = []
  for (const [runId, ofRun] of byRun) {
    const start = ofRun.find(event => event.kind === 'started')
    if (!start) {
      lost.push({ runId, plan: '' })
      continue
    }
    const plan = plans[start.plan]
    if (!plan) lost.push({ runId, plan: start.plan })
    else
      runs.push({
        runId,
        animalId: start.animalId,
        plan,
        events: ofRun,
        standing: standingOfPlan(plan, ofRun, now),
      })
  }
  const key = ({ standing: { raised, state } }: Run) =>
    PRESSING[state] + (raised ? rankOf(raised.level) / 1e7 : 0)
  const dueAt = ({ standing: { due, next } }: Run) =>
    Date.parse((due[0] ?? next)?.at ?? '9999-12-31T00:00:00Z')
  return { runs: runs.sort((one, other) => key(other) - key(one) || dueAt(one) - dueAt(other)), lost }
}

/** The run that the app opens on: the most pressing one that asks for something; undefined where nothing is due. */
export function opensOn(runs: readonly Run[]): Run | undefined {
  return runs.find(
    ({ standing }) => PRESSING[standing.state] >= PRESSING['look-due'] || standing.due.length > 0,
  )
}
