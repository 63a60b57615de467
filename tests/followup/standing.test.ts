import { describe, expect, test } from 'vitest'
import { standingOfPlan } from '../../src/followup/standing.ts'
import { at, INVENTED_PLAN, realPlan, Story } from './invented.ts'

const plan = INVENTED_PLAN
const stands = (story: Story, instant: string) => standingOfPlan(story.plan, story.events, at(instant))
const begun = (spots: readonly string[] = []) => new Story(plan).start('2026-11-02T18:00:00Z', { spots })

describe('places that are looked at one by one', () => {
  test('a look is still due while one open place was not looked at', () => {
    const story = begun(['left', 'right']).look('2026-11-02T20:10:00Z', 'same', 'left')
    expect(stands(story, '2026-11-02T20:15:00Z').state).toBe('look-due')
    story.look('2026-11-02T20:20:00Z', 'same', 'right')
    expect(stands(story, '2026-11-02T20:25:00Z').state).toBe('under-way')
  })

  test('the plan closes with the last of them, and a closed one is not asked for', () => {
    const story = begun(['left', 'right']).look('2026-11-02T20:10:00Z', 'gone', 'left')
    story.look('2026-11-02T20:11:00Z', 'same', 'right').look('2026-11-03T08:05:00Z', 'same', 'right')
    expect(stands(story, '2026-11-03T09:00:00Z')).toMatchObject({ state: 'under-way', due: [] })
    story.look('2026-11-03T20:00:00Z', 'gone', 'right')
    expect(stands(story, '2026-11-03T21:00:00Z').state).toBe('better')
  })

  test('what one place came to goes when that place is well, and stays while it is not', () => {
    const story = begun(['left', 'right'])
      .look('2026-11-02T20:10:00Z', 'redder', 'left')
      .look('2026-11-02T20:11:00Z', 'gone', 'right')
    expect(stands(story, '2026-11-02T20:15:00Z')).toMatchObject({
      state: 'raised',
      raised: { because: 'look' },
    })
    story.look('2026-11-03T08:00:00Z', 'gone', 'left')
    expect(stands(story, '2026-11-03T08:01:00Z')).toMatchObject({ state: 'better' })
    expect(stands(story, '2026-11-03T08:01:00Z').raised).toBeUndefined()
  })

  test('a new place joins the plan by being looked at', () => {
    const story = begun(['left'])
      .look('2026-11-02T20:10:00Z', 'gone', 'left')
      .look('2026-11-02T20:11:00Z', 'same', 'tip')
    const standing = stands(story, '2026-11-02T20:15:00Z')
    expect(standing.state).toBe('under-way')
    expect(standing.spots.map(({ id, closed }) => [id, closed])).toEqual([
      ['left', true],
      ['tip', false],
    ])
  })
})

describe('a look', () => {
  test('whose answer this version does not know counts as the worst', () => {
    const story = begun().look('2026-11-02T20:10:00Z', 'an-answer-of-before')
    expect(stands(story, '2026-11-02T20:15:00Z')).toMatchObject({
      state: 'danger-check',
      raised: { level: { urgency: 'day' } },
    })
  })

  test('that finds it well before its day goes on, and keeps no passed limit open', () => {
    const early = {
      ...plan,
      closesFromDay: 3,
      limits: [{ ...plan.limits[0], id: 'a-day', days: 1, level: plan.missed }],
    }
    const story = new Story(early).start('2026-11-02T18:00:00Z').look('2026-11-03T08:10:00Z', 'gone')
    expect(stands(story, '2026-11-03T09:00:00Z').state).toBe('under-way')
    story.look('2026-11-05T20:00:00Z', 'gone')
    expect(stands(story, '2026-11-05T20:01:00Z').state).toBe('better')
  })

  test('counts towards a limit of looks only if it found no end', () => {
    const counted = { ...plan, limits: [{ id: 'two-looks', looks: 2, level: plan.missed }] }
    const story = new Story(counted).start('2026-11-02T18:00:00Z').look('2026-11-02T20:10:00Z', 'same')
    expect(stands(story, '2026-11-02T20:15:00Z').state).toBe('under-way')
    story.look('2026-11-03T08:10:00Z', 'looser')
    expect(stands(story, '2026-11-03T08:15:00Z')).toMatchObject({
      state: 'raised',
      raised: { limit: 'two-looks' },
    })
  })

  test('after a silence that raised lowers it again when it finds no end yet', () => {
    const story = begun()
      .add('2026-11-03T08:05:00Z', { kind: 'asked' })
      .add('2026-11-03T20:05:00Z', { kind: 'asked' })
    expect(stands(story, '2026-11-04T09:00:00Z')).toMatchObject({
      state: 'raised',
      raised: { because: 'missed' },
    })
    story.look('2026-11-04T09:05:00Z', 'same')
    expect(stands(story, '2026-11-04T09:10:00Z').state).toBe('under-way')
  })
})

