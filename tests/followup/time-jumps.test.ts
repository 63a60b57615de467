import { describe, expect, test } from 'vitest'
import { standingOfPlan } from '../../src/followup/standing.ts'
import { at, INVENTED_PLAN, LONDON, Story, wall } from './invented.ts'

const NEW_YORK = 'America/New_York'
const AUCKLAND = 'Pacific/Auckland'
const plan = INVENTED_PLAN

const walls = (story: Story, instant: string, zone: string) =>
  standingOfPlan(plan, story.events, at(instant, zone)).due.map(look => wall(look.at, zone))

describe('the looks of a plan', () => {
  test.each([
    // Begun two days before the clock goes back, and before it goes forward.
    [
      LONDON,
      '2026-10-23T19:00:00Z',
      '2026-10-23 22:00',
      '2026-10-24 08:00',
      '2026-10-24 20:00',
      '2026-10-26 20:00',
      '2026-10-28 20:00',
    ],
    [
      LONDON,
      '2026-03-27T19:00:00Z',
      '2026-03-27 21:00',
      '2026-03-28 08:00',
      '2026-03-28 20:00',
      '2026-03-30 20:00',
      '2026-04-01 20:00',
    ],
    [
      NEW_YORK,
      '2026-10-30T23:00:00Z',
      '2026-10-30 21:00',
      '2026-10-31 08:00',
      '2026-10-31 20:00',
      '2026-11-02 20:00',
      '2026-11-04 20:00',
    ],
    [
      NEW_YORK,
      '2026-03-06T23:00:00Z',
      '2026-03-06 20:00',
      '2026-03-07 08:00',
      '2026-03-07 20:00',
      '2026-03-09 20:00',
      '2026-03-11 20:00',
    ],
    [
      AUCKLAND,
      '2026-04-03T07:00:00Z',
      '2026-04-03 22:00',
      '2026-04-04 08:00',
      '2026-04-04 20:00',
      '2026-04-06 20:00',
      '2026-04-08 20:00',
    ],
    [
      AUCKLAND,
      '2026-09-25T07:00:00Z',
      '2026-09-25 21:00',
      '2026-09-26 08:00',
      '2026-09-26 20:00',
      '2026-09-28 20:00',
      '2026-09-30 20:00',
    ],
  ])(
    'come at the same hour on the wall on both sides of a clock change: %s, %s',
    (zone, begun, ...expected) => {
      const story = new Story(plan).start(begun, {}, zone)
      const fiveDaysOn = new Date(Date.parse(begun) + 5.5 * 86_400_000).toISOString()
      expect(walls(story, fiveDaysOn, zone)).toEqual(expected)
    },
  )

  test('count 29 February in a leap year', () => {
    const story = new Story(plan).start('2028-02-27T19:00:00Z')
    expect(walls(story, '2028-03-05T12:00:00Z', LONDON).slice(2)).toEqual([
      '2028-02-28 20:00',
      '2028-03-01 20:00',
      '2028-03-03 20:00',
    ])
    const limit = standingOfPlan(plan, story.events, at('2028-02-28T09:00:00Z')).limitAt
    expect(limit).toBe('2028-03-01T00:00:00.000Z')
  })

  test('stay on their evening when the owner has moved to another zone, and none is asked for twice', () => {
    const story = new Story(plan)
      .start('2026-06-01T18:00:00Z')
      .look('2026-06-01T20:05:00Z', 'looser')
      .look('2026-06-02T07:10:00Z', 'looser')
      .look('2026-06-02T19:05:00Z', 'looser')
    // 20:05 in London is 15:05 in New York, before that zone's look of the same evening: it was made all the same.
    const moved = standingOfPlan(plan, story.events, at('2026-06-02T23:30:00Z', NEW_YORK))
    expect(moved.state).toBe('under-way')
    expect(moved.due).toEqual([])
    expect(wall(moved.next?.at ?? '', NEW_YORK)).toBe('2026-06-04 20:00')
    const east = standingOfPlan(plan, story.events, at('2026-06-02T23:30:00Z', AUCKLAND))
    expect(wall(east.next?.at ?? '', AUCKLAND)).toBe('2026-06-04 20:00')
  })
})

