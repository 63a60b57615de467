import type { FollowUpPlan, LookOption } from '../../shared/follow-up.ts'
import type { STOP_REASONS } from '../../shared/follow-up-event.ts'
import { type Level, rankOf } from '../../shared/urgency.ts'
import { hoursLater } from '../triage/calendar.ts'
import {
  type Beginning,
  limitAt,
  limitsInForce,
  type TimedLook,
  type Timetable,
  timetableOf,
} from './schedule.ts'

/** What is known of a plan under way, and how looks, asks and answers change it. The chart asks and calls; it decides nothing else. */

export const NO_SPOT = ''

export type RaisedBecause = 'look' | 'limit' | 'missed' | 'check'

/** An urgency that the plan came to, since when, and through what. */
export interface Raise {
  readonly level: Level
  readonly sinceMs: number
  readonly because: RaisedBecause
  /** The limit that passed. */
  readonly limit?: string
}

/** One place that is looked at, or the animal as a whole. */
export interface Spot {
  readonly id: string
  readonly option?: string
  /** When that option was first said in an unbroken row, and last. */
  readonly sinceMs?: number
  readonly lookedMs?: number
  /** How many of the plan's looks are met. */
  readonly met: number
  /** Looks that found no end. */
  readonly looksOn: number
  /** The last look that found it well. */
  readonly goodMs?: number
  readonly closedMs?: number
  /** Found well again at the last look. */
  readonly confirmed: boolean
  readonly checkPending: boolean
  readonly raise?: Raise
}

export interface Course {
  readonly plan: FollowUpPlan
  readonly nowMs: number
  readonly zone: string
  readonly beginning: Beginning
  readonly timetable: Timetable
  readonly spots: readonly Spot[]
  /** When a missed look was asked for; at most two. */
  readonly askedMs: readonly number[]
  readonly stepsDone: Readonly<Record<string, number>>
  readonly stepsNotDone: Readonly<Record<string, number>>
  readonly handed: boolean
  readonly ended?: (typeof STOP_REASONS)[number] | 'better'
}

const HOUR_MS = 3_600_000

const newSpot = (id: string, met: number): Spot => ({
  id,
  met,
  looksOn: 0,
  confirmed: false,
  checkPending: false,
})

/** A plan as it stands the moment it begins. */
export function courseOf(plan: FollowUpPlan, beginning: Beginning, spots: readonly string[]): Course {
  return {
    plan,
    nowMs: beginning.atMs,
    zone: beginning.zone,
    beginning,
    timetable: timetableOf(plan, beginning),
    spots: (spots.length > 0 ? [...new Set(spots)] : [NO_SPOT]).map(id => newSpot(id, 0)),
    askedMs: [],
    stepsDone: {},
    stepsNotDone: {},
    handed: false,
  }
}

export const openSpots = ({ spots }: Course): Spot[] => spots.filter(({ closedMs }) => closedMs === undefined)

/** The first look that some open spot still owes. */
function firstUnmet(course: Course): number {
  return Math.min(...openSpots(course).map(({ met }) => met))
}

/**
 * The looks that are due: each listed one that is owed, and of those after the list only the newest, since one look
 * meets them all.
 */
export function dueLooks(course: Course): TimedLook[] {
  const { timetable, nowMs, zone, plan } = course
  if (openSpots(course).length === 0) return []
  const come = timetable.comeBy(nowMs, zone)
  const due: TimedLook[] = []
  for (let rank = firstUnmet(course); rank < Math.min(come, plan.looks.length); rank += 1)
    due.push(timetable.at(rank, zone))
  if (come > plan.looks.length && come > firstUnmet(course)) due.push(timetable.at(come - 1, zone))
  return due
}

/** The next look that has not come yet and is not met early. */
export function nextLook(course: Course): TimedLook | undefined {
  if (openSpots(course).length === 0) return undefined
  const { timetable, nowMs, zone } = course
  return timetable.at(Math.max(timetable.comeBy(nowMs, zone), firstUnmet(course)), zone)
}

