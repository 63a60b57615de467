import fc from 'fast-check'
import { expect, test } from 'vitest'
import { createActor } from 'xstate'
import type { FollowUpPlan } from '../../shared/follow-up.ts'
import type { FollowUpEvent } from '../../shared/follow-up-event.ts'
import { rankOf } from '../../shared/urgency.ts'
import { type FollowUpChartEvent, followUpMachine } from '../../src/followup/chart.ts'
import { raiseOf } from '../../src/followup/course.ts'
import { type PlanStanding, standingOfPlan } from '../../src/followup/standing.ts'
import { at, INVENTED_PLAN, realProtocol, Story } from './invented.ts'

const HOUR = 3_600_000
const START = '2026-03-27T19:30:00Z'
const plan = INVENTED_PLAN

/** A plan with spots, a limit of looks and a check without an urgency, to walk other ways than the first. */
const OTHER_PLAN: FollowUpPlan = {
  ...plan,
  id: 'other-plan',
  closesFromDay: 2,
  options: [
    { id: 'gone', means: 'closes' },
    { id: 'same', means: 'goes-on' },
    { id: 'stuck', means: 'danger-check' },
    { id: 'redder', means: 'raises', level: { urgency: 'week', withinHours: 72 } },
    { id: 'worse', means: 'danger-check', level: { urgency: 'now', withinHours: 0 } },
  ],
  limits: [
    { id: 'four-looks', looks: 4, level: { urgency: 'week', withinHours: 168 } },
    { id: 'a-week', days: 7, level: { urgency: 'week', withinHours: 72 } },
  ],
}

const REAL_PLANS = Object.values(realProtocol().followUps.plans)

const what = (of: FollowUpPlan) =>
  fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...of.options.map(({ id }) => `looked ${id}`)) },
    { weight: 2, arbitrary: fc.constant('asked') },
    {
      weight: 1,
      arbitrary: fc.constantFrom('checked home', 'checked day', 'step', 'stopped', 'handed-to-vet'),
    },
  )

const happening = (of: FollowUpPlan) =>
  fc.record({
    afterHours: fc.oneof(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 600 })),
    what: what(of),
    spot: fc.constantFrom(undefined, 'left', 'right', 'tip'),
    zone: fc.constantFrom('Europe/London', 'America/New_York', 'Pacific/Auckland'),
  })

const stories = fc.oneof(fc.constantFrom(plan, OTHER_PLAN), fc.constantFrom(...REAL_PLANS)).chain(of =>
  fc.record({
    of: fc.constant(of),
    spots: fc.constantFrom([], ['left'], ['left', 'right']),
    happenings: fc.array(happening(of), { maxLength: 12 }),
    laterHours: fc.integer({ min: 0, max: 200 }),
  }),
)

/** The story told, and the instant it has come to. */
function told({
  of,
  spots,
  happenings,
}: {
  of: FollowUpPlan
  spots: readonly string[]
  happenings: Happening[]
}) {
  const story = new Story(of).start(START, { spots })
  let nowMs = Date.parse(START)
  for (const one of happenings) {
    nowMs += one.afterHours * HOUR
    add(story, new Date(nowMs).toISOString(), one)
  }
  return { story, nowMs }
}
type Happening = { afterHours: number; what: string; spot: string | undefined; zone: string }

function add(story: Story, instant: string, { what: name, spot, zone }: Happening): void {
  const [kind, detail = ''] = name.split(' ')
  if (kind === 'looked') story.look(instant, detail, spot, zone)
  else if (kind === 'asked') story.add(instant, { kind: 'asked' }, zone)
  else if (kind === 'checked')
    story.add(
      instant,
      detail === 'day'
        ? { kind: 'checked', urgency: 'day', withinHours: 24 }
        : { kind: 'checked', urgency: 'home' },
      zone,
    )
  else if (kind === 'step') story.add(instant, { kind: 'step-done', step: 'a-step' }, zone)
  else if (kind === 'stopped') story.add(instant, { kind: 'stopped', because: 'owner' }, zone)
  else story.add(instant, { kind: 'handed-to-vet' }, zone)
}

const moment = (ms: number) => at(new Date(ms).toISOString())
const rankAt = ({ raised }: PlanStanding) => (raised ? rankOf(raised.level) : 0)
const isOver = ({ state }: PlanStanding) => state === 'ended' || state === 'handed-to-vet'

