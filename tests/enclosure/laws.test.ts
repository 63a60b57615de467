import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Condition } from '../../shared/compiled.ts'
import { truthOf } from '../../src/enclosure/truth.ts'
import { highOf, intervalOf, lowOf } from '../../src/triage/intervals.ts'
import { checked, IN_ORDER, realEnclosure } from './real.ts'

const FACTS = 4
const condition: fc.Arbitrary<Condition> = fc.letrec<{ condition: Condition }>(tie => ({
  condition: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.record({
      kind: fc.constant('atom' as const),
      fact: fc.nat({ max: FACTS - 1 }),
      options: fc.integer({ min: 1, max: 7 }),
    }),
    fc.record({
      kind: fc.constantFrom('all' as const, 'any' as const),
      of: fc.array(tie('condition'), { minLength: 1, maxLength: 3 }),
    }),
    fc.array(tie('condition'), { minLength: 1, maxLength: 3 }).chain(of =>
      fc.record({
        kind: fc.constant('atLeast' as const),
        count: fc.integer({ min: 1, max: of.length }),
        of: fc.constant(of),
      }),
    ),
  ),
})).condition

it('a condition means here what it means to the triage', () => {
  const chosen = fc.array(fc.option(fc.integer({ min: 0, max: 2 }), { nil: undefined }), {
    minLength: FACTS,
    maxLength: FACTS,
  })
  fc.assert(
    fc.property(condition, chosen, (one, options) => {
      const bits = options.map(option => (option === undefined ? 0 : 1 << option))
      // "Looked, can't tell" to the triage: no option, and unsure at both ends.
      const rest = options.map(option => (option === undefined ? 1 : 0))
      const interval = intervalOf(one, { lowOptions: bits, highOptions: bits, lowRest: rest, highRest: rest })
      const known = options.map(option => (option === undefined ? undefined : 1 << option))
      expect(lowOf(interval)).toBe(highOf(interval))
      expect(truthOf(one, known)).toBe(['no', 'unsure', 'yes'][lowOf(interval)])
    }),
    { numRuns: 2000 },
  )
})

it('telling more never takes a fault away, and never opens one that was ruled out', () => {
  const ids = Object.keys(IN_ORDER)
  const { items } = realEnclosure()
  const anyAnswers = fc.record(
    Object.fromEntries(
      items
        .filter(({ kind }) => kind !== 'since')
        .map(item => [
          item.id,
          item.kind === 'amount'
            ? fc.double({ min: item.range?.from ?? 0, max: item.range?.to ?? 0, noNaN: true })
            : item.kind === 'several'
              ? fc.subarray(item.options.map(({ id }) => id))
              : fc.constantFrom(...item.options.map(({ id }) => id)),
        ]),
    ),
  )
  fc.assert(
    fc.property(anyAnswers, fc.subarray(ids), (answers, told) => {
      const part = checked({ answers: Object.fromEntries(told.map(id => [id, answers[id]])) })
      const whole = checked({ answers })
      const names = (list: readonly { id: string }[]) => list.map(({ id }) => id)
      const found = names(whole.faults)
      expect(found).toEqual(expect.arrayContaining(names(part.faults)))
      const possible = [...names(part.faults), ...names(part.open)]
      expect(possible).toEqual(expect.arrayContaining(found))
    }),
    { numRuns: 200 },
  )
})

it('the concern changes the order of the faults and nothing else', () => {
  const answers = {
    ...IN_ORDER,
    thermostat: 'none',
    'damp-hide': 'none',
    company: 'with-others',
    'warm-spot': 26,
  }
  const plain = checked({ answers })
  for (const concern of ['retained-shed', 'wound', 'not-eating', 'others-ill']) {
    const ranked = checked({ answers }, concern)
    expect(new Set(ranked.faults.map(({ id }) => id))).toEqual(new Set(plain.faults.map(({ id }) => id)))
    expect(ranked.readings).toEqual(plain.readings)
    const ranks = ranked.faults.map(({ causeRank }) => causeRank ?? 99)
    expect(ranks).toEqual([...ranks].sort((one, other) => one - other))
  }
})
