import { expect, test } from 'vitest'
import { type FollowUpEvent, followUpEventSchema } from '../../shared/follow-up-event.ts'
import { type PlanStanding, standingOfPlan } from '../../src/followup/standing.ts'
import { at, realPlan, Story, wall } from './invented.ts'

const HALF_HOUR = 1_800_000

const monthOnward = (instant: string) => wall(instant).slice(5)

/** What the store gives back after a reload: the events as text, read again through their schema. */
const reloaded = (events: readonly FollowUpEvent[]) =>
  events.map(event => followUpEventSchema.parse(JSON.parse(JSON.stringify(event))))

/** How a story stands at a time, with only what was stored until then; a reload changes nothing. */
function standsAt(story: Story, instant: string): PlanStanding {
  const until = story.events.filter(event => Date.parse(event.at) <= Date.parse(instant))
  const standing = standingOfPlan(story.plan, until, at(instant))
  expect(standingOfPlan(story.plan, reloaded(until), at(instant))).toEqual(standing)
  return standing
}

/** Drives the clock in half hours and notes each look the moment it becomes due: what the owner is asked for. */
function askedFor(story: Story, from: string, to: string): string[] {
  const asked: string[] = []
  let due = new Set<string>()
  for (let ms = Date.parse(from); ms <= Date.parse(to); ms += HALF_HOUR) {
    const until = story.events.filter(event => Date.parse(event.at) <= ms)
    const { due: looks } = standingOfPlan(story.plan, until, at(new Date(ms).toISOString()))
    const now = new Set(looks.map(look => monthOnward(look.at)))
    for (const look of now) if (!due.has(look)) asked.push(look)
    due = now
  }
  return asked
}

/** State, urgency and reason in one line, after each event of the story. */
const course = (story: Story) =>
  story.events.map(event => {
    const { state, raised, due } = standsAt(story, event.at)
    return [monthOnward(event.at), event.kind, state, raised?.level.urgency, raised?.because, due.length]
      .filter(one => one !== undefined)
      .join(' ')
  })

test('ten days with skin on a toe and the tail tip, from the first evening to the vet', () => {
  const start = '2026-10-20T19:30:00Z'
  const shed = new Story(realPlan('home-shed-soak'), 'shed')
    .start(start, { spots: ['toes', 'tail-tip'], since: { 'shed-since': '2026-10-20T07:30:00Z' } })
    .look('2026-10-21T07:10:00Z', 'same', 'toes')
    .look('2026-10-21T07:11:00Z', 'looser', 'tail-tip')
    .add('2026-10-21T17:00:00Z', { kind: 'step-done', step: 'soak' })
    // The evening is forgotten; the next morning the page asks for one look before anything else.
    .add('2026-10-22T07:05:00Z', { kind: 'asked' })
    .look('2026-10-22T07:10:00Z', 'same', 'toes')
    .look('2026-10-22T07:11:00Z', 'gone', 'tail-tip')
    // Fifty minutes early, and not asked for again at its hour.
    .look('2026-10-22T18:10:00Z', 'looser', 'toes')
    .look('2026-10-23T19:30:00Z', 'same', 'toes')
    .look('2026-10-24T09:00:00Z', 'tighter', 'toes')
    .add('2026-10-24T09:10:00Z', { kind: 'checked', urgency: 'home' })
    .add('2026-10-24T14:00:00Z', { kind: 'handed-to-vet' })
  expect(course(shed)).toEqual([
    '10-20 20:30 started under-way 0',
    '10-21 08:10 looked look-due 1',
    '10-21 08:11 looked under-way 0',
    '10-21 18:00 step-done under-way 0',
    '10-22 08:05 asked look-missed 1',
    '10-22 08:10 looked look-missed 1',
    '10-22 08:11 looked under-way 0',
    '10-22 19:10 looked under-way 0',
    '10-23 20:30 looked raised week limit 0',
    '10-24 10:00 looked danger-check week limit 0',
    '10-24 10:10 checked raised week limit 0',
    '10-24 15:00 handed-to-vet handed-to-vet 0',
  ])
  expect(askedFor(shed, start, '2026-10-30T19:30:00Z')).toEqual(['10-21 08:00', '10-21 20:00', '10-23 20:00'])
  // Three days of elapsed time from the look that raised it; the clock goes back in between.
  expect(standsAt(shed, '2026-10-24T09:10:00Z').raised).toMatchObject({
    level: { urgency: 'week', withinHours: 72 },
    seenBy: '2026-10-26T19:30:00.000Z',
    limit: 'three-days',
  })
  expect(standsAt(shed, '2026-10-23T19:30:00Z').spots).toEqual([
    {
      id: 'toes',
      option: 'same',
      since: '2026-10-23T19:30:00.000Z',
      lookedAt: '2026-10-23T19:30:00.000Z',
      closed: false,
    },
    {
      id: 'tail-tip',
      option: 'gone',
      since: '2026-10-22T07:11:00.000Z',
      lookedAt: '2026-10-22T07:11:00.000Z',
      closed: true,
    },
  ])

  const after = new Story(realPlan('home-after-vet'), 'after')
    .start('2026-10-24T14:00:00Z')
    .look('2026-10-25T20:15:00Z', 'better')
    .look('2026-10-27T20:10:00Z', 'better')
    .look('2026-10-30T20:00:00Z', 'well')
  expect(askedFor(after, '2026-10-24T14:00:00Z', '2026-11-13T21:00:00Z')).toEqual([
    '10-25 20:00',
    '10-27 20:00',
    // Well on the tenth day: only the last look is still asked for.
    '11-13 20:00',
  ])
  expect(standsAt(after, '2026-10-30T20:00:00Z')).toMatchObject({ state: 'better', due: [] })
})

