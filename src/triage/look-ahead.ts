import type { Assessment } from '../../shared/assessment.ts'
import type { LookAgain } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Level } from '../../shared/urgency.ts'
import { atHourAfterDays, dayOf, hoursLater, partOfDay } from './calendar.ts'
import type { PlansInPlay } from './care.ts'
import { plansOf, preparedCare } from './care-plans.ts'
import type { Protocol } from './prepare.ts'

/** The times that an assessment names: by when to be seen, and when to look again. */

/** The latest time to be seen, with its local day; undefined for a level without hours. */
export function seenBy(level: Level, now: Moment): Assessment['seenBy'] {
  if (level.withinHours === undefined) return undefined
  const at = hoursLater(Date.parse(now.instant), level.withinHours)
  return { instant: new Date(at).toISOString(), day: dayOf(at, now.zone), partOfDay: partOfDay(at, now.zone) }
}

/** The n-th morning still to come: before the morning hour, today's is the first. */
function nextMorning(nowMs: number, count: number, hour: number, zone: string): number {
  const today = atHourAfterDays(nowMs, 0, hour, zone)
  return atHourAfterDays(nowMs, today > nowMs ? count - 1 : count, hour, zone)
}

function lookAt(look: LookAgain, nowMs: number, zone: string, clock: Protocol['logic']['clock']): number {
  if (look.hours !== undefined) return hoursLater(nowMs, look.hours)
  if (look.morning !== undefined) return nextMorning(nowMs, look.morning, clock.morningHour, zone)
  return atHourAfterDays(nowMs, look.day ?? 1, clock.eveningHour, zone)
}

/** When to look again, by the plans in play, soonest first. */
export function looksAhead(protocol: Protocol, plans: PlansInPlay, now: Moment): Assessment['lookAgain'] {
  const nowMs = Date.parse(now.instant)
  const care = preparedCare(protocol)
  const looks: { readonly atMs: number; readonly plan: string; readonly index: number }[] = []
  for (const ids of [plans.firstAid, plans.holding, plans.home]) {
    for (const { plan } of plansOf(care, ids)) {
      for (const [index, look] of plan.lookAgain.entries())
        looks.push({ atMs: lookAt(look, nowMs, now.zone, protocol.logic.clock), plan: plan.id, index })
    }
  }
  looks.sort((one, other) => one.atMs - other.atMs)
  // Plans name the same few times again and again, and a time is dear to write out.
  let writtenMs = Number.NaN
  let written = ''
  return looks.map(({ atMs, plan, index }) => {
    if (atMs !== writtenMs) written = new Date(atMs).toISOString()
    writtenMs = atMs
    return { at: written, plan, index }
  })
}
