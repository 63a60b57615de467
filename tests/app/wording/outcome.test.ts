import { describe, expect, test } from 'vitest'
import { CANNOT_MEASURE } from '../../../shared/answers.ts'
import type { CareItem } from '../../../shared/assessment.ts'
import { labels } from '../../../src/app/wording/labels.ts'
import {
  cautions,
  firstAidTitle,
  nevers,
  openPlans,
  planParts,
  type Told,
} from '../../../src/app/wording/outcome.ts'
import { book, withCare, withCase, worked } from './worked.ts'

const [any] = worked
if (!any) throw new Error('No worked case settles.')

/** The items of some steps of a plan. */
const stepsOf = (id: string): CareItem[] =>
  book.logic.carePlans
    .filter(plan => plan.id === id)
    .flatMap(plan => plan.steps.map(step => ({ plan: plan.id, item: step.id })))

const textOf = ({ plan, item }: CareItem, list: 'steps' | 'nevers'): string => {
  const logic = book.logic.carePlans.find(({ id }) => id === plan)
  return book.plan(plan)?.[list][logic?.[list].findIndex(({ id }) => id === item) ?? -1]?.text ?? ''
}

describe.each(worked)('$name', told => {
  const { care } = told.assessment

  test('tells every never-do once, open or folded', () => {
    const { open, folded } = nevers(told)
    const all = new Set(care.nevers.map(item => textOf(item, 'nevers')))
    expect([...open, ...folded].sort()).toEqual([...all].sort())
    expect(open.length).toBeLessThanOrEqual(4)
  })

  test('tells every caution once, open or folded', () => {
    const { open, folded } = cautions(told)
    expect([...open, ...folded].sort()).toEqual(book.frame.cautions.map(({ text }) => text).sort())
  })

  test('tells every step', () => {
    const shown = new Set<string>()
    const parts = [care.firstAid, care.holding, care.steps].flatMap(items => planParts(told, items, shown))
    const all = new Set([...care.firstAid, ...care.holding, ...care.steps].map(item => textOf(item, 'steps')))
    expect(parts.flatMap(({ steps }) => steps).sort()).toEqual([...all].sort())
  })
})

describe('the heading of first aid', () => {
  const plans = book.logic.carePlans.filter(({ kind }) => kind === 'first-aid')
  const phoneAt = (id: string) =>
    plans.find(plan => plan.id === id)?.steps.findIndex(({ act }) => act === 'phone') ?? -1
  const titleOf = (id: string) => firstAidTitle(withCare(any, { firstAid: stepsOf(id) }))

  test('says "first this, then phone" over a plan that does something before the phone', () => {
    const before = plans.filter(({ id }) => phoneAt(id) > 0)
    expect(before.length).toBeGreaterThan(0)
    expect(before.map(({ id }) => titleOf(id))).toEqual(before.map(() => labels.firstThenPhone))
  })

  test('does not say it over a plan that phones first', () => {
    const phoning = plans.filter(({ id }) => phoneAt(id) === 0)
    expect(phoning.length).toBeGreaterThan(0)
    expect(phoning.map(({ id }) => titleOf(id))).toEqual(phoning.map(() => labels.doNow))
  })
})

describe('a caution', () => {
  const bearing = book.frame.cautions.filter(({ acts }) => acts !== undefined)
  test.each(bearing)(
    '$id stands open where one of its acts is told, and only there',
    ({ text, acts = [] }) => {
      const earlier = bearing.slice(
        0,
        bearing.findIndex(one => one.text === text),
      )
      const bears = (one: readonly { act: string }[], of: readonly string[] = []) =>
        one.some(({ act }) => of.includes(act))
      // At most two stand open, so a plan on which no two earlier ones bear.
      const plan = book.logic.carePlans.find(
        ({ steps }) => bears(steps, acts) && earlier.filter(one => bears(steps, one.acts)).length < 2,
      )
      const without = book.logic.carePlans.find(({ steps }) => steps.every(({ act }) => !acts.includes(act)))
      const none = { firstAid: [], holding: [] }
      expect(cautions(withCare(any, { ...none, steps: stepsOf(plan?.id ?? '') })).open).toContain(text)
      expect(cautions(withCare(any, { ...none, steps: stepsOf(without?.id ?? '') })).folded).toContain(text)
    },
  )
})

describe('without a scale', () => {
  const weights = book.logic.questions.find(({ kind }) => kind === 'weights')
  const plan = book.logic.carePlans.find(
    ({ kind, steps }) => kind === 'home' && steps.some(({ act }) => act === 'weigh') && steps.length > 3,
  )
  const parts = (told: Told) => planParts(told, stepsOf(plan?.id ?? ''), new Set())
  const given = any.assessment.now.instant
  const answers = { [weights?.id ?? '']: { kind: CANNOT_MEASURE, given } as const }
  const weighing = (plan?.steps ?? [])
    .filter(({ act }) => act === 'weigh')
    .map(({ id }) => textOf({ plan: plan?.id ?? '', item: id }, 'steps'))

  test('whatever is weighed stands together at the end', () => {
    const last = parts(withCase(any, { answers, weighIns: [] })).at(-1)
    expect(last).toMatchObject({ title: labels.withScale, steps: weighing })
  })

  test('but in its place where a weight is known', () => {
    const known = parts(withCase(any, { answers, weighIns: [{ at: given, massGrams: 50 }] }))
    expect(known.map(({ title }) => title)).not.toContain(labels.withScale)
    expect(known[0]?.steps).toEqual(expect.arrayContaining(weighing))
  })
})

test('the first plan stands open however long, further ones while there is room', () => {
  const part = (id: string, count: number) => ({
    id,
    title: id,
    opening: undefined,
    steps: Array.from({ length: count }, (_, place) => `${id} ${place}`),
  })
  const ids = (parts: readonly { id: string }[]) => parts.map(({ id }) => id)
  const long = openPlans([part('a', 12), part('b', 1)])
  expect([ids(long.open), ids(long.folded)]).toEqual([['a'], ['b']])
  const short = openPlans([part('a', 3), part('b', 4), part('c', 1)])
  expect([ids(short.open), ids(short.folded)]).toEqual([['a', 'b'], ['c']])
})