test('thirty days without food in winter, with a meal at the end', () => {
  const start = '2026-11-03T19:00:00Z'
  const fast = new Story(realPlan('home-eating-season'), 'fast')
    .start(start, { since: { 'last-meal': '2026-11-01T19:00:00Z' } })
    .look('2026-11-04T19:30:00Z', 'holds')
    .look('2026-11-10T20:10:00Z', 'holds')
    // The page stays closed for two days past the second week.
    .add('2026-11-19T18:00:00Z', { kind: 'asked' })
    .look('2026-11-19T18:05:00Z', 'no-weight')
    .look('2026-11-24T20:10:00Z', 'holds')
    // Four weeks since the last meal: the page opens on it, before the look of the 28th day.
    .add('2026-11-29T10:00:00Z', { kind: 'asked' })
    .look('2026-11-29T10:05:00Z', 'holds')
    .look('2026-12-02T20:30:00Z', 'normal-meal')
    .look('2026-12-09T20:30:00Z', 'normal-meal')
  expect(course(fast)).toEqual([
    '11-03 19:00 started under-way 0',
    '11-04 19:30 looked under-way 0',
    '11-10 20:10 looked under-way 0',
    '11-19 18:00 asked look-missed 1',
    '11-19 18:05 looked under-way 0',
    '11-24 20:10 looked under-way 0',
    '11-29 10:00 asked limit-passed 0',
    '11-29 10:05 looked raised week limit 0',
    '12-02 20:30 looked better 0',
    '12-09 20:30 looked ended 0',
  ])
  expect(askedFor(fast, start, '2026-12-20T12:00:00Z')).toEqual([
    '11-04 19:00',
    '11-10 20:00',
    '11-17 20:00',
    '11-24 20:00',
    '12-01 20:00',
    '12-09 20:00',
  ])
  expect(standsAt(fast, '2026-11-28T23:59:00Z').state).toBe('under-way')
  expect(standsAt(fast, '2026-11-29T00:00:00Z')).toMatchObject({ state: 'limit-passed', ask: true })
  expect(standsAt(fast, '2026-12-01T21:00:00Z').raised).toEqual({
    level: { urgency: 'week', withinHours: 168 },
    since: '2026-11-29T10:05:00.000Z',
    seenBy: '2026-12-06T10:05:00.000Z',
    because: 'limit',
    limit: 'four-weeks',
  })
  expect(standsAt(fast, '2026-12-20T12:00:00Z')).toMatchObject({ state: 'ended', ended: 'better', due: [] })
})

test('the same fast nobody looks at again stands at its limit for half a year, and asks', () => {
  const left = new Story(realPlan('home-eating-season'))
    .start('2026-11-03T19:00:00Z', { since: { 'last-meal': '2026-11-01T19:00:00Z' } })
    .look('2026-11-04T19:30:00Z', 'holds')
  for (const instant of ['2026-11-29T12:00:00Z', '2027-02-28T12:00:00Z', '2027-05-30T12:00:00Z']) {
    const standing = standsAt(left, instant)
    expect([standing.state, standing.ask, standing.raised]).toEqual(['limit-passed', true, undefined])
  }
})
