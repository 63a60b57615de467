import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Logic } from '../../shared/compiled.ts'
import { mattering, standingOf } from '../../src/triage/bounds.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import { wizardMachine } from '../../src/wizard/machine.ts'
import { answersTo, type Dice, dice, NOW, one, randomLogic } from '../laws/random-protocol.ts'
import { realProtocol } from '../laws/real-protocol.ts'
import { saysNothing, wizardOf } from './drive.ts'

const real = realProtocol()
const realMachine = wizardMachine(real)

/** An answer drawn at random, mild more often than not so that walks grow long. */
function drawn(roll: Dice, logic: Logic, id: string) {
  const question = logic.questions.find(each => each.id === id)!
  if (question.kind === 'several' && question.phase === 'concern')
    return {
      kind: 'several' as const,
      chosen: [one(roll, question.options)],
      rest: 'no' as const,
      given: NOW.instant,
    }
  if (question.kind === 'several' && question.options.length > 4) {
    const chosen = roll(4) === 0 ? [one(roll, question.options)] : []
    return { kind: 'several' as const, chosen, rest: 'no' as const, given: NOW.instant }
  }
  const answers = answersTo(question)
  return answers.length > 0 ? one(roll, answers) : saysNothing(question, NOW.instant)
}

/** Walks to the outcome, trying Back on the way; throws where a law breaks. */
function walk(protocol: Protocol, roll: Dice, machine = wizardMachine(protocol)): number {
  const wizard = wizardOf(protocol, NOW, undefined, machine)
  wizard.send({ type: 'START', now: NOW })
  let screens = 0
  for (; !wizard.atOutcome(); screens += 1) {
    expect(screens).toBeLessThan(100)
    const question = wizard.shown()
    if (!question) throw new Error(`A dead end: ${JSON.stringify(wizard.snapshot().value)}`)
    const { caseFile } = wizard.snapshot().context
    expect(
      mattering(protocol, standingOf(protocol, caseFile, NOW)).map(at => protocol.logic.questions[at]!.id),
    ).toContain(question.id)
    const answer = drawn(roll, protocol.logic, question.id)
    wizard.answer(answer)
    if (roll(4) === 0) {
      const there = wizard.shown()?.id
      const value = JSON.stringify(wizard.snapshot().value)
      wizard.send({ type: 'BACK', now: NOW })
      expect(wizard.shown()?.id).toBe(question.id)
      expect(wizard.snapshot().context.draft).toEqual({ question: question.id, answer })
      expect(wizard.snapshot().context.caseFile.answers[question.id]).toBeUndefined()
      wizard.answer(answer)
      expect(wizard.shown()?.id).toBe(there)
      expect(JSON.stringify(wizard.snapshot().value)).toBe(value)
    }
  }
  const { caseFile } = wizard.snapshot().context
  expect(standingOf(protocol, caseFile, NOW).settled).toBe(true)
  wizard.stop()
  return screens
}

describe('law 3: every walk ends at an outcome, and Back returns to the question before with its answer kept', () => {
  test('in 300 walks through the real protocol', () => {
    fc.assert(
      fc.property(dice, roll => {
        walk(real, roll, realMachine)
      }),
      { numRuns: 300, seed: 20_261_125, endOnFailure: true },
    )
  }, 60_000)
  test('in invented protocols', () => {
    fc.assert(
      fc.property(dice, roll => {
        walk(prepare(randomLogic(roll)), roll)
      }),
      { numRuns: 150, seed: 20_261_125, endOnFailure: true },
    )
  }, 60_000)
})

test('the chart stops asking exactly when the assessment is settled, and asks nothing twice', () => {
  fc.assert(
    fc.property(dice, roll => {
      const protocol = prepare(randomLogic(roll))
      const wizard = wizardOf(protocol, NOW)
      wizard.send({ type: 'START', now: NOW })
      const seen: number[] = []
      for (let at = 0; at < 40; at += 1) {
        const question = wizard.shown()
        const standing = standingOf(protocol, wizard.snapshot().context.caseFile, NOW)
        expect(question === undefined).toBe(standing.settled)
        if (!question) break
        seen.push(protocol.logic.questions.indexOf(question))
        wizard.answer(one(roll, answersTo(question)))
      }
      // Choosing a concern may bring rules that need an earlier question after all: then the line is walked once more.
      expect(new Set(seen).size).toBe(seen.length)
      wizard.stop()
    }),
    { numRuns: 150, seed: 20_261_125, endOnFailure: true },
  )
}, 60_000)

test('a danger sign at "now" leads to the outcome at once', () => {
  const sign = real.logic.rules.find(({ origin, level }) => origin === 'sign' && level.urgency === 'now')!
  const screen = real.logic.questions.find(
    ({ phase, signs }) => phase === 'danger' && signs.includes(sign.id),
  )!
  const wizard = wizardOf(real, NOW, undefined, realMachine)
  wizard.send({ type: 'START', question: screen.id, now: NOW })
  expect(wizard.shown()?.id).toBe(screen.id)
  wizard.answer({
    kind: 'several',
    chosen: [screen.options[screen.signs.indexOf(sign.id)]!],
    rest: 'no',
    given: NOW.instant,
  })
  expect(wizard.atOutcome()).toBe(true)
})

test('an answer can be changed from the outcome, and the walk goes on from there', () => {
  const wizard = wizardOf(real, NOW, undefined, realMachine)
  wizard.send({ type: 'START', now: NOW })
  const first = wizard.shown()!
  while (!wizard.atOutcome()) {
    const question = wizard.shown()!
    wizard.answer(
      question.phase === 'danger'
        ? { kind: 'several', chosen: [], rest: 'no', given: NOW.instant }
        : drawn(() => 0, real.logic, question.id),
    )
  }
  wizard.send({ type: 'GO', question: first.id, now: NOW })
  expect(wizard.shown()?.id).toBe(first.id)
  expect(wizard.snapshot().context.draft?.question).toBe(first.id)
  wizard.answer({ kind: 'several', chosen: [], rest: 'no', given: NOW.instant })
  expect(wizard.atOutcome()).toBe(true)
})
