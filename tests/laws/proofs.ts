import fc from 'fast-check'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Logic } from '../../shared/compiled.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { inScope, mattering, standingOf } from '../../src/triage/bounds.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import {
  type Answers,
  asked,
  chosenConcerns,
  completions,
  highestInScope,
  ranksGiven,
} from './brute-force.ts'
import { answersTo, type Dice, NOW, one, randomCase, randomLogic } from './random-protocol.ts'

/** The laws as functions that throw when broken; the tests run them some hundred times, the proof some thousand. */

const idOfConcern = (logic: Logic) => logic.questions[logic.concernQuestion]!.id
const withAnswers = (answers: Answers): CaseFile => ({
  animal: {},
  answers,
  weighIns: [],
  events: [],
  readings: [],
})
const standing = (protocol: Protocol, answers: Answers) => standingOf(protocol, withAnswers(answers), NOW)

function must(holds: boolean, message: string, detail: unknown): void {
  if (!holds) throw new Error(`${message}\n${JSON.stringify(detail)}`)
}

/** Answers what matters, in order, until nothing does. */
export function walkToTheEnd(
  protocol: Protocol,
  roll: Dice,
  from: Answers = {},
  fixed: Answers = {},
): Answers {
  const answers: Record<string, Answer> = { ...from }
  for (;;) {
    const [next] = mattering(protocol, standing(protocol, answers))
    const question = next === undefined ? undefined : protocol.logic.questions[next]
    if (!question) return answers
    must(!(question.id in answers), 'asked twice', question.id)
    answers[question.id] = fixed[question.id] ?? one(roll, answersTo(question))
  }
}

/** Law 1: the urgency of a complete case is the highest of what the rules give, by an evaluation of its own. */
export function highestGivenWins(roll: Dice): number {
  const logic = randomLogic(roll)
  const protocol = prepare(logic)
  for (let at = 0; at < 5; at += 1) {
    const { answers } = randomCase(roll, logic)
    const { lower, upper, settled } = standing(protocol, answers)
    const expected = Math.max(0, ...ranksGiven(logic, answers))
    must(settled && lower === expected && upper === expected, 'not the highest given', {
      logic,
      answers,
      lower,
      upper,
      expected,
    })
  }
  return 5
}

/** The answers to a question that are worse than, or as unsure as, the given one. */
function worseAnswers(logic: Logic, index: number, answer: Answer): Answer[] {
  const question = logic.questions[index]!
  const fact = logic.facts[question.fact]!
  return answersTo(question).filter(other => {
    if (answer.kind === 'several' && other.kind === 'several')
      return (
        answer.chosen.every(option => other.chosen.includes(option)) &&
        (answer.rest === 'no' || other.rest === 'cannot-tell')
      )
    if (answer.kind === 'amount' && other.kind === 'amount') return other.amount >= answer.amount
    if (answer.kind !== 'choice' || !fact.ordered) return false
    if (other.kind === 'choice')
      return question.options.indexOf(other.choice) > question.options.indexOf(answer.choice)
    return other.kind === 'cannot-tell' && answer.choice === question.options[0]
  })
}

/** Law 2: a worse option, "can't tell" for the mildest, one more concern; whatever the opened questions are answered. */
export function worseNeverLowers(roll: Dice): number {
  const logic = randomLogic(roll)
  const protocol = prepare(logic)
  let checked = 0
  const { answers: all } = randomCase(roll, logic)
  // Only what is asked has an answer, so that a worse option opens questions without one.
  const answers = Object.fromEntries(
    logic.questions.flatMap((question, index) => {
      const given =
        asked(logic, all, index) &&
        (question.concern === undefined || chosenConcerns(logic, all).includes(question.concern))
      return given ? [[question.id, all[question.id]!]] : []
    }),
  )
  const before = standing(protocol, answers)
  must(before.settled, 'a complete case is settled', { logic, answers })
  logic.questions.forEach((question, index) => {
    const answer = answers[question.id]
    if (!answer) return
    for (const worse of worseAnswers(logic, index, answer)) {
      const changed = { ...answers, [question.id]: worse }
      const after = standing(protocol, changed)
      must(after.lower >= before.lower, 'a worse answer lowered the urgency', {
        logic,
        answers,
        question: question.id,
        worse,
      })
      const opened = logic.questions.flatMap((other, at) => (other.id in changed ? [] : [at]))
      for (const completed of completions(logic, changed, opened, 60)) {
        const end = standing(protocol, completed)
        must(end.settled && end.lower >= before.lower, 'an opened question lowered the urgency', {
          logic,
          answers,
          completed,
        })
        checked += 1
      }
    }
  })
  return checked
}

