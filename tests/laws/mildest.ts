import type { Answer } from '../../shared/case-file.ts'
import type { Logic } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'

const HOUR_MS = 3_600_000
const mildest = new WeakMap<Logic, Map<string, Record<string, Answer>>>()

/** The mildest answer to every question that has one: none, the first option, or can't measure. */
export function mildestAnswers(logic: Logic, now: Moment): Record<string, Answer> {
  const known = mildest.get(logic) ?? new Map<string, Record<string, Answer>>()
  mildest.set(logic, known)
  const already = known.get(now.instant)
  if (already) return already
  const given = now.instant
  const answers: Record<string, Answer> = {}
  for (const question of logic.questions) {
    const adult = question.fromAgeDays ? question.fromAgeDays.length - 1 : 0
    if (question.phase === 'care') continue
    if (question.kind === 'several' && question.phase !== 'concern')
      answers[question.id] = { kind: 'several', chosen: [], rest: 'no', given }
    else if (question.kind === 'choice')
      answers[question.id] = { kind: 'choice', choice: question.options[adult]!, given }
    else if (question.kind === 'since')
      answers[question.id] = {
        kind: 'since',
        began: new Date(Date.parse(given) - HOUR_MS).toISOString(),
        uncertaintyHours: 0,
        given,
      }
    else if (question.cannotMeasure) answers[question.id] = { kind: 'cannot-measure', given }
  }
  known.set(given, answers)
  return answers
}
