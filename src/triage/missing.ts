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

/** The upper bound if question `index` had not been answered. */
function upperWithout(
  protocol: Protocol,
  caseFile: CaseFile,
  standing: Standing,
  now: Moment,
  index: number,
): number {
  // What the concern is decides which rules are in scope, so only weighing again tells.
  if (protocol.logic.questions[index]?.phase !== 'concern') {
    // An answer that lapsed counts as none already.
    if (standing.known.statuses[index] === 'lapsed') return standing.upper
    const canRaise = protocol.rulesOfQuestion[index]?.some(
      rule => rule.rank > standing.lower && inScope(rule, standing.chosen),
    )
    if (!canRaise) return standing.upper
  }
  return standingOf(protocol, caseFile, now, index).upper
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
    missing.push({
      question: question.id,
      why,
      stillMatters: upperWithout(protocol, caseFile, standing, now, index) > standing.lower,
    })
  }
  return missing
}
