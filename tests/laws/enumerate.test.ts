import { describe, expect, test } from 'vitest'
import { proveChart, proveRules } from './enumerate.ts'
import { deskOf } from './exhaustive/desk.ts'
import { checkerOf } from './other-witnesses.ts'
import { NOW } from './random-protocol.ts'
import { realProtocol } from './real-protocol.ts'

const protocol = realProtocol()
const { logic } = protocol

/** The proof of the whole takes minutes and is recorded; here a part of it, another one with each concern added. */
const some = logic.concerns.filter((_, at) => at % 12 === logic.concerns.length % 12)

describe('each rule of the real protocol, over every answer to what it mentions', () => {
  test.each([undefined, ...some])(
    'of %s: worse never lowers, not knowing holds every end, it can hold, and it decides or is dominated',
    concern => {
      const { proofs, deciding, faults } = proveRules(protocol, concern)
      expect(faults).toEqual([])
      expect(proofs.length).toBeGreaterThan(0)
      for (const { rule, holdsIn } of proofs) {
        expect(holdsIn, rule).toBeGreaterThan(0n)
        const found = deciding.get(rule)!
        const named = found.kind === 'alone' ? [rule] : found.kind === 'in-scope' ? found.besides : found.by
        expect(named.length, rule).toBeGreaterThan(0)
      }
    },
    120_000,
  )
})

describe('the chart of a concern, through every state', () => {
  test.each(some)(
    '%s: ends settled everywhere; the program, a second evaluator and the real chart agree',
    concern => {
      const checker = checkerOf(protocol, 20)
      const charts = proveChart(protocol, [concern], checker.look)
      expect(charts.flatMap(({ faults }) => faults)).toEqual([])
      expect(checker.faults).toEqual([])
      expect(checker.shown).toBeGreaterThan(50)
      for (const { outcomes, answerSets } of charts)
        expect([...outcomes.values()].reduce((sum, sets) => sum + sets, 0n)).toBe(answerSets)
    },
    120_000,
  )
})

test('every band and every cell of the weight grid has an answer that falls into it', () => {
  const { book, table } = deskOf(protocol, NOW)
  logic.facts.forEach((fact, index) => {
    if (fact.kind !== 'band' && fact.kind !== 'weight-loss') return
    const question = fact.kind === 'band' ? fact.question : fact.measuredBy
    const leaves = fact.options.map((_, at) => {
      const leaf = { question, fact: index, options: 1 << at, part: 'answer', reading: 'full' } as const
      return table.leavesOf(table.leaf(leaf))[0]!
    })
    const { classes } = book.classesOf(question, leaves)
    const reached = fact.options.filter((_, at) =>
      classes.some(({ values }) => values.get(leaves[at]!) === 10),
    )
    expect(reached, fact.id).toEqual(fact.options)
  })
})

test('law 5: every question is mentioned by a rule, a care plan or the handover', () => {
  const inPlans = new Set(
    JSON.stringify(logic.carePlans)
      .match(/(?<="fact":)\d+/g)
      ?.map(Number),
  )
  const idle = logic.questions.filter(
    (question, index) =>
      protocol.rulesOfQuestion[index]!.length === 0 &&
      !question.forHandover &&
      question.phase !== 'handover' &&
      index !== logic.concernQuestion &&
      !inPlans.has(question.fact) &&
      !protocol.findingsOfQuestion[index]!.some(fact => inPlans.has(fact)),
  )
  expect(idle.map(({ id }) => id)).toEqual([])
})
