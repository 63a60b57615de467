import type { LookAgain } from '../../shared/compiled.ts'
import type { FollowUpLimit, FollowUpPlan } from '../../shared/follow-up.ts'
import { atHourAfterDays, calendarDaysBetween, dayOf, hoursLater } from '../triage/calendar.ts'

/**
 * When the looks, weigh-ins and limits of a plan come. Days are calendar days from the owner's day of the beginning, at
 * the wall clock of the zone the owner is in now: "day 3, in the evening" stays an evening after a journey or a clock
 * change. Hours are elapsed time.
 */

/** One beginning of a plan: its instant, the zone of that moment, and what its limits are counted with. */
export interface Beginning {
  readonly atMs: number
  readonly zone: string
  /** Per question of kind `since`, the earliest moment it left possible. */
  readonly sinceMs: Readonly<Record<string, number>>
  /** Ids of conditional limits that hold. */
  readonly limits: readonly string[]
}

const DAY_MS = 86_400_000
const numberOfDay = (instantMs: number, zone: string) => Date.parse(dayOf(instantMs, zone)) / DAY_MS

/** The instant of `hour` o'clock on the `days`-th calendar day of the plan; day 0 is the day it began. */
export function dayOfPlan(beginning: Beginning, days: number, hour: number, zone: string): number {
  // The day of the beginning is the one the owner then had, also where this zone has another.
  const shift =
    zone === beginning.zone
      ? 0
      : numberOfDay(beginning.atMs, beginning.zone) - numberOfDay(beginning.atMs, zone)
  return atHourAfterDays(beginning.atMs, days + shift, hour, zone)
}

/** The calendar day of the plan on which an instant falls; 0 is the day it began. */
export function planDayOf(beginning: Beginning, instantMs: number, zone: string): number {
  return zone === beginning.zone
    ? calendarDaysBetween(beginning.atMs, instantMs, zone)
    : numberOfDay(instantMs, zone) - numberOfDay(beginning.atMs, beginning.zone)
}

/** The n-th morning still to come from the beginning: before the morning hour, that day's is the first. */
function morningOf(plan: FollowUpPlan, beginning: Beginning, count: number, zone: string): number {
  const { morningHour } = plan.timing
  const first = atHourAfterDays(beginning.atMs, 0, morningHour, beginning.zone) > beginning.atMs ? 0 : 1
  return dayOfPlan(beginning, first + count - 1, morningHour, zone)
}

function instantOfLook(plan: FollowUpPlan, beginning: Beginning, look: LookAgain, zone: string): number {
  if (look.hours !== undefined) return hoursLater(beginning.atMs, look.hours)
  if (look.morning !== undefined) return morningOf(plan, beginning, look.morning, zone)
  return dayOfPlan(beginning, look.day ?? 1, plan.timing.eveningHour, zone)
}

/** One look of a plan as it lies in time. */
export interface TimedLook {
  /** Its place among the looks in order of time; those after the listed ones go on without end. */
  readonly rank: number
  /** Its place in the content's list, which names its words; absent on those after it. */
  readonly index?: number
  readonly atMs: number
  /** Whether it may be made a little early: not where hours were counted. */
  readonly onDay: boolean
}

/** The looks of one beginning of a plan. */
export interface Timetable {
  /** The look of a rank as it lies in `zone`. */
  at(rank: number, zone: string): TimedLook
  /** How many looks have come by `instantMs`. */
  comeBy(instantMs: number, zone: string): number
}

/** Lays the looks out in the order in which they come; that order is the one of the zone in which the plan began. */
export function timetableOf(plan: FollowUpPlan, beginning: Beginning): Timetable {
  const listed = plan.looks
    .map((look, index) => ({ look, index, atMs: instantOfLook(plan, beginning, look, beginning.zone) }))
    .sort((one, other) => one.atMs - other.atMs || one.index - other.index)
  const lastDay = Math.max(0, planDayOf(beginning, listed.at(-1)?.atMs ?? beginning.atMs, beginning.zone))
  const at = (rank: number, zone: string): TimedLook => {
    const one = listed[rank]
    if (one)
      return {
        rank,
        index: one.index,
        atMs: instantOfLook(plan, beginning, one.look, zone),
        onDay: one.look.hours === undefined,
      }
    const day = lastDay + (rank - listed.length + 1) * plan.thenEveryDays
    return { rank, atMs: dayOfPlan(beginning, day, plan.timing.eveningHour, zone), onDay: true }
  }
  const comeBy = (instantMs: number, zone: string): number => {
    // Jump close to the answer: a plan may have been left alone for years.
    const rounds = Math.floor((planDayOf(beginning, instantMs, zone) - lastDay) / plan.thenEveryDays)
    let count = Math.max(0, listed.length + rounds - 1)
    if (rounds < 2) count = 0
    while (at(count, zone).atMs <= instantMs) count += 1
    return count
  }
  return { at, comeBy }
}

/**
 * When a limit passes, or undefined where it counts looks. A limit of days passes as its day begins, so that a look at
 * any hour of that day is one after the limit.
 */
export function limitAt(limit: FollowUpLimit, beginning: Beginning, zone: string): number | undefined {
  const fromMs = limit.from === undefined ? undefined : beginning.sinceMs[limit.from]
  if (limit.hours !== undefined) return hoursLater(fromMs ?? beginning.atMs, limit.hours)
  if (limit.days === undefined) return undefined
  return fromMs === undefined
    ? dayOfPlan(beginning, limit.days, 0, zone)
    : atHourAfterDays(fromMs, limit.days, 0, zone)
}

/**
 * The limits that count for this animal: those without a condition and those whose condition holds or could. A limit
 * named by the stored beginning that the plan no longer has means that content changed: then every limit counts.
 */
export function limitsInForce(plan: FollowUpPlan, beginning: Beginning): readonly FollowUpLimit[] {
  const known = new Set(plan.limits.map(({ id }) => id))
  if (beginning.limits.some(id => !known.has(id))) return plan.limits
  return plan.limits.filter(({ id, when }) => when === undefined || beginning.limits.includes(id))
}

/** The weigh-ins of a plan after `afterMs` and up to `untilMs`, in the evening hour. */
export function weighInsBetween(
  plan: FollowUpPlan,
  beginning: Beginning,
  afterMs: number,
  untilMs: number,
  zone: string,
): number[] {
  const days = [...plan.weighDays]
  const every = plan.thenWeighEveryDays
  if (every !== undefined) {
    const lastDay = days.at(-1) ?? 0
    const until = planDayOf(beginning, untilMs, zone)
    const skipped = Math.max(0, Math.floor((planDayOf(beginning, afterMs, zone) - lastDay) / every) - 1)
    for (let day = lastDay + (skipped + 1) * every; day <= until; day += every) days.push(day)
  }
  return days
    .map(day => dayOfPlan(beginning, day, plan.timing.eveningHour, zone))
    .filter(atMs => atMs > afterMs && atMs <= untilMs)
}
