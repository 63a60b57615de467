import type { FollowUpPlan } from '../../shared/follow-up.ts'
import type { FollowUpEvent } from '../../shared/follow-up-event.ts'
import type { Moment } from '../../shared/moment.ts'
import { hoursLater } from '../triage/calendar.ts'
import { planDayOf, timetableOf, weighInsBetween } from './schedule.ts'
import { beginningOf, standingOfPlan } from './standing.ts'

/** A look or weigh-in to come, for a calendar. */
export interface Reminder {
  /** The same for the same look or weigh-in of a run, whenever it is asked for. */
  readonly key: string
  readonly kind: 'look' | 'last-look' | 'weigh-in'
  /** The look's place in the plan's list, which names its words; absent after the list. */
  readonly index?: number
  readonly at: string
  /** On a look: whether it is weighed then too. */
  readonly weigh?: true
}

const DAY_HOURS = 24

/**
 * The looks and weigh-ins of a run from `now` for `days` days, soonest first; none once the plan is over, handed to a
 * vet, or stands raised: then the vet's date is what counts. Of a plan that closed, its last look.
 */
export function remindersOf(
  plan: FollowUpPlan,
  events: readonly FollowUpEvent[],
  now: Moment,
  days: number,
): Reminder[] {
  const { state, next } = standingOfPlan(plan, events, now)
  const runId = events[0]?.runId ?? ''
  const beginning = beginningOf(events, now)
  if (!beginning || state === 'ended' || state === 'handed-to-vet' || state === 'raised') return []
  if (state === 'better') return next ? [{ key: `${runId}-last-look`, kind: 'last-look', at: next.at }] : []
  const nowMs = Date.parse(now.instant)
  const untilMs = hoursLater(nowMs, days * DAY_HOURS)
  const timetable = timetableOf(plan, beginning)
  const weighIns = new Set(weighInsBetween(plan, beginning, nowMs, untilMs, now.zone))
  const reminders: Reminder[] = []
  const fromMs = next ? Date.parse(next.at) : nowMs
  for (let rank = timetable.comeBy(nowMs, now.zone); ; rank += 1) {
    const { atMs, index } = timetable.at(rank, now.zone)
    if (atMs > untilMs) break
    if (atMs >= fromMs)
      reminders.push({
        key: `${runId}-look-${rank}`,
        kind: 'look',
        ...(index === undefined ? {} : { index }),
        at: new Date(atMs).toISOString(),
        // One entry for one evening.
        ...(weighIns.delete(atMs) ? { weigh: true as const } : {}),
      })
  }
  for (const atMs of weighIns)
    reminders.push({
      key: `${runId}-weigh-in-${planDayOf(beginning, atMs, now.zone)}`,
      kind: 'weigh-in',
      at: new Date(atMs).toISOString(),
    })
  return reminders.sort((one, other) => Date.parse(one.at) - Date.parse(other.at))
}
