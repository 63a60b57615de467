import { describe, expect, test } from 'vitest'
import { standingOf } from '../../src/triage/bounds.ts'
import { knownOf } from '../../src/triage/fact-states.ts'
import { intervalOf, lowOf, TRUE } from '../../src/triage/intervals.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { cutTo, enumerateRule, walkChart } from './enumerate.ts'
import { NOW, randomCase, randomLogic, seededDice } from './random-protocol.ts'
import { realProtocol } from './real-protocol.ts'

const protocol = realProtocol()
const own = protocol.rules.filter(({ rule }) => rule.origin !== 'general')
const SUMMER = { ...NOW, instant: '2026-06-10T20:30:00.000Z' }

describe('each rule of the real protocol, over every answer to what it mentions', () => {
  const proofs = own.map(rule => ({ rule, proof: enumerateRule(protocol, rule) }))
  test('a worse answer never gives less, and an interval holds every end it can come to', () => {
    expect(proofs.flatMap(({ proof }) => proof.faults)).toEqual([])
  })
  test('law 5: a case file was made in which it holds', () => {
    for (const { rule, proof } of proofs) {
      expect(proof.holdsSomewhere, proof.rule).toBe(true)
      if (!proof.witness) continue
      const holds = [NOW, SUMMER].some(
        now =>
          lowOf(standingOf(protocol, proof.witness!, now).intervals[protocol.rules.indexOf(rule)]!) === TRUE,
      )
      expect(holds, proof.rule).toBe(true)
    }
  })
})

test('law 5: every question is mentioned by a rule, a care plan or the handover', () => {
  const inPlans = new Set(
    JSON.stringify(protocol.logic.carePlans)
      .match(/(?<="fact":)\d+/g)
      ?.map(Number),
  )
  const idle = protocol.logic.questions.filter(
    (question, index) =>
      protocol.rulesOfQuestion[index]!.length === 0 &&
      !question.forHandover &&
      question.phase !== 'handover' &&
      index !== protocol.logic.concernQuestion &&
      !inPlans.has(question.fact) &&
      !protocol.findingsOfQuestion[index]!.some(fact => inPlans.has(fact)),
  )
  expect(idle.map(({ id }) => id)).toEqual([])
})

test('a rule stands the same in the protocol cut down to it as in the whole', () => {
  for (let seed = 0; seed < 100; seed += 1) {
    const roll = seededDice(seed)
    const whole = prepare(randomLogic(roll))
    for (const rule of whole.rules) {
      const cut = cutTo(whole, rule)
      for (let at = 0; at < 10; at += 1) {
        const caseFile = randomCase(roll, whole.logic, 4)
        const expected = standingOf(whole, caseFile, NOW).intervals[whole.rules.indexOf(rule)]
        expect(intervalOf(cut.logic.rules[0]!.when!, knownOf(cut, caseFile, NOW))).toBe(expected)
      }
    }
  }
})

test('the chart of each concern, as far as 400 steps go, ends settled', () => {
  for (const concern of protocol.logic.concerns)
    expect(walkChart(protocol, concern, { mostSteps: 400 }).states).toBeGreaterThan(10)
})