/** Whether a look that was due has been let pass: its time is over, or the next one has come. */
export function isMissed(course: Course): boolean {
  const [first, second] = dueLooks(course)
  if (!first) return false
  return second !== undefined || course.nowMs >= hoursLater(first.atMs, course.plan.timing.missedAfterHours)
}

/** The last look after the plan closed: the evening of its day. Undefined while a spot is open. */
export function lastLookAt(course: Course): number | undefined {
  const closed = course.spots.map(({ closedMs }) => closedMs ?? Number.NaN)
  const closedMs = Math.max(...closed)
  if (Number.isNaN(closedMs)) return undefined
  const { plan, zone } = course
  const again: Beginning = { ...course.beginning, atMs: closedMs, zone }
  return timetableOf({ ...plan, looks: [{ day: plan.lastLookDays }] }, again).at(0, zone).atMs
}

/** When the first limit of time passes or passed. */
export function firstLimitAt({ plan, beginning, zone }: Course): number | undefined {
  const times = limitsInForce(plan, beginning).flatMap(limit => limitAt(limit, beginning, zone) ?? [])
  return times.length > 0 ? Math.min(...times) : undefined
}

/** Whether a limit of time has passed for an open spot and no look since then found it well. */
export function isLimitPassed(course: Course): boolean {
  const { plan, beginning, zone, nowMs } = course
  return limitsInForce(plan, beginning).some(limit => {
    const atMs = limitAt(limit, beginning, zone)
    return (
      atMs !== undefined &&
      atMs <= nowMs &&
      openSpots(course).some(({ goodMs }) => !(goodMs && goodMs >= atMs))
    )
  })
}

/** The higher of two; of two alike the earlier stands, since the time to be seen runs from it. */
function higher(one: Raise | undefined, other: Raise | undefined): Raise | undefined {
  if (!one || !other) return one ?? other
  return rankOf(other.level) > rankOf(one.level) ? other : one
}

/** What the limits that have passed give to a look that found no end. */
function raiseOfLimits({ plan, beginning, zone, nowMs }: Course, looksOn: number): Raise | undefined {
  let raise: Raise | undefined
  for (const limit of limitsInForce(plan, beginning)) {
    const atMs = limitAt(limit, beginning, zone)
    const passed = atMs === undefined ? looksOn >= (limit.looks ?? Number.POSITIVE_INFINITY) : atMs <= nowMs
    if (passed)
      raise = higher(raise, { level: limit.level, sinceMs: nowMs, because: 'limit', limit: limit.id })
  }
  return raise
}

/** What two asks without a look give, once the time to answer the second is over. */
function raiseOfSilence({ plan, askedMs, nowMs }: Course): Raise | undefined {
  const second = askedMs[1]
  if (second === undefined) return undefined
  const sinceMs = second + plan.timing.askAgainAfterHours * HOUR_MS
  return nowMs >= sinceMs ? { level: plan.missed, sinceMs, because: 'missed' } : undefined
}

/** The urgency that the plan has come to: the highest that an open spot or silence gives. */
export function raiseOf(course: Course): Raise | undefined {
  return course.spots.reduce<Raise | undefined>(
    (raise, spot) => higher(raise, spot.raise),
    raiseOfSilence(course),
  )
}

/** How many looks a look at this moment meets: all that have come, and one of a day that is about to come. */
function metBy({ timetable, nowMs, zone, plan }: Course, before: number): number {
  const met = Math.max(before, timetable.comeBy(nowMs, zone))
  const next = timetable.at(met, zone)
  return next.onDay && next.atMs - nowMs <= plan.timing.earlyHours * HOUR_MS ? met + 1 : met
}

/** An option the plan does not know any more counts as its worst. */
function optionOf({ options }: FollowUpPlan, id: string): LookOption {
  return options.find(option => option.id === id) ?? options.at(-1) ?? { id, means: 'danger-check' }
}

