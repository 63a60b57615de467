import { expect, test } from 'vitest'
import { rankOf, type Urgency } from '../../shared/urgency.ts'
import { realProtocol } from './invented.ts'

const { followUps, evidence } = realProtocol()

/**
 * What the evidence asks for, and the source of it as its row has it. Each limit of ours may be sooner or more urgent,
 * never later or milder. "Ours" marks a time that no source gives: a judgement of this project on that row.
 */
const LIMITS: readonly {
  plan: string
  limit: string
  row: string
  says: string
  days: number
  from?: string
  level: readonly [Urgency, number]
}[] = [
  // Retained shed
  {
    plan: 'home-shed-soak',
    limit: 'three-days',
    row: 'acute-B6',
    says: 'a few days of soaks (sources); 3 days is ours',
    days: 3,
    level: ['week', 72],
  },
  {
    plan: 'home-shed-soak',
    limit: 'under-a-year',
    row: 'acute-B23',
    says: 'young: vet after 48 hours (ours); the next shed comes in about 2 weeks',
    days: 2,
    level: ['week', 72],
  },
  {
    plan: 'home-shed-damp-hide',
    limit: 'past',
    row: 'acute-B6',
    says: 'one night and 3 days of soaks',
    days: 4,
    from: 'shed-since',
    level: ['week', 72],
  },
  {
    plan: 'home-shed-damp-hide',
    limit: 'under-a-year',
    row: 'acute-B23',
    says: 'one night and 2 days of soaks',
    days: 3,
    from: 'shed-since',
    level: ['week', 72],
  },
  {
    plan: 'home-shed-damp-hide',
    limit: 'age-not-known',
    row: 'acute-B7',
    says: 'thick old layers need a vet; one night, then 72 hours (ours)',
    days: 1,
    level: ['week', 72],
  },
  {
    plan: 'home-shed-eye',
    limit: 'one-day',
    row: 'acute-D2',
    says: 'home care, look again at 24 hours; longer is a vet within 24 hours',
    days: 1,
    level: ['day', 24],
  },
  // Dark, bent and lost parts
  {
    plan: 'home-shed-dark-toe',
    limit: 'three-days',
    row: 'acute-B9',
    says: 'dry dead tip: vet in a few days',
    days: 3,
    level: ['week', 72],
  },
  {
    plan: 'home-tail-bent',
    limit: 'two-days',
    row: 'acute-C11',
    says: 'vet in a few days',
    days: 3,
    level: ['week', 72],
  },
  {
    plan: 'home-tail',
    limit: 'two-weeks',
    row: 'acute-C7',
    says: 'raw at 14 days: vet in a few days; a laboratory animal was growing by then',
    days: 14,
    from: 'tail-since',
    level: ['week', 72],
  },
  {
    plan: 'home-weight-after-event',
    limit: 'two-weeks',
    row: 'acute-C16',
    says: 'still falling at 14 days: vet (ours)',
    days: 14,
    level: ['week', 168],
  },
  // Not eating, by age and season
  {
    plan: 'home-eating-young',
    limit: 'hatchling',
    row: 'systemic-N2',
    says: 'hatchling: a few days at 3 days',
    days: 3,
    from: 'last-meal',
    level: ['week', 72],
  },
  {
    plan: 'home-eating-young',
    limit: 'hatchling-longer',
    row: 'systemic-N2',
    says: 'hatchling, 5 days: 24 hours (ours)',
    days: 5,
    from: 'last-meal',
    level: ['day', 24],
  },
  {
    plan: 'home-eating-young',
    limit: 'juvenile',
    row: 'systemic-N2',
    says: 'juvenile: a few days at 5 days',
    days: 5,
    from: 'last-meal',
    level: ['week', 72],
  },
  {
    plan: 'home-eating-young',
    limit: 'half-grown',
    row: 'systemic-N3',
    says: 'subadult: 7 to 10 days; the sooner',
    days: 7,
    from: 'last-meal',
    level: ['week', 72],
  },
  {
    plan: 'home-eating-adult',
    limit: 'two-weeks',
    row: 'systemic-N4',
    says: 'adult, tail plump, weight steady: up to 14 days',
    days: 14,
    from: 'last-meal',
    level: ['week', 168],
  },
  {
    plan: 'home-eating-adult',
    limit: 'no-store',
    row: 'acute-C15',
    says: 'after a lost tail: longer than 7 days is a concern',
    days: 7,
    from: 'last-meal',
    level: ['week', 72],
  },
  {
    plan: 'home-eating-season',
    limit: 'breeding-male',
    row: 'systemic-N8',
    says: 'breeding male: up to 2 to 3 weeks; the sooner',
    days: 14,
    from: 'last-meal',
    level: ['week', 168],
  },
  {
    plan: 'home-eating-season',
    limit: 'eggs',
    row: 'systemic-N9',
    says: 'eggs: about 3 to 4 weeks; the sooner',
    days: 21,
    from: 'last-meal',
    level: ['week', 72],
  },
  {
    plan: 'home-eating-season',
    limit: 'four-weeks',
    row: 'gaps-6',
    says: 'a keeper page acts at a month',
    days: 30,
    from: 'last-meal',
    level: ['week', 168],
  },
  {
    plan: 'home-eating-season',
    limit: 'one-missing',
    row: 'systemic-N4',
    says: 'no clear normal cause: the ordinary 14 days',
    days: 14,
    from: 'last-meal',
    level: ['week', 168],
  },
  {
    plan: 'home-eating-warmth',
    limit: 'warm-two-weeks',
    row: 'systemic-R6',
    says: 'warm again and off food 2 weeks: a few days',
    days: 14,
    level: ['week', 72],
  },
  {
    plan: 'home-enclosure-fix',
    limit: 'two-weeks',
    row: 'systemic-R6',
    says: 'the same after any fix of the heat',
    days: 14,
    level: ['week', 72],
  },
  {
    plan: 'home-new',
    limit: 'two-weeks',
    row: 'systemic-N6',
    says: 'new home: 7 to 14 days for an adult; the rule of this guide takes 14',
    days: 14,
    level: ['week', 168],
  },
  // Weight, droppings, eggs, wounds
  {
    plan: 'home-weight',
    limit: 'two-weeks',
    row: 'systemic-W2',
    says: 'a downward trend that goes on 2 weeks: a few days',
    days: 14,
    level: ['week', 168],
  },
  {
    plan: 'home-droppings',
    limit: 'young',
    row: 'systemic-G1',
    says: 'young: a few days at 5 days',
    days: 5,
    from: 'last-dropping',
    level: ['week', 72],
  },
  {
    plan: 'home-droppings',
    limit: 'ten-days',
    row: 'systemic-G1',
    says: 'grown: a few days at 10 days',
    days: 10,
    from: 'last-dropping',
    level: ['week', 72],
  },
  {
    plan: 'home-eggs',
    limit: 'three-weeks',
    row: 'systemic-P3',
    says: 'past about 4 weeks; 3 to 4 in a keeper page',
    days: 28,
    level: ['week', 168],
  },
  {
    plan: 'home-tail-apart',
    limit: 'a-week',
    row: 'acute-W4',
    says: 'bites of its own kind: vet in a few days',
    days: 7,
    level: ['week', 72],
  },
  {
    plan: 'home-accident',
    limit: 'week-after',
    row: 'acute-A26',
    says: 'chilled: toes and breathing again at 24 hours, 3 and 7 days',
    days: 7,
    level: ['week', 72],
  },
]

