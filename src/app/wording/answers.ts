import type { CaseFile, WeighIn } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { LogEntry } from '../../wizard/log.ts'
import { type Book, optionTexts } from './book.ts'
import { pastDay } from './dates.ts'
import { labels, unitWords } from './labels.ts'

function weighInWords(weighIns: readonly WeighIn[], now: Moment, locale: string): string {
  return weighIns
    .map(({ massGrams, at }) => `${massGrams} ${unitWords('grams')} ${pastDay(at, now, locale)}`)
    .join('; ')
}

/** An answer in the words in which it was given. */
export function answerWords(book: Book, entry: LogEntry, now: Moment, locale: string): string {
  const question = book.logicOf(entry.question)
  const words = book.question(entry.question)
  const { answer } = entry
  if (!question) return ''
  if (entry.weighIns && entry.weighIns.length > 0) return weighInWords(entry.weighIns, now, locale)
  switch (answer.kind) {
    case 'choice':
      return optionTexts(book, question, [answer.choice]).join('')
    case 'several': {
      const ticked = optionTexts(book, question, answer.chosen)
      if (answer.rest === 'cannot-tell')
        return ticked.length > 0 ? [...ticked, labels.cannotTellRest].join('; ') : labels.cannotTell
      return ticked.length > 0 ? ticked.join('; ') : (words?.noneText ?? labels.noneOfThese)
    }
    case 'amount':
      return `${answer.amount} ${unitWords(question.range?.unit ?? '')}`.trim()
    case 'since': {
      const hoursAgo = (Date.parse(answer.given) - Date.parse(answer.began)) / 3_600_000
      const preset = words?.presets?.find(
        one => Math.abs(one.hoursAgo - hoursAgo) < 0.02 && one.uncertaintyHours === answer.uncertaintyHours,
      )
      // A preset counts from the day on which it was chosen; on a later day the date is what holds.
      const today = pastDay(answer.given, now, locale) === pastDay(now.instant, now, locale)
      return preset && today ? preset.text : pastDay(answer.began, now, locale)
    }
    case 'cannot-tell':
      return labels.cannotTell
    case 'cannot-measure':
      return question.kind === 'weights'
        ? labels.cannotWeigh
        : question.kind === 'since'
          ? labels.cannotSay
          : labels.cannotMeasure
  }
}

/** The answer a case holds to one question, in words. */
export function saidWords(
  book: Book,
  caseFile: CaseFile,
  question: string,
  now: Moment,
  locale: string,
): string {
  const answer = caseFile.answers[question]
  if (!answer) return ''
  const kind = book.logicOf(question)?.kind
  const weighIns = kind === 'weights' ? { weighIns: caseFile.weighIns } : {}
  return answerWords(book, { question, answer, ...weighIns }, now, locale)
}
