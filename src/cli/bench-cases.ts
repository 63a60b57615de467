import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Logic, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { rankOf } from '../../shared/urgency.ts'
import { mildestAnswers } from '../../tests/laws/mildest.ts'
import { standingOf } from '../triage/bounds.ts'
import type { Protocol } from '../triage/prepare.ts'
import { heldRules, tellingRules } from '../triage/reasons.ts'

/** The case files that the speeds are measured on, made from whatever the protocol holds. */

/** The most urgent level the harder case may reach. */
const DAY = rankOf({ urgency: 'day', withinHours: 0 })

/** More than hold in all but one of the case files in tests/cases. */
const MANY_REASONS = 20

function mildestCase(logic: Logic, now: Moment, concerns: number): CaseFile {
  const concern = logic.questions[logic.concernQuestion]?.id ?? ''
  return {
    animal: {},
    answers: {
      ...mildestAnswers(logic, now),
      [concern]: {
        kind: 'several',
        chosen: logic.concerns.slice(0, concerns),
        rest: 'no',
        given: now.instant,
      },
    },
    weighIns: [],
    events: [],
    readings: [],
  }
}

/** One concern, every question answered, nothing bad: the most common case file, and the dearest to settle. */
export function typicalCase(logic: Logic, now: Moment): CaseFile {
  return mildestCase(logic, now, 1)
}

function otherAnswers(question: Question, { instant: given }: Moment): Answer[] {
  const options: Answer[] =
    question.kind === 'choice'
      ? question.options.map(choice => ({ kind: 'choice', choice, given }))
      : question.kind === 'several'
        ? question.options.map(option => ({ kind: 'several', chosen: [option], rest: 'no', given }))
        : []
  return question.cannotTell ? [...options, { kind: 'cannot-tell', given }] : options
}

/**
 * A `day` case of three concerns in which many rules hold: the mildest case, made worse question by question wherever
 * that adds a reason and leaves it settled at `day` at most, up to `MANY_REASONS`.
 */
export function harderCase(protocol: Protocol, now: Moment): CaseFile {
  const { logic } = protocol
  const reasonsIn = (caseFile: CaseFile) => {
    const standing = standingOf(protocol, caseFile, now)
    return standing.settled && standing.lower <= DAY
      ? tellingRules(heldRules(protocol, standing), standing).length
      : 0
  }
  let caseFile = mildestCase(logic, now, 3)
  let reasons = reasonsIn(caseFile)
  for (const [index, question] of logic.questions.entries()) {
    if (index === logic.concernQuestion || index === logic.speciesQuestion) continue
    for (const answer of otherAnswers(question, now)) {
      const worse = { ...caseFile, answers: { ...caseFile.answers, [question.id]: answer } }
      const found = reasonsIn(worse)
      if (found <= reasons || found > MANY_REASONS) continue
      caseFile = worse
      reasons = found
    }
  }
  const { lower } = standingOf(protocol, caseFile, now)
  if (lower < rankOf({ urgency: 'day' })) throw new Error('The protocol gives no settled case at "day".')
  return caseFile
}
