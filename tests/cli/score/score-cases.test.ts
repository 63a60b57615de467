import { expect, test } from 'vitest'
import { type Outcome, scoreOf } from '../../../src/cli/score/score-cases.ts'

const outcomes: readonly Outcome[] = [
  { id: 'A', allowed: { min: 'day', max: 'now' }, got: 'now', concerns: ['one'] },
  { id: 'B', allowed: { min: 'day', max: 'now' }, got: 'week', concerns: ['one', 'two'] },
  { id: 'C', allowed: { min: 'well', max: 'home' }, got: 'week', concerns: ['two'] },
  { id: 'D', allowed: { min: 'well', max: 'home' }, concerns: [] },
]
const score = scoreOf(outcomes)

test('each case is within, below, above or not settled, and the four add up', () => {
  const counts = Object.values(score.all).map(({ count }) => count)
  expect(counts).toEqual([1, 1, 1, 1])
  expect(score.outside).toEqual([
    { id: 'B', standing: 'below', allowed: { min: 'day', max: 'now' }, got: 'week' },
    { id: 'C', standing: 'above', allowed: { min: 'well', max: 'home' }, got: 'week' },
    { id: 'D', standing: 'notSettled', allowed: { min: 'well', max: 'home' } },
  ])
})

test('a case counts under the most urgent level that is right for it', () => {
  expect(Object.keys(score.byLevel)).toEqual(['now', 'home'])
  expect(score.byLevel.now?.below).toMatchObject({ count: 1, of: 2 })
  expect(score.byLevel.home?.above).toMatchObject({ count: 1, of: 2 })
})

test('a case with several concerns counts under each, one without under a line of its own', () => {
  const of = Object.entries(score.byConcern).map(([concern, { within }]) => [concern, within.of])
  expect(of).toEqual([
    ['no concern named', 1],
    ['one', 2],
    ['two', 2],
  ])
})
