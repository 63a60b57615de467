import type { Answer } from '../../shared/case-file.ts'
import type { Condition, Logic } from '../../shared/compiled.ts'
import { rankOf } from '../../shared/urgency.ts'
import { answersTo } from './random-protocol.ts'

/**
 * The meaning of a complete case, written a second time and plainly, without intervals and without anything of
 * src/triage. It knows what random-protocol.ts invents: questions, bands of amounts, danger signs.
 */

export type Answers = Readonly<Record<string, Answer>>
type Truth = 0 | 1 | 2

/** Whether an answered question says one of these options: yes, unsure or no. A question that is not asked says no. */
function saying(logic: Logic, answers: Answers, index: number, options: number): Truth {
  const question = logic.questions[index]!
  const answer = answers[question.id]
  if (!answer || !asked(logic, answers, index)) return 0
  const names = question.options.filter((_, at) => options & (1 << at))
  if (answer.kind === 'choice') return names.includes(answer.choice) ? 2 : 0
  if (answer.kind === 'several') {
    if (answer.chosen.some(name => names.includes(name))) return 2
    return answer.rest === 'cannot-tell' ? 1 : 0
  }
  return answer.kind === 'cannot-tell' ? 1 : 0
}

/** Whether a question is asked in a complete case: its gate is true or unsure. */
export function asked(logic: Logic, answers: Answers, index: number): boolean {
  const { gate } = logic.questions[index]!
  return !gate || truthOf(logic, answers, gate) > 0
}

function atomTruth(logic: Logic, answers: Answers, index: number, options: number): Truth {
  const fact = logic.facts[index]!
  if (fact.kind === 'question') return saying(logic, answers, fact.question, options)
  if (fact.kind === 'sign') {
    const said = [fact.screen, ...fact.lookNow].map(place =>
      saying(logic, answers, place.fact, place.options),
    )
    return Math.max(...said) as Truth
  }
  if (fact.kind !== 'band') throw new Error(`not invented: ${fact.kind}`)
  const answer = answers[logic.questions[fact.question]!.id]
  if (answer?.kind !== 'amount' || !asked(logic, answers, fact.question)) return 0
  const band = answer.amount < 10 ? 0 : answer.amount < 20 ? 1 : 2
  return options & (1 << band) ? 2 : 0
}

/** The truth of a condition in a complete case. */
export function truthOf(logic: Logic, answers: Answers, condition: Condition): Truth {
  if (condition.kind === 'atom') return atomTruth(logic, answers, condition.fact, condition.options)
  const parts = condition.of.map(part => truthOf(logic, answers, part)).sort((one, other) => other - one)
  if (condition.kind === 'all') return parts.at(-1) ?? 2
  if (condition.kind === 'any') return parts[0] ?? 0
  return parts[condition.count - 1] ?? 0
}

/** What each rule gives in a complete case, as a rank. */
export function ranksGiven(logic: Logic, answers: Answers): number[] {
  return logic.rules.map(rule => {
    const truth = rule.when ? truthOf(logic, answers, rule.when) : 0
    return truth === 2
      ? rankOf(rule.level)
      : truth === 1
        ? Math.min(rankOf(rule.unsure), rankOf(rule.level))
        : 0
  })
}

export function chosenConcerns(logic: Logic, answers: Answers): readonly string[] {
  const answer = answers[logic.questions[logic.concernQuestion]!.id]
  return answer?.kind === 'several' ? answer.chosen : []
}

/** The highest rank that the rules in scope give in a complete case. */
export function highestInScope(logic: Logic, answers: Answers): number {
  const chosen = chosenConcerns(logic, answers)
  return Math.max(
    0,
    ...ranksGiven(logic, answers).filter((_, at) => {
      const { concern } = logic.rules[at]!
      return concern === undefined || chosen.includes(concern)
    }),
  )
}

/** Every way of answering `questions` on top of the given answers, up to `most` of them. */
export function* completions(
  logic: Logic,
  given: Answers,
  questions: readonly number[],
  most = 50_000,
): Generator<Answers> {
  let left = most
  function* from(place: number, answers: Answers): Generator<Answers> {
    if (left <= 0) return
    const index = questions[place]
    if (index === undefined) {
      left -= 1
      yield answers
      return
    }
    const question = logic.questions[index]!
    if (!asked(logic, answers, index)) {
      yield* from(place + 1, answers)
      return
    }
    const seen = new Set<string>()
    for (const answer of answersTo(question)) {
      // "can't tell" says the same as choosing nothing and not telling for the rest.
      const same =
        answer.kind === 'several' && answer.chosen.length === 0 && answer.rest === 'cannot-tell'
          ? 'cannot-tell'
          : JSON.stringify(answer)
      const key = answer.kind === 'cannot-tell' ? 'cannot-tell' : same
      if (seen.has(key)) continue
      seen.add(key)
      yield* from(place + 1, { ...answers, [question.id]: answer })
    }
  }
  yield* from(0, given)
}