test('a chart kept running, looked at now and then, stands where the replay of what was stored stands', () => {
  fc.assert(
    fc.property(stories, fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 12 }), (drawn, openings) => {
      const story = new Story(drawn.of).start(START, { spots: drawn.spots })
      const actor = createActor(followUpMachine, { input: { plan: drawn.of } }).start()
      let nowMs = Date.parse(START)
      // What is over takes nothing more.
      const send = (event: FollowUpChartEvent) => actor.getSnapshot().status === 'active' && actor.send(event)
      const time = (zone: string) => send({ type: 'TIME', nowMs, zone })
      const beginning = { atMs: nowMs, zone: 'Europe/London', sinceMs: {}, limits: [] }
      actor.send({ type: 'STARTED', nowMs, zone: 'Europe/London', beginning, spots: drawn.spots })
      drawn.happenings.forEach((one, index) => {
        // The page is opened somewhere on the way, and closed again.
        const opened = nowMs + (one.afterHours * HOUR * (openings[index] ?? 0)) / 100
        const next = nowMs + one.afterHours * HOUR
        nowMs = opened
        time('Europe/London')
        nowMs = next
        time(one.zone)
        add(story, new Date(nowMs).toISOString(), one)
        const [kind, detail = ''] = one.what.split(' ')
        const when = { nowMs, zone: one.zone }
        if (kind === 'looked') send({ ...when, type: 'LOOKED', option: detail, spot: one.spot })
        else if (kind === 'asked') send({ ...when, type: 'ASKED' })
        else if (kind === 'checked')
          send({
            ...when,
            type: 'CHECKED',
            level: detail === 'day' ? { urgency: 'day', withinHours: 24 } : { urgency: 'home' },
          })
        else if (kind === 'stopped') send({ ...when, type: 'STOPPED', because: 'owner' })
        else if (kind === 'handed-to-vet') send({ ...when, type: 'HANDED_TO_VET' })
        time('Europe/London')
        const standing = standingOfPlan(drawn.of, story.events, moment(nowMs))
        const { value, context } = actor.getSnapshot()
        expect(standing.state).toBe(value)
        const raise = context.course && value !== 'ended' ? raiseOf(context.course) : undefined
        expect(standing.raised?.level).toEqual(raise?.level)
        expect(standing.raised?.because).toEqual(raise?.because)
      })
    }),
    { numRuns: 300 },
  )
})

test('events written twice and out of order by two tabs change nothing', () => {
  fc.assert(
    fc.property(stories, fc.array(fc.nat({ max: 11 }), { maxLength: 5 }), (drawn, twice) => {
      const { story, nowMs } = told(drawn)
      const copies = twice.flatMap(index => story.events[index] ?? [])
      const events: FollowUpEvent[] = [...copies, ...story.events].toReversed()
      expect(standingOfPlan(drawn.of, events, moment(nowMs))).toEqual(
        standingOfPlan(drawn.of, story.events, moment(nowMs)),
      )
    }),
    { numRuns: 200 },
  )
})

test('a worse look never gives less', () => {
  fc.assert(
    fc.property(stories, fc.constantFrom(undefined, 'left', 'right'), (drawn, spot) => {
      const { story, nowMs } = told(drawn)
      const given = drawn.of.options.map(({ id }) => {
        const seq = story.events.length
        const look: FollowUpEvent = {
          form: 1,
          runId: 'run-1',
          animalId: 'animal-1',
          seq,
          at: new Date(nowMs).toISOString(),
          zone: 'Europe/London',
          kind: 'looked',
          option: id,
          ...(spot === undefined ? {} : { spot }),
        }
        const standing = standingOfPlan(drawn.of, [...story.events, look], moment(nowMs))
        return { rank: rankAt(standing), checks: standing.state === 'danger-check' }
      })
      given.reduce((milder, worse) => {
        expect(worse.rank).toBeGreaterThanOrEqual(milder.rank)
        return worse
      })
      // Only an option that leads to the danger check asks for it, besides one already open.
      const before = standingOfPlan(drawn.of, story.events, moment(nowMs))
      if (before.state !== 'danger-check' && before.state !== 'ended')
        expect(given.map(({ checks }) => checks)).toEqual(
          drawn.of.options.map(({ means }) => means === 'danger-check'),
        )
    }),
    { numRuns: 300 },
  )
})

test('time alone never lowers, and never raises without two asks', () => {
  fc.assert(
    fc.property(stories, drawn => {
      const { story, nowMs } = told(drawn)
      const before = standingOfPlan(drawn.of, story.events, moment(nowMs))
      const after = standingOfPlan(drawn.of, story.events, moment(nowMs + drawn.laterHours * HOUR))
      expect(rankAt(after)).toBeGreaterThanOrEqual(rankAt(before))
      if (before.state !== 'asked-twice') expect(rankAt(after)).toBe(rankAt(before))
    }),
    { numRuns: 300 },
  )
})

test('a plan left alone for two months never falls silent: it asks for a look, a check, or a vet', () => {
  fc.assert(
    fc.property(stories, drawn => {
      const { story, nowMs } = told(drawn)
      const later = standingOfPlan(drawn.of, story.events, moment(nowMs + 61 * 24 * HOUR))
      const speaks = later.due.length > 0 || later.raised !== undefined || later.state === 'danger-check'
      expect(isOver(later) || speaks).toBe(true)
      const ends = story.events.some(({ kind }) => kind === 'stopped')
      if (later.state === 'ended' && !ends) expect(later.ended).toBe('better')
      const closing = new Set(drawn.of.options.flatMap(({ id, means }) => (means === 'closes' ? [id] : [])))
      if (later.ended === 'better')
        expect(
          story.events.filter(event => event.kind === 'looked' && closing.has(event.option)).length,
        ).toBeGreaterThan(1)
    }),
    { numRuns: 300 },
  )
})

test('right after everything was looked at nothing is due, and no third ask is made', () => {
  fc.assert(
    fc.property(stories, drawn => {
      const { story, nowMs } = told(drawn)
      const standing = standingOfPlan(drawn.of, story.events, moment(nowMs))
      const asks = story.events.filter(({ kind }) => kind === 'asked').length
      if (asks >= 2 && standing.state === 'asked-twice') expect(standing.ask).toBe(false)
      const mild = drawn.of.options.find(({ means }) => means === 'goes-on') ?? drawn.of.options[0]
      story.look(new Date(nowMs).toISOString(), mild?.id ?? '')
      const looked = standingOfPlan(drawn.of, story.events, moment(nowMs))
      expect(looked.due).toEqual([])
      expect(looked.ask && looked.state !== 'limit-passed').toBe(false)
    }),
    { numRuns: 300 },
  )
})
