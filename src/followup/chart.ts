import { assign, setup } from 'xstate'
import type { FollowUpPlan } from '../../shared/follow-up.ts'
import type { FollowUpEvent } from '../../shared/follow-up-event.ts'
import type { Level } from '../../shared/urgency.ts'
import {
  afterCheck,
  afterHandover,
  afterLook,
  type Course,
  courseOf,
  dueLooks,
  isLimitPassed,
  isMissed,
  mayAsk,
  openSpots,
  raiseOf,
} from './course.ts'
import type { Beginning } from './schedule.ts'

/**
 * A care plan under way as a statechart. Every event brings its own time; nothing here reads a clock. What happened
 * changes the course, and `settle` reads off the state it comes to, worst first: the one place that decides, so that
 * the same events and the same time give the same state however often they are replayed.
 */

export interface FollowUpContext {
  readonly plan: FollowUpPlan
  readonly course: Course | undefined
}

/** When, and in which time zone, something happened. */
export interface At {
  readonly nowMs: number
  readonly zone: string
}

export type FollowUpChartEvent = At &
  (
    | { readonly type: 'STARTED'; readonly beginning: Beginning; readonly spots: readonly string[] }
    | { readonly type: 'LOOKED'; readonly option: string; readonly spot: string | undefined }
    | { readonly type: 'ASKED' }
    | { readonly type: 'CHECKED'; readonly level: Level }
    | { readonly type: 'STEP_DONE'; readonly step: string }
    | { readonly type: 'NOT_DONE'; readonly step: string }
    | { readonly type: 'STOPPED'; readonly because: Extract<FollowUpEvent, { kind: 'stopped' }>['because'] }
    | { readonly type: 'HANDED_TO_VET' }
    /** Time went on; nothing happened. */
    | { readonly type: 'TIME' }
  )

export const FOLLOW_UP_STATES = [
  'not-started',
  'under-way',
  'look-due',
  'look-missed',
  'asked-twice',
  'limit-passed',
  'danger-check',
  'raised',
  'better',
  'handed-to-vet',
  'ended',
] as const
export type FollowUpState = (typeof FOLLOW_UP_STATES)[number]

const timed = setup({
  types: {
    context: {} as FollowUpContext,
    events: {} as FollowUpChartEvent,
    input: {} as { readonly plan: FollowUpPlan },
  },
  guards: {
    isOver: ({ context: { course } }) => course?.ended !== undefined,
    dangerOpen: ({ context: { course } }) => course?.spots.some(({ checkPending }) => checkPending) === true,
    isRaised: ({ context: { course } }) => course !== undefined && raiseOf(course) !== undefined,
    isHanded: ({ context: { course } }) => course?.handed === true,
    allConfirmed: ({ context: { course } }) =>
      course !== undefined &&
      openSpots(course).length === 0 &&
      course.spots.every(({ confirmed }) => confirmed),
    allClosed: ({ context: { course } }) => course !== undefined && openSpots(course).length === 0,
    limitPassed: ({ context: { course } }) => course !== undefined && isLimitPassed(course),
    twiceAsked: ({ context: { course } }) => course?.askedMs.length === 2,
    lookMissed: ({ context: { course } }) => course !== undefined && isMissed(course),
    lookDue: ({ context: { course } }) => course !== undefined && dueLooks(course).length > 0,
    newAsk: ({ context: { course }, event }) =>
      course !== undefined && mayAsk({ ...course, nowMs: event.nowMs, zone: event.zone }),
  },
  actions: {
    begin: assign(({ context, event }) =>
      event.type === 'STARTED' ? { course: courseOf(context.plan, event.beginning, event.spots) } : {},
    ),
    change: assign(({ context: { course: before }, event }) => {
      if (!before) return {}
      const course: Course = { ...before, nowMs: event.nowMs, zone: event.zone }
      switch (event.type) {
        case 'LOOKED':
          return { course: afterLook(course, event.option, event.spot) }
        case 'ASKED':
          return { course: { ...course, askedMs: [...course.askedMs, event.nowMs] } }
        case 'CHECKED':
          return { course: afterCheck(course, event.level) }
        case 'STEP_DONE':
          return { course: { ...course, stepsDone: { ...course.stepsDone, [event.step]: event.nowMs } } }
        case 'NOT_DONE':
          return {
            course: { ...course, stepsNotDone: { ...course.stepsNotDone, [event.step]: event.nowMs } },
          }
        case 'STOPPED':
          return { course: { ...course, ended: event.because } }
        case 'HANDED_TO_VET':
          return { course: afterHandover(course) }
        case 'STARTED':
        case 'TIME':
          return { course }
      }
    }),
    endBetter: assign(({ context: { course } }) =>
      course ? { course: { ...course, ended: 'better' as const } } : {},
    ),
  },
})

const settling = { target: '#settle', actions: 'change' } as const
/** What can happen in every state that is not over. */
const always = {
  LOOKED: settling,
  STEP_DONE: settling,
  NOT_DONE: settling,
  STOPPED: settling,
  HANDED_TO_VET: settling,
  TIME: settling,
}
/** An ask counts only where a look was missed, and only if it is a new one. */
const asking = { ASKED: { ...settling, guard: 'newAsk' } } as const

/** The chart of a care plan under way; the plan is its input. */
export const followUpMachine = timed.createMachine({
  id: 'follow-up',
  context: ({ input }) => ({ plan: input.plan, course: undefined }),
  initial: 'not-started',
  states: {
    'not-started': { on: { STARTED: { target: 'settle', actions: 'begin' } } },
    settle: {
      id: 'settle',
      always: [
        { guard: 'isOver', target: 'ended' },
        { guard: 'dangerOpen', target: 'danger-check' },
        { guard: 'isRaised', target: 'raised' },
        { guard: 'isHanded', target: 'handed-to-vet' },
        { guard: 'allConfirmed', target: 'ended', actions: 'endBetter' },
        { guard: 'allClosed', target: 'better' },
        { guard: 'twiceAsked', target: 'asked-twice' },
        { guard: 'limitPassed', target: 'limit-passed' },
        { guard: 'lookMissed', target: 'look-missed' },
        { guard: 'lookDue', target: 'look-due' },
        { target: 'under-way' },
      ],
    },
    'under-way': { on: always },
    'look-due': { on: always },
    /** Asks one look first; nothing is raised by time alone. */
    'look-missed': { on: { ...always, ...asking } },
    'asked-twice': { on: always },
    /** Stands here, however long, until somebody looks. */
    'limit-passed': { on: { ...always, ...asking } },
    'danger-check': { on: { ...always, CHECKED: settling } },
    raised: { on: always },
    /** Closed, with a last look to come; a look that finds it back opens it again. */
    better: { on: always },
    'handed-to-vet': { on: always },
    ended: { type: 'final' },
  },
})
