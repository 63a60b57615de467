import type { FollowUpPlan } from '../../shared/follow-up.ts'
import type { FollowUpEvent } from '../../shared/follow-up-event.ts'
import type { Moment } from '../../shared/moment.ts'
import { loadProtocol } from '../../src/protocol/load.ts'

/** An invented plan: looks after 2 hours, the next morning, on days 1, 3 and 5; "same" ends after 3 days. */
export const INVENTED_PLAN: FollowUpPlan = {
  id: 'invented-plan',
  begins: 'rules',
  timing: { morningHour: 8, eveningHour: 20, earlyHours: 2, missedAfterHours: 12, askAgainAfterHours: 12 },
  looks: [{ hours: 2 }, { morning: 1 }, { day: 1 }, { day: 3 }, { day: 5 }],
  thenEveryDays: 2,
  options: [
    { id: 'gone', means: 'closes' },
    { id: 'looser', means: 'goes-on' },
    { id: 'same', means: 'goes-on' },
    { id: 'redder', means: 'raises', level: { urgency: 'week', withinHours: 72 } },
    { id: 'worse', means: 'danger-check', level: { urgency: 'day', withinHours: 24 } },
  ],
  replaces: [],
  closesFromDay: 0,
  weighDays: [1, 3],
  thenWeighEveryDays: 7,
  limits: [{ id: 'three-days', days: 3, level: { urgency: 'week', withinHours: 72 } }],
  missed: { urgency: 'week', withinHours: 168 },
  lastLookDays: 4,
}

type Happening = FollowUpEvent extends infer One
  ? One extends FollowUpEvent
    ? Omit<One, 'form' | 'runId' | 'animalId' | 'seq' | 'at' | 'zone'>
    : never
  : never

export const STAMP = { species: 'invented', version: '0.0.1', hash: '0000000000000000' }
export const LONDON = 'Europe/London'

/** A list of events that grows, each at its time and place. */
export class Story {
  readonly events: FollowUpEvent[] = []
  readonly plan: FollowUpPlan
  readonly runId: string
  constructor(plan: FollowUpPlan, runId = 'run-1') {
    this.plan = plan
    this.runId = runId
  }

  add(at: string, what: Happening, zone = LONDON): this {
    const seq = this.events.length
    this.events.push({ form: 1, runId: this.runId, animalId: 'animal-1', seq, at, zone, ...what })
    return this
  }

  start(at: string, more: Partial<Extract<Happening, { kind: 'started' }>> = {}, zone = LONDON): this {
    return this.add(
      at,
      { kind: 'started', plan: this.plan.id, protocol: STAMP, spots: [], since: {}, limits: [], ...more },
      zone,
    )
  }

  look(at: string, option: string, spot?: string, zone = LONDON): this {
    return this.add(at, { kind: 'looked', option, ...(spot === undefined ? {} : { spot }) }, zone)
  }
}

export const at = (instant: string, zone = LONDON): Moment => ({ instant, zone })

let loaded: ReturnType<typeof loadProtocol> | undefined

/** The real content, compiled once. */
export function realProtocol() {
  loaded ??= loadProtocol('content', 'leopard-gecko')
  if (!loaded.ok) throw new Error('the real content has faults: npm run content')
  return loaded.compilation.protocol
}

/** A plan of the real content. */
export function realPlan(id: string): FollowUpPlan {
  const plan = realProtocol().followUps.plans[id]
  if (!plan) throw new Error(`no follow-up for ${id}`)
  return plan
}

/** The day and hour on a wall in a zone, by the machine's own calendar and not by ours: `2026-11-25 20:00`. */
export function wall(instant: string, zone = LONDON): string {
  const format = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  })
  return format.format(new Date(instant))
}