describe('a page closed for three weeks', () => {
  const story = new Story(plan).start('2026-06-01T18:00:00Z').look('2026-06-01T20:05:00Z', 'same')
  const back = at('2026-06-22T09:00:00Z')

  test('opens on the passed limit, asks one look, and raises nothing by itself', () => {
    const standing = standingOfPlan(plan, story.events, back)
    expect(standing.state).toBe('limit-passed')
    expect(standing.ask).toBe(true)
    expect(standing.raised).toBeUndefined()
    // The four looks of the list and the newest after it: one look meets them all.
    expect(standing.due.map(({ index }) => index)).toEqual([1, 2, 3, 4, undefined])
  })

  test('ends well when that look finds it gone: nobody is sent to a vet with a healed toe', () => {
    const healed = new Story(plan)
      .start('2026-06-01T18:00:00Z')
      .look('2026-06-01T20:05:00Z', 'same')
      .look(back.instant, 'gone')
    const standing = standingOfPlan(plan, healed.events, back)
    expect([standing.state, standing.due, standing.raised]).toEqual(['better', [], undefined])
    expect(wall(standing.next?.at ?? '', LONDON)).toBe('2026-06-26 20:00')
  })

  test('raises when that look finds it the same', () => {
    const same = new Story(plan).start('2026-06-01T18:00:00Z').look(back.instant, 'same')
    expect(standingOfPlan(plan, same.events, back).raised).toEqual({
      level: { urgency: 'week', withinHours: 72 },
      since: '2026-06-22T09:00:00.000Z',
      seenBy: '2026-06-25T09:00:00.000Z',
      because: 'limit',
      limit: 'three-days',
    })
  })

  test('raises by silence only after a second ask half a day on, and half a day to answer it', () => {
    const asked = new Story(plan).start('2026-06-01T18:00:00Z').add(back.instant, { kind: 'asked' })
    const stateAt = (instant: string) => standingOfPlan(plan, asked.events, at(instant)).state
    expect(standingOfPlan(plan, asked.events, at('2026-06-22T20:59:00Z')).ask).toBe(false)
    // A second ask too soon is no second ask.
    asked.add('2026-06-22T09:05:00Z', { kind: 'asked' })
    expect(stateAt('2026-07-30T09:00:00Z')).toBe('limit-passed')
    asked.add('2026-06-22T21:00:00Z', { kind: 'asked' })
    expect(stateAt('2026-06-23T08:59:00Z')).toBe('asked-twice')
    expect(stateAt('2026-06-23T09:00:00Z')).toBe('raised')
    expect(standingOfPlan(plan, asked.events, at('2026-08-01T09:00:00Z')).raised?.because).toBe('missed')
  })
})

describe('a clock that stands wrong', () => {
  test('set back by a day: what was looked at is not asked for again', () => {
    const story = new Story(plan)
      .start('2026-06-01T18:00:00Z')
      .look('2026-06-01T20:05:00Z', 'looser')
      .look('2026-06-02T07:10:00Z', 'looser')
    const earlier = standingOfPlan(plan, story.events, at('2026-06-01T07:10:00Z'))
    expect([earlier.state, earlier.due]).toEqual(['under-way', []])
    const righted = standingOfPlan(plan, story.events, at('2026-06-02T08:00:00Z'))
    expect([righted.state, righted.due]).toEqual(['under-way', []])
  })

  test('a look written in a year to come puts the plan to sleep for no year', () => {
    const story = new Story(plan).start('2026-06-01T18:00:00Z').look('2031-01-01T00:00:00Z', 'looser')
    const righted = standingOfPlan(plan, story.events, at('2026-06-02T09:00:00Z'))
    // Taken as made no later than now, so before the limit and with the evening still to come.
    expect(righted.state).toBe('under-way')
    expect(wall(righted.next?.at ?? '', LONDON)).toBe('2026-06-02 20:00')
  })

  test('set back by years while something is written: the plan asks sooner, never later', () => {
    const story = new Story(plan).start('2026-06-01T18:00:00Z').add('1970-01-01T00:10:00Z', {
      kind: 'step-done',
      step: 'a-step',
    })
    const righted = standingOfPlan(plan, story.events, at('2026-06-01T19:00:00Z'))
    expect(righted.state).toBe('limit-passed')
    expect(righted.ask).toBe(true)
    expect(righted.raised).toBeUndefined()
  })
})