describe('the danger check', () => {
  test('adds what it came to, and takes nothing from what the look gave', () => {
    const milder = begun()
      .look('2026-11-02T20:10:00Z', 'worse')
      .add('2026-11-02T20:15:00Z', { kind: 'checked', urgency: 'home' })
    expect(stands(milder, '2026-11-02T20:20:00Z').raised?.level).toEqual({ urgency: 'day', withinHours: 24 })
    const worse = begun()
      .look('2026-11-02T20:10:00Z', 'worse')
      .add('2026-11-02T20:15:00Z', { kind: 'checked', urgency: 'now', withinHours: 0 })
    expect(stands(worse, '2026-11-02T20:20:00Z').raised).toMatchObject({
      level: { urgency: 'now' },
      because: 'check',
    })
  })

  test('stays open whatever is seen meanwhile, and however long nobody does it', () => {
    const story = begun().look('2026-11-02T20:10:00Z', 'worse').look('2026-11-02T20:12:00Z', 'gone')
    expect(stands(story, '2027-11-02T20:15:00Z').state).toBe('danger-check')
  })

  test('for old skin that stayed on leaves the urgency to what it finds', () => {
    const story = new Story(realPlan('home-shed-watch'))
      .start('2026-11-02T18:00:00Z')
      .look('2026-11-03T08:10:00Z', 'stuck')
    expect(stands(story, '2026-11-03T08:15:00Z')).toMatchObject({ state: 'danger-check' })
    expect(stands(story, '2026-11-03T08:15:00Z').raised).toBeUndefined()
    story.add('2026-11-03T08:20:00Z', { kind: 'checked', urgency: 'home' })
    expect(stands(story, '2026-11-03T08:25:00Z').state).toBe('under-way')
  })
})

test('steps that were done and not done are told with their times', () => {
  const story = begun()
    .add('2026-11-02T19:00:00Z', { kind: 'step-done', step: 'damp-hide' })
    .add('2026-11-02T19:05:00Z', { kind: 'not-done', step: 'photo', note: 'no camera' })
  expect(stands(story, '2026-11-02T19:10:00Z')).toMatchObject({
    stepsDone: { 'damp-hide': '2026-11-02T19:00:00.000Z' },
    stepsNotDone: { photo: '2026-11-02T19:05:00.000Z' },
  })
})

test("a plan in a vet's hands asks for nothing, and a worse look still leads to the danger check", () => {
  const story = begun().add('2026-11-02T19:00:00Z', { kind: 'handed-to-vet' })
  expect(stands(story, '2026-12-02T19:10:00Z')).toMatchObject({ state: 'handed-to-vet', due: [], ask: false })
  story.look('2026-12-02T20:10:00Z', 'worse')
  expect(stands(story, '2026-12-02T20:15:00Z').state).toBe('danger-check')
})

test('events without a beginning are no plan under way', () => {
  expect(standingOfPlan(plan, [], at('2026-11-02T19:00:00Z')).state).toBe('not-started')
})