test.each(LIMITS)('$plan $limit is no later and no milder than $row: $says', one => {
  const limit = followUps.plans[one.plan]?.limits.find(({ id }) => id === one.limit)
  expect(evidence[one.row]).toBeDefined()
  expect(limit?.from).toBe(one.from)
  expect(limit?.days ?? (limit?.hours ?? Number.NaN) / 24).toBeLessThanOrEqual(one.days)
  const [urgency, withinHours] = one.level
  expect(rankOf(limit?.level ?? { urgency: 'well' })).toBeGreaterThanOrEqual(rankOf({ urgency, withinHours }))
})

/** What one look may find that the evidence sends to a vet at once, whatever the days. */
const LOOKS: readonly [plan: string, option: string, row: string, urgency: Urgency][] = [
  ['home-shed-soak', 'darker', 'acute-B8', 'day'],
  ['home-shed-damp-hide', 'darker', 'acute-B8', 'day'],
  ['home-shed-dark-toe', 'grows', 'acute-B9', 'day'],
  ['home-tail', 'swollen', 'acute-C6', 'day'],
  ['home-tail', 'bleeds', 'acute-A7', 'now'],
  ['home-eating-adult', 'lighter', 'systemic-N5', 'week'],
  ['home-eating-adult', 'tenth-lighter', 'systemic-N5', 'day'],
  ['home-eating-young', 'lighter', 'systemic-N2', 'day'],
  ['home-eating-season', 'five-lighter', 'systemic-N10', 'week'],
  ['home-eating-season', 'tenth-lighter', 'systemic-R2', 'day'],
  ['home-eating-season', 'not-waking', 'systemic-R3', 'now'],
  ['home-eating-warmth', 'slow-though-warm', 'systemic-N11', 'day'],
  ['home-weight', 'tenth-lighter', 'systemic-W3', 'day'],
  ['home-weight-after-event', 'shakes', 'systemic-P13', 'now'],
  ['home-droppings', 'loose', 'systemic-G6', 'week'],
  ['home-droppings', 'pushes', 'systemic-G2', 'day'],
  ['home-eggs', 'second-missing', 'systemic-P6', 'day'],
  ['home-burn-look', 'pink', 'acute-W7', 'week'],
  ['home-burn-look', 'blister', 'acute-A13', 'now'],
  ['home-poison', 'gapes', 'acute-A19', 'now'],
  ['home-shed-eye', 'shut', 'acute-D3', 'day'],
]

