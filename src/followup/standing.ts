import { initialTransition, transition } from 'xstate'
import type { FollowUpPlan } from '../../shared/follow-up.ts'
import type { FollowUpEvent, FollowUpStart } from '../../shared/follow-up-event.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Level } from '../../shared/urgency.ts'
import { hoursLater } from '../triage/calendar.ts'
import {
  type At,
  FOLLOW_UP_STATES,
  type FollowUpChartEvent,
  type FollowUpState,
  followUpMachine,
} from './chart.ts'
import {
  type Course,
  dueLooks,
  firstLimitAt,
  lastLookAt,
  mayAsk,
  NO_SPOT,
  nextLook,
  type RaisedBecause,
  raiseOf,
} from './course.ts'
import type { Beginning } from './schedule.ts'

/** A look that is due or to come. Instants are ISO 8601 in UTC. */
export interface StandingLook {
  /** Its place in the plan's list, which names its words; absent on looks after the list and on the last look. */
  readonly index?: number
  readonly at: string
}

export interface StandingSpot {
  readonly id: string
  /** The option of the last look, and since when it has been that one. */
  readonly option?: string
  readonly since?: string
  readonly lookedAt?: string
  readonly closed: boolean
}

/** How a plan under way stands at one time. */
export interface PlanStanding {
  readonly plan: string
  readonly state: FollowUpState
  readonly due: readonly StandingLook[]
  readonly next?: StandingLook
  /** Whether showing the missed look now is an ask to be stored: the first or the second, never a third. */
  readonly ask: boolean
  readonly raised?: {
    readonly level: Level
    readonly since: string
    /** By when to be seen, where the level has hours. */
    readonly seenBy?: string
    readonly because: RaisedBecause
    readonly limit?: string
  }
  /** When its first limit passes or passed. */
  readonly limitAt?: string
  /** Empty where the animal is looked at as a whole; `whole` holds that one. */
  readonly spots: readonly StandingSpot[]
  readonly whole?: StandingSpot
  readonly stepsDone: Readonly<Record<string, string>>
  readonly stepsNotDone: Readonly<Record<string, string>>
  readonly ended?: NonNullable<Course['ended']>
}

const iso = (ms: number) => new Date(ms).toISOString()

/**
 * The times of stored events as they can have been: none after the one that follows it, none after now. A clock that
 * stood wrong in the future thus puts no plan to sleep, and one that was set back makes looks and limits come sooner,
 * never later.
 */
function timesOf(events: readonly FollowUpEvent[], nowMs: number): number[] {
  const times: number[] = []
  let latest = nowMs
  for (let index = events.length - 1; index >= 0; index -= 1) {
    latest = Math.min(latest, Date.parse(events[index]?.at ?? ''))
    times[index] = latest
  }
  return times
}

function beginningAt({ zone, limits, since }: FollowUpStart, nowMs: number): Beginning {
  const sinceMs = Object.entries(since).map(
    ([question, instant]) => [question, Math.min(nowMs, Date.parse(instant))] as const,
  )
  return { atMs: nowMs, zone, limits, sinceMs: Object.fromEntries(sinceMs) }
}

/** The beginning that a run's events tell of; undefined where its first event is missing. */
export function beginningOf(events: readonly FollowUpEvent[], now: Moment): Beginning | undefined {
  const stored = inOrder(events)
  const at = stored.findIndex(({ kind }) => kind === 'started')
  const start = stored[at]
  const nowMs = Date.parse(now.instant)
  return start?.kind === 'started' ? beginningAt(start, timesOf(stored, nowMs)[at] ?? nowMs) : undefined
}

function chartEventOf(event: FollowUpEvent, nowMs: number): FollowUpChartEvent {
  const at: At = { nowMs, zone: event.zone }
  switch (event.kind) {
    case 'started':
      return { ...at, type: 'STARTED', beginning: beginningAt(event, nowMs), spots: event.spots }
    case 'looked':
      return { ...at, type: 'LOOKED', option: event.option, spot: event.spot }
    case 'asked':
      return { ...at, type: 'ASKED' }
    case 'checked':
      return {
        ...at,
        type: 'CHECKED',
        level:
          event.withinHours === undefined
            ? { urgency: event.urgency }
            : { urgency: event.urgency, withinHours: event.withinHours },
      }
    case 'step-done':
      return { ...at, type: 'STEP_DONE', step: event.step }
    case 'not-done':
      return { ...at, type: 'NOT_DONE', step: event.step }
    case 'stopped':
      return { ...at, type: 'STOPPED', because: event.because }
    case 'handed-to-vet':
      return { ...at, type: 'HANDED_TO_VET' }
  }
}

