import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Condition } from '../../shared/compiled.ts'
import { inScope, standingOf } from '../../src/triage/bounds.ts'
import { intervalOf, lowOf, TRUE } from '../../src/triage/intervals.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { wouldRaise } from '../../src/triage/would-raise.ts'
import { type Dice, dice, NOW, randomCase, randomLogic } from '../laws/random-protocol.ts'

const ALWAYS: Condition = { kind: 'all', of: [] }

/** A condition once for each of its atoms, with that atom met. */
function eachAtomMet(condition: Condition): { readonly atom: Condition; readonly met: Condition }[] {
  if (condition.kind === 'atom') return [{ atom: condition, met: ALWAYS }]
  return condition.of.flatMap((part, at) =>
    eachAtomMet(part).map(({ atom, met }) => ({
      atom,
      met: { ...condition, of: condition.of.with(at, met) },
    })),
  )
}

const aCase = (roll: Dice) => {
  const logic = randomLogic(roll)
  return { protocol: prepare(logic), caseFile: randomCase(roll, logic, 4) }
}

test('exactly the rules in scope that one atom more would make true, and that give more, would raise', () => {
  fc.assert(
    fc.property(dice, roll => {
      const { protocol, caseFile } = aCase(roll)
      const standing = standingOf(protocol, caseFile, NOW)
      const isTrue = (condition: Condition) => lowOf(intervalOf(condition, standing.known)) === TRUE
      const expected = protocol.rules.flatMap(prepared => {
        const { when, id } = prepared.rule
        if (!when || prepared.rank <= standing.lower || !inScope(prepared, standing.chosen)) return []
        if (isTrue(when)) return []
        const near = eachAtomMet(when).filter(({ met }) => isTrue(met))
        return near.length === 0 ? [] : [{ id, rank: prepared.rank, near: near.map(({ atom }) => atom) }]
      })
      expected.sort((one, other) => other.rank - one.rank)
      const told = wouldRaise(protocol, standing)
      expect(told.map(({ rule }) => rule)).toEqual(expected.map(({ id }) => id))
      told.forEach(({ missing }, at) => {
        const names = expected[at]!.near.flatMap(atom => {
          if (atom.kind !== 'atom') return []
          const fact = protocol.logic.facts[atom.fact]!
          return [`${fact.id}: ${fact.options.filter((_, bit) => atom.options & (1 << bit)).join()}`]
        })
        expect(names).toContain(`${missing.fact}: ${missing.options.join()}`)
      })
    }),
    { numRuns: 500 },
  )
})

test('what would raise is the same when it is asked again, whatever was done with the first answer', () => {
  fc.assert(
    fc.property(dice, roll => {
      const { protocol, caseFile } = aCase(roll)
      const standing = standingOf(protocol, caseFile, NOW)
      const first = JSON.stringify(wouldRaise(protocol, standing))
      for (const raise of wouldRaise(protocol, standing)) {
        expect(() => raise.missing.options.push('more')).toThrow(TypeError)
        expect(() => Object.assign(raise, { rule: 'other' })).toThrow(TypeError)
      }
      expect(JSON.stringify(wouldRaise(protocol, standing))).toBe(first)
    }),
    { numRuns: 50 },
  )
})
