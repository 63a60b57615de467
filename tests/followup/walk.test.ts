import { expect, test } from 'vitest'
import { adjacencyMapToArray, getAdjacencyMap } from 'xstate/graph'
import { FOLLOW_UP_STATES, type FollowUpChartEvent, followUpMachine } from '../../src/followup/chart.ts'
import { INVENTED_PLAN, LONDON } from './invented.ts'

const HOUR = 3_600_000
const START = Date.parse('2026-11-02T18:00:00Z')
const UNTIL = START + 6 * 24 * HOUR

// Each thing that can happen happens now; time goes on by some hours, half a day, or two days.
function eventsFrom(nowMs: number): FollowUpChartEvent[] {
  const now = { nowMs, zone: LONDON }
  return [
    ...INVENTED_PLAN.options.map(({ id }) => ({
      ...now,
      type: 'LOOKED' as const,
      option: id,
      spot: undefined,
    })),
    { ...now, type: 'ASKED' },
    { ...now, type: 'CHECKED', level: { urgency: 'home' } },
    { ...now, type: 'STEP_DONE', step: 'a-step' },
    { ...now, type: 'NOT_DONE', step: 'a-step' },
    { ...now, type: 'STOPPED', because: 'owner' },
    { ...now, type: 'HANDED_TO_VET' },
    ...[12, 48].map(hours => ({ nowMs: nowMs + hours * HOUR, zone: LONDON, type: 'TIME' as const })),
  ]
}

/** Every way from state to state that some event takes, over every course of a week. */
function waysOfTheChart(): string[] {
  const map = getAdjacencyMap(followUpMachine, {
    input: { plan: INVENTED_PLAN },
    limit: 60_000,
    serializeState: ({ value, context: { course } }) =>
      JSON.stringify([
        value,
        course && [
          Math.min(course.nowMs, UNTIL),
          course.askedMs.length,
          course.nowMs - (course.askedMs.at(-1) ?? 0) >= 12 * HOUR,
          course.handed,
          course.ended,
          course.spots.map(({ closedMs, confirmed, checkPending, met, raise }) => [
            closedMs,
            confirmed,
            checkPending,
            met,
            raise?.level.urgency,
          ]),
        ],
      ]),
    events: ({ context: { course } }): FollowUpChartEvent[] =>
      course === undefined
        ? [
            {
              type: 'STARTED',
              nowMs: START,
              zone: LONDON,
              beginning: { atMs: START, zone: LONDON, sinceMs: {}, limits: [] },
              spots: [],
            },
          ]
        : course.nowMs >= UNTIL || course.ended !== undefined
          ? []
          : eventsFrom(course.nowMs),
  })
  const ways = adjacencyMapToArray(map).map(({ state, event, nextState }) => {
    const name = event.type === 'LOOKED' ? event.option : event.type
    return `${state.value} --${name}--> ${nextState.value}`
  })
  return [...new Set(ways)].sort()
}

/** For each state, where each thing that happens may lead; what is not named leaves the state as it is. */
const WAYS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'not-started': { STARTED: 'under-way' },
  'under-way': {
    gone: 'better',
    redder: 'raised',
    worse: 'danger-check',
    TIME: 'limit-passed look-due look-missed under-way',
  },
  'look-due': {
    gone: 'better',
    looser: 'under-way',
    same: 'under-way',
    redder: 'raised',
    worse: 'danger-check',
    TIME: 'limit-passed look-missed',
  },
  'look-missed': {
    gone: 'better',
    looser: 'under-way',
    same: 'under-way',
    redder: 'raised',
    worse: 'danger-check',
    // The first ask, and after half a day the second.
    ASKED: 'asked-twice look-missed',
    TIME: 'limit-passed look-missed',
  },
  'asked-twice': {
    gone: 'better',
    looser: 'raised under-way',
    same: 'raised under-way',
    redder: 'raised',
    worse: 'danger-check',
    TIME: 'raised',
  },
  'limit-passed': {
    gone: 'better',
    looser: 'raised',
    same: 'raised',
    redder: 'raised',
    worse: 'danger-check',
    ASKED: 'asked-twice limit-passed',
  },
  'danger-check': { CHECKED: 'raised' },
  raised: {
    // Handed over before, worse after that, and now well.
    gone: 'better handed-to-vet',
    // Only silence had raised it.
    looser: 'raised under-way',
    same: 'raised under-way',
    worse: 'danger-check',
  },
  better: {
    gone: 'better ended',
    looser: 'raised under-way',
    same: 'raised under-way',
    redder: 'raised',
    worse: 'danger-check',
  },
  'handed-to-vet': { redder: 'raised', worse: 'danger-check' },
}

const HAPPENING = [
  ...INVENTED_PLAN.options.map(({ id }) => id),
  'ASKED',
  'CHECKED',
  'STEP_DONE',
  'NOT_DONE',
  'STOPPED',
  'HANDED_TO_VET',
  'TIME',
]

test('every state is reached, and each happening leads only where the chart says', () => {
  const expected = Object.entries(WAYS).flatMap(([state, leads]) =>
    (state === 'not-started' ? ['STARTED'] : HAPPENING).flatMap(name => {
      const fixed = { STOPPED: 'ended', HANDED_TO_VET: 'handed-to-vet' }[name]
      return (leads[name] ?? fixed ?? state).split(' ').map(target => `${state} --${name}--> ${target}`)
    }),
  )
  const found = waysOfTheChart()
  expect(found).toEqual(expected.sort())
  const reached = new Set(found.map(way => way.split('> ')[1]))
  expect(FOLLOW_UP_STATES.filter(state => !reached.has(state))).toEqual(['not-started'])
})