/**
 * Law 4: where the wizard stops, every way of answering the questions of the rules in scope gives the same urgency.
 * A rule out of scope counts with what the answers so far make of it.
 */
export function stoppingIsSafe(roll: Dice, most = 3000): number {
  const logic = randomLogic(roll)
  const protocol = prepare(logic)
  const answers = walkToTheEnd(protocol, roll)
  const end = standing(protocol, answers)
  must(end.settled, 'the walk ended unsettled', { logic, answers })
  if (end.lower === HIGHEST_RANK) return 1
  const questions = new Set(
    protocol.rules.filter(rule => inScope(rule, end.chosen)).flatMap(rule => rule.questions),
  )
  const open = [...questions].filter(index => !(logic.questions[index]!.id in answers)).sort((a, b) => a - b)
  const foreign = new Set(
    logic.questions.flatMap((question, index) =>
      question.concern !== undefined && !chosenConcerns(logic, answers).includes(question.concern)
        ? [index]
        : [],
    ),
  )
  let checked = 0
  for (const completed of completions(
    logic,
    answers,
    open.filter(index => !foreign.has(index)),
    most,
  )) {
    const final = Math.max(end.lower, highestInScope(logic, completed))
    must(final === end.lower, 'an answer that was not asked for changes the urgency', {
      logic,
      answers,
      completed,
      lower: end.lower,
      final,
    })
    checked += 1
  }
  return checked
}

/** While the bounds differ, something matters; each bound holds every way the case can go on. */
export function boundsHoldEveryEnd(roll: Dice, most = 500): number {
  const logic = randomLogic(roll)
  const protocol = prepare(logic)
  const { answers: some } = randomCase(roll, logic, 2)
  const full = randomCase(roll, logic).answers
  const concern = idOfConcern(logic)
  const answers: Answers = { ...some, [concern]: full[concern]! }
  const at = standing(protocol, answers)
  must(at.settled || mattering(protocol, at).length > 0, 'unsettled and nothing matters', { logic, answers })
  const chosen = chosenConcerns(logic, answers)
  const open = logic.questions.flatMap((question, index) =>
    question.id in answers || (question.concern !== undefined && !chosen.includes(question.concern))
      ? []
      : [index],
  )
  let checked = 0
  for (const completed of completions(logic, answers, open, most)) {
    const inside = highestInScope(logic, completed)
    must(inside <= at.upper, 'above the upper bound', { logic, answers, completed, inside, upper: at.upper })
    must(standing(protocol, completed).lower >= at.lower, 'below the lower bound', {
      logic,
      answers,
      completed,
    })
    checked += 1
  }
  return checked
}

/** Law 12: no part of the answers of a case is settled below what its rules in scope give in full; the empty case is never settled. */
export function partsNeverSettleLower(roll: Dice): number {
  const logic = randomLogic(roll)
  const protocol = prepare(logic)
  must(!standing(protocol, {}).settled, 'the empty case is settled', { logic })
  const { answers: all } = randomCase(roll, logic)
  // A concern that was not chosen asks nothing, so the whole holds no answers to its questions.
  const answers = Object.fromEntries(
    logic.questions.flatMap(({ id, concern }) =>
      concern === undefined || chosenConcerns(logic, all).includes(concern) ? [[id, all[id]!]] : [],
    ),
  )
  const full = highestInScope(logic, answers)
  for (let at = 0; at < 20; at += 1) {
    const part = Object.fromEntries(Object.entries(answers).filter(() => roll(3) > 0))
    const { settled, lower } = standing(protocol, part)
    must(!settled || lower >= full, 'a part of the answers settles lower', {
      logic,
      answers,
      part,
      lower,
      full,
    })
    if (!(idOfConcern(logic) in part))
      must(!settled || lower === HIGHEST_RANK, 'settled without a concern', { logic, part })
  }
  return 20
}

export const LAWS = {
  highestGivenWins,
  worseNeverLowers,
  stoppingIsSafe,
  boundsHoldEveryEnd,
  partsNeverSettleLower,
}

/** Runs one law over as many invented protocols as asked; returns how many cases it looked at. */
export function prove(law: (roll: Dice) => number, dice: fc.Arbitrary<Dice>, protocols: number): number {
  let cases = 0
  fc.assert(
    fc.property(dice, roll => {
      cases += law(roll)
    }),
    { numRuns: protocols, seed: 20_261_125, endOnFailure: true },
  )
  return cases
}
