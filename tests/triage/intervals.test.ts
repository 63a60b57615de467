import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Condition } from '../../shared/compiled.ts'
import { highOf, intervalOf, lowOf, noFacts } from '../../src/triage/intervals.ts'

const INTERVALS = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const

/** Facts that stand at the given intervals, fact by fact. */
function statesOf(ends: readonly (readonly [number, number])[]) {
  const states = noFacts(ends.map(() => 0))
  ends.forEach(([low, high], fact) => {
    states.lowOptions[fact] = low === 2 ? 1 : 0
    states.lowRest[fact] = low === 1 ? 1 : 0
    states.highOptions[fact] = high === 2 ? 1 : 0
    states.highRest[fact] = high === 1 ? 1 : 0
  })
  return states
}

const atoms = (count: number): Condition[] =>
  Array.from({ length: count }, (_, fact) => ({ kind: 'atom', fact, options: 1 }))
const endsOf = (condition: Condition, ends: readonly (readonly [number, number])[]) => {
  const interval = intervalOf(condition, statesOf(ends))
  return [lowOf(interval), highOf(interval)]
}
const some = fc.array(fc.constantFrom(...INTERVALS), { minLength: 1, maxLength: 5 })

test('an atom stands where its fact stands, at both ends', () => {
  for (const ends of INTERVALS) expect(endsOf(atoms(1)[0]!, [ends])).toEqual(ends)
})

test('"all" takes the least ends and "any" the greatest', () => {
  fc.assert(
    fc.property(some, ends => {
      const of = atoms(ends.length)
      expect(endsOf({ kind: 'all', of }, ends)).toEqual([
        Math.min(...ends.map(([low]) => low)),
        Math.min(...ends.map(([, high]) => high)),
      ])
      expect(endsOf({ kind: 'any', of }, ends)).toEqual([
        Math.max(...ends.map(([low]) => low)),
        Math.max(...ends.map(([, high]) => high)),
      ])
    }),
    { seed: 20_261_125, numRuns: 2000 },
  )
})

test('"at least n" takes the n-th greatest of each end', () => {
  fc.assert(
    fc.property(some, fc.integer({ min: 1, max: 5 }), (ends, count) => {
      fc.pre(count <= ends.length)
      const nth = (values: number[]) => values.sort((one, other) => other - one)[count - 1]
      expect(endsOf({ kind: 'atLeast', count, of: atoms(ends.length) }, ends)).toEqual([
        nth(ends.map(([low]) => low)),
        nth(ends.map(([, high]) => high)),
      ])
    }),
    { seed: 20_261_125, numRuns: 2000 },
  )
})

test('an empty "any" never holds', () => {
  expect(endsOf({ kind: 'any', of: [] }, [])).toEqual([0, 0])
})
