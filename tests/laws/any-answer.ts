import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { Logic } from '../../shared/compiled.ts'
import { answersTo, type Dice, NOW, one } from './random-protocol.ts'

const given = NOW.instant
const DAY_MS = 86_400_000

/** Any answer the question accepts, without listing every combination of a long list. */
export function anyAnswer(logic: Logic, roll: Dice, index: number): Answer | undefined {
  const question = logic.questions[index]!
  if (question.kind === 'several') {
    const chosen = question.options.filter(() => roll(5) === 0)
    if (question.phase === 'concern')
      return {
        kind: 'several',
        chosen: chosen.length > 0 ? chosen : [one(roll, question.options)],
        rest: 'no',
        given,
      }
    const rest = question.cannotTell && roll(4) === 0 ? 'cannot-tell' : 'no'
    return { kind: 'several', chosen, rest, given }
  }
  if (question.kind === 'since' && roll(2) === 0)
    return {
      kind: 'since',
      began: new Date(Date.parse(given) - roll(40) * DAY_MS).toISOString(),
      uncertaintyHours: roll(3) * 12,
      given,
    }
  if (question.kind === 'amount' && roll(2) === 0) return { kind: 'amount', amount: 15 + roll(60) / 2, given }
  const answers = question.kind === 'amount' ? [] : answersTo(question)
  return answers.length > 0
    ? one(roll, answers)
    : question.cannotMeasure
      ? { kind: 'cannot-measure', given }
      : undefined
}

/** Two weigh-ins, now and then stale, or none. */
export function anyWeighIns(roll: Dice): WeighIn[] {
  if (roll(3) > 0) return []
  const nowMs = Date.parse(given)
  const stale = roll(6)
  return [
    { at: new Date(nowMs - (stale + 3 + roll(40)) * DAY_MS).toISOString(), massGrams: 60 },
    { at: new Date(nowMs - stale * DAY_MS - 1000).toISOString(), massGrams: 40 + roll(25) },
  ]
}

/** A case file with an answer to each question, or with one missing in `missing`. */
export function anyCase(logic: Logic, roll: Dice, missing = 0): CaseFile {
  const answers: Record<string, Answer> = {}
  logic.questions.forEach((question, index) => {
    const answer = missing > 0 && roll(missing) === 0 ? undefined : anyAnswer(logic, roll, index)
    if (answer) answers[question.id] = answer
  })
  return { animal: {}, answers, weighIns: anyWeighIns(roll), events: [], readings: [] }
}
