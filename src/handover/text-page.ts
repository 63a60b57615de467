import type { Assessment, CareItem } from '../../shared/assessment.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { answerWords, type DayWords } from './answer-words.ts'
import { allWords, type WordBook, wordBook } from './word-book.ts'

/** A clinic reads dates; what "yesterday" was is not left to the reader. */
const BY_DATE: DayWords = { day: instant => instant.slice(0, 10), isToday: () => false }

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map(line => `- ${line}`)]
}

function careText(
  protocol: CompiledProtocol,
  book: WordBook,
  item: CareItem,
  kind: 'steps' | 'nevers',
): string {
  const plan = protocol.logic.carePlans.find(({ id }) => id === item.plan)
  const at = plan?.[kind].findIndex(({ id }) => id === item.item) ?? -1
  return book.carePlan(item.plan)?.[kind][at]?.text ?? item.item
}

/**
 * The assessment as a page of plain text: for the telephone and for a clinic. Danger signs come before answers, and
 * this guide's own urgency stands last, so that it does not lead. Computes nothing.
 */
export function textPage(protocol: CompiledProtocol, caseFile: CaseFile, assessment: Assessment): string {
  const { frame, logic } = protocol
  const book = wordBook(logic, allWords(protocol))
  const sign = (id: string) => book.sign(id) ?? id
  const concern = (id: string) => frame.concerns.find(one => one.id === id)?.name ?? id
  const loss = assessment.weightLoss
  const answers = logic.questions.flatMap(question => {
    const answer = caseFile.answers[question.id]
    if (!answer || question.phase === 'danger') return []
    return [
      `${book.question(question.id)?.ask ?? question.id} ${answerWords(book, question, { answer }, BY_DATE)} (${answer.given})`,
    ]
  })
  const { present, absent, unsure, notAsked } = assessment.dangerSigns
  const level = assessment.urgency
  return `${[
    `${frame.name} (${frame.latin})${caseFile.animal.name ? `, ${caseFile.animal.name}` : ''}. Came with: ${assessment.concerns.map(concern).join(', ') || 'not said yet'}.`,
    ...section('Danger signs that are there', present.map(sign)),
    ...section('Looked, could not tell', unsure.map(sign)),
    ...section('Asked and not there', absent.map(sign)),
    ...section('Not asked', notAsked.map(sign)),
    ...section(
      'Weight',
      loss
        ? [
            `${loss.newestGrams} g on ${loss.newestAt.slice(0, 10)}; ${loss.lossPercent} % under ${loss.referenceGrams} g of ${loss.referenceAt.slice(0, 10)}, over ${loss.overDays} days`,
            ...(loss.explainedGrams > 0 ? [`${loss.explainedGrams} g explained by events and left out`] : []),
          ]
        : caseFile.weighIns.map(({ at, massGrams }) => `${massGrams} g on ${at.slice(0, 10)}`),
    ),
    ...section('Answers, with when they were given', answers),
    ...section(
      'Do',
      [...assessment.care.firstAid, ...assessment.care.holding, ...assessment.care.steps].map(item =>
        careText(protocol, book, item, 'steps'),
      ),
    ),
    ...section(
      'Never',
      assessment.care.nevers.map(item => careText(protocol, book, item, 'nevers')),
    ),
    ...section('What this guide made of it', [
      level
        ? `${frame.urgencyNames[level]}. ${frame.firstLine[level]}`
        : 'Not settled yet: more answers are needed.',
      ...(assessment.seenBy
        ? [`To be seen by ${assessment.seenBy.day}, ${assessment.seenBy.partOfDay}; sooner is better`]
        : []),
      ...assessment.reasons.map(
        ({ rule, evidence }) => `${book.rule(rule)?.reason ?? rule} [${rule}; ${evidence.join(', ')}]`,
      ),
      `Guide version ${assessment.protocol.version} (${assessment.protocol.hash}). ${frame.trustLine} ${frame.notADiagnosis}`,
    ]),
  ].join('\n')}\n`
}