const stateNamed = new Set<string>(FOLLOW_UP_STATES)
const isState = (name: unknown): name is FollowUpState => typeof name === 'string' && stateNamed.has(name)

/** Each event of a run once, in the order in which they were written; two tabs may have given one place twice. */
function inOrder(events: readonly FollowUpEvent[]): FollowUpEvent[] {
  const once = new Map(events.map(event => [JSON.stringify(event), event]))
  return [...once.values()].sort(
    (one, other) => one.seq - other.seq || Date.parse(one.at) - Date.parse(other.at),
  )
}

/** Walks the chart through what happened and up to now. */
function replayed(plan: FollowUpPlan, events: readonly FollowUpEvent[], now: Moment) {
  const nowMs = Date.parse(now.instant)
  const stored = inOrder(events)
  const times = timesOf(stored, nowMs)
  let [snapshot] = initialTransition(followUpMachine, { plan })
  stored.forEach((event, index) => {
    const at = times[index] ?? nowMs
    // An ask counts only in some states, so the state of its time has to be there before it is.
    if (event.kind === 'asked')
      [snapshot] = transition(followUpMachine, snapshot, { type: 'TIME', nowMs: at, zone: event.zone })
    ;[snapshot] = transition(followUpMachine, snapshot, chartEventOf(event, at))
  })
  ;[snapshot] = transition(followUpMachine, snapshot, { type: 'TIME', nowMs, zone: now.zone })
  return snapshot
}

/**
 * How a plan stands at `now`, from all that is stored of one run of it: pure, the same events and time give the same
 * standing. Days are calendar days in the zone of `now`.
 */
export function standingOfPlan(
  plan: FollowUpPlan,
  events: readonly FollowUpEvent[],
  now: Moment,
): PlanStanding {
  const { value, context } = replayed(plan, events, now)
  const state = isState(value) ? value : 'not-started'
  const { course } = context
  const bare = { plan: plan.id, state, due: [], ask: false, spots: [], stepsDone: {}, stepsNotDone: {} }
  if (!course) return bare
  const steps = {
    stepsDone: instants(course.stepsDone),
    stepsNotDone: instants(course.stepsNotDone),
  }
  const spots = course.spots.map(
    (spot): StandingSpot => ({
      id: spot.id,
      ...(spot.option === undefined ? {} : { option: spot.option }),
      ...(spot.sinceMs === undefined ? {} : { since: iso(spot.sinceMs) }),
      ...(spot.lookedMs === undefined ? {} : { lookedAt: iso(spot.lookedMs) }),
      closed: spot.closedMs !== undefined,
    }),
  )
  const raise = raiseOf(course)
  const { level } = raise ?? {}
  const limit = firstLimitAt(course)
  const whole = spots.find(({ id }) => id === NO_SPOT)
  return {
    ...bare,
    ...steps,
    ...looksOf(state, course),
    ask: (state === 'look-missed' || state === 'limit-passed') && mayAsk(course),
    spots: spots.filter(({ id }) => id !== NO_SPOT),
    ...(whole ? { whole } : {}),
    ...(limit === undefined ? {} : { limitAt: iso(limit) }),
    ...(course.ended === undefined ? {} : { ended: course.ended }),
    ...(raise && level && state !== 'ended'
      ? {
          raised: {
            level,
            since: iso(raise.sinceMs),
            ...(level.withinHours === undefined
              ? {}
              : { seenBy: iso(hoursLater(raise.sinceMs, level.withinHours)) }),
            because: raise.because,
            ...(raise.limit === undefined ? {} : { limit: raise.limit }),
          },
        }
      : {}),
  }
}

const instants = (times: Readonly<Record<string, number>>) =>
  Object.fromEntries(Object.entries(times).map(([id, ms]) => [id, iso(ms)]))

/** The looks that are due and the next one; of a plan that closed, its last look. */
function looksOf(state: FollowUpState, course: Course): Pick<PlanStanding, 'due' | 'next'> {
  if (state === 'ended' || state === 'handed-to-vet') return { due: [] }
  const last = lastLookAt(course)
  if (last !== undefined) {
    const look = { at: iso(last) }
    return last <= course.nowMs ? { due: [look] } : { due: [], next: look }
  }
  const next = nextLook(course)
  const look = ({ index, atMs }: { readonly index?: number; readonly atMs: number }): StandingLook =>
    index === undefined ? { at: iso(atMs) } : { index, at: iso(atMs) }
  return { due: dueLooks(course).map(look), ...(next ? { next: look(next) } : {}) }
}