function spotAfter(course: Course, spot: Spot, option: LookOption): Spot {
  const { nowMs } = course
  const seen: Spot = {
    ...spot,
    option: option.id,
    sinceMs: spot.option === option.id ? (spot.sinceMs ?? nowMs) : nowMs,
    lookedMs: nowMs,
    met: metBy(course, spot.met),
  }
  const { closedMs: _closedMs, raise: _raise, ...open } = seen
  if (option.means === 'closes') {
    const good = { ...open, goodMs: nowMs }
    // What a worse look gave stands until its danger check is done, whatever is seen meanwhile.
    if (spot.checkPending) return { ...good, ...(spot.raise ? { raise: spot.raise } : {}) }
    if (spot.closedMs !== undefined) {
      const last = lastLookAt(course)
      const isLast = last !== undefined && nowMs >= last - course.plan.timing.earlyHours * HOUR_MS
      return { ...good, closedMs: spot.closedMs, confirmed: spot.confirmed || isLast }
    }
    return isLateEnough(course) ? { ...good, closedMs: nowMs } : good
  }
  const looksOn = spot.looksOn + 1
  const own: Raise | undefined = option.level && { level: option.level, sinceMs: nowMs, because: 'look' }
  const limits = course.handed ? undefined : raiseOfLimits(course, looksOn)
  const raise = higher(spot.raise, higher(own, limits))
  return {
    ...open,
    looksOn,
    confirmed: false,
    checkPending: spot.checkPending || option.means === 'danger-check',
    ...(raise ? { raise } : {}),
  }
}

/** Whether a look that finds it well may close the plan already. */
function isLateEnough({ plan, beginning, nowMs, zone }: Course): boolean {
  const earliest = limitAt({ id: '', days: plan.closesFromDay, level: plan.missed }, beginning, zone)
  return earliest === undefined || nowMs >= earliest
}

/** The plan after a look at one spot; a spot that was not known joins it, and a look without a spot speaks for all open ones. */
export function afterLook(course: Course, optionId: string, spotId: string | undefined): Course {
  const option = optionOf(course.plan, optionId)
  const isKnown = spotId === undefined || course.spots.some(({ id }) => id === spotId)
  const spots = isKnown ? course.spots : [...course.spots, newSpot(spotId, metBy(course, 0))]
  const all = openSpots(course).length > 0 ? openSpots(course) : course.spots
  const isLookedAt = ({ id }: Spot) => (spotId === undefined ? all.some(one => one.id === id) : id === spotId)
  const looked = spots.map(spot => (isLookedAt(spot) ? spotAfter(course, spot, option) : spot))
  const reopened = openSpots({ ...course, spots: looked }).length > 0
  return {
    ...course,
    askedMs: [],
    spots: reopened ? looked.map(spot => ({ ...spot, confirmed: false })) : looked,
  }
}

/** Whether an ask now would be a new one: none yet, or the first long enough ago. */
export function mayAsk({ askedMs, nowMs, plan }: Course): boolean {
  const last = askedMs.at(-1)
  if (last === undefined) return true
  return askedMs.length < 2 && nowMs >= last + plan.timing.askAgainAfterHours * HOUR_MS
}

/** The plan after the danger check: what it came to adds to what the look gave, and never takes from it. */
export function afterCheck(course: Course, level: Level): Course {
  const raise: Raise | undefined =
    level.urgency === 'home' || level.urgency === 'well'
      ? undefined
      : { level, sinceMs: course.nowMs, because: 'check' }
  return {
    ...course,
    spots: course.spots.map(spot => {
      if (!spot.checkPending) return spot
      const highest = higher(spot.raise, raise)
      return { ...spot, checkPending: false, ...(highest ? { raise: highest } : {}) }
    }),
  }
}

/** The plan in a vet's hands: what it had come to is done with. */
export function afterHandover(course: Course): Course {
  return {
    ...course,
    handed: true,
    askedMs: [],
    spots: course.spots.map(({ raise: _raise, ...spot }) => ({ ...spot, checkPending: false })),
  }
}
