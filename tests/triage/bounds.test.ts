import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Standing, standingOf } from '../../src/triage/bounds.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { dice, NOW, one, randomCase, randomLogic } from '../laws/random-protocol.ts'

test('an answer left out is the same as an answer never given', () => {
  fc.assert(
    fc.property(dice, roll => {
      const logic = randomLogic(roll)
      const protocol = prepare(logic)
      const caseFile = randomCase(roll, logic, 5)
      const index = roll(logic.questions.length)
      const { [logic.questions[index]!.id]: _, ...others } = caseFile.answers
      expect(standingOf(protocol, caseFile, NOW, index)).toEqual(
        standingOf(protocol, { ...caseFile, answers: others }, NOW),
      )
    }),
    { numRuns: 300 },
  )
})

test('a standing keeps what it says when other cases are weighed after it', () => {
  fc.assert(
    fc.property(dice, roll => {
      const logic = randomLogic(roll)
      const protocol = prepare(logic)
      const cases = Array.from({ length: 4 }, () => randomCase(roll, logic, one(roll, [0, 3])))
      const standings = cases.map(caseFile => standingOf(protocol, caseFile, NOW))
      const before: Standing[] = structuredClone(standings)
      for (const caseFile of cases.toReversed()) standingOf(protocol, caseFile, NOW)
      expect(standings).toEqual(before)
    }),
    { numRuns: 100 },
  )
})
