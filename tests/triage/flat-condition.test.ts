import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Condition } from '../../shared/compiled.ts'
import { flatten, intervalOfFlat } from '../../src/triage/flat-condition.ts'
import { intervalOf } from '../../src/triage/intervals.ts'

const FACTS = 6
const end = fc.integer({ min: 0, max: 2 })
const bits = fc.integer({ min: 0, max: 7 })

/** States of which some rest high where they rest low, and some say options at one end only. */
const states = fc.record({
  lowOptions: fc.array(bits, { minLength: FACTS, maxLength: FACTS }),
  lowRest: fc.array(end, { minLength: FACTS, maxLength: FACTS }),
  more: fc.array(bits, { minLength: FACTS, maxLength: FACTS }),
  mayRest: fc.array(end, { minLength: FACTS, maxLength: FACTS }),
})

const { condition } = fc.letrec<{ condition: Condition; parts: Condition[] }>(tie => ({
  parts: fc.array(tie('condition'), { minLength: 1, maxLength: 4 }),
  condition: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.record({
      kind: fc.constant('atom' as const),
      fact: fc.nat({ max: FACTS - 1 }),
      options: fc.integer({ min: 1, max: 7 }),
    }),
    fc.record({ kind: fc.constantFrom('all' as const, 'any' as const), of: tie('parts') }),
    fc.record({
      kind: fc.constant('atLeast' as const),
      count: fc.integer({ min: 1, max: 4 }),
      of: tie('parts'),
    }),
  ),
}))

test('a condition laid out has the interval of the condition as it is written', () => {
  fc.assert(
    fc.property(condition, states, (written, { lowOptions, lowRest, more, mayRest }) => {
      const known = {
        lowOptions,
        lowRest,
        highOptions: lowOptions.map((low, fact) => low | more[fact]!),
        highRest: lowRest.map((low, fact) => Math.max(low, mayRest[fact]!)),
      }
      expect(intervalOfFlat(flatten(written), known)).toBe(intervalOf(written, known))
    }),
    { numRuns: 2000 },
  )
})