test.each(LOOKS)(
  '%s: a look that finds "%s" gives at least what %s asks: %s',
  (plan, option, row, urgency) => {
    const found = followUps.plans[plan]?.options.find(({ id }) => id === option)
    expect(evidence[row]).toBeDefined()
    expect(rankOf(found?.level ?? { urgency: 'well' })).toBeGreaterThanOrEqual(rankOf({ urgency }))
  },
)

test('the first looks after a lost tail come at 1 hour, next morning, and on days 1, 3, 7 and 14', () => {
  // acute-C1 looks again at 24 hours, 3, 7 and 14 days; the first hour and the morning are added for a stopped bleed.
  expect(followUps.plans['home-tail']?.looks).toEqual([
    { hours: 1 },
    { morning: 1 },
    { day: 1 },
    { day: 3 },
    { day: 7 },
    { day: 14 },
  ])
  expect(followUps.plans['home-tail']?.records).toBe('tail-lost')
  expect(followUps.plans['home-tail']?.weighDays).toEqual([3, 7, 14])
})

test('every plan has a turn of its own: enclosure fix, appointment and vet visit once each', () => {
  const begins = Object.values(followUps.plans).map(plan => plan.begins)
  for (const turn of ['enclosure-fix', 'appointment', 'vet-visit'] as const)
    expect(begins.filter(one => one === turn)).toHaveLength(1)
})

test('every look can say that the animal is not itself, and that leads to the danger check', () => {
  const mute = Object.values(followUps.plans).filter(
    ({ id, options }) =>
      !options.some(
        ({ means }, index) =>
          means === 'danger-check' &&
          /react|shakes|slow or weak|something new|not waking/i.test(
            followUps.words[id]?.options[index] ?? '',
          ),
      ),
  )
  expect(mute.map(({ id }) => id)).toEqual([])
})

test('no word of a follow-up gives a warmth, depth, dose or number of minutes', () => {
  const words = Object.values(followUps.words).flatMap(({ ask, options, reasons }) => [
    ask,
    ...options,
    ...reasons,
  ])
  expect(words.length).toBeGreaterThan(150)
  expect(words.filter(text => /°|\bminutes?\b|\bmm\b|\bml\b|\bmg\b|centimet/i.test(text))).toEqual([])
})
