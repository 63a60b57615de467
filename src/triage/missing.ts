import type { Missing } from '../../shared/assessment.ts'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { inScope, type Standing, standingOf } from './bounds.ts'
import type { QuestionStatus } from './fact-states.ts'
import type { Protocol } from './prepare.ts'

/** Why an answer tells nothing; undefined where it does. */
function whyMissing(
  status: QuestionStatus | undefined,
  answer: Answer | undefined,
): Missing['why'] | undefined {
  if (status === 'lapsed') return 'lapsed'
  if (status !== 'answered' || !answer) return undefined
  if (answer.kind === 'cannot-measure') return 'cannot-measure'
  return answer.kind === 'cannot-tell' || (answer.kind === 'several' && answer.rest === 'cannot-tell')
    ? 'cannot-tell'
    : undefined
}

/** Questions that were answered without telling, with whether knowing could still raise the urgency. */
export function missingOf(
  protocol: Protocol,
  caseFile: CaseFile,
  standing: Standing,
  now: Moment,
): Missing[] {
  const missing: Missing[] = []
  const { statuses } = standing.known
  for (let index = 0; index < statuses.length; index += 1) {
    const status = statuses[index]
    if (status !== 'answered' && status !== 'lapsed') continue
    const question = protocol.logic.questions[index]
    if (!question || question.phase === 'care') continue
    const why = whyMissing(status, caseFile.answers[question.id])
    if (!why) continue
    const canRaise = protocol.rulesOfQuestion[index]?.some(
      rule => rule.rank > standing.lower && inScope(rule, standing.chosen),
    )
    // Without a rule that it may raise, the case stands as it does; the concerns decide which rules are in scope.
    const { upper } =
      canRaise || question.phase === 'concern' ? standingOf(protocol, caseFile, now, index) : standing
    missing.push({ question: question.id, why, stillMatters: upper > standing.lower })
  }
  return missing
}
