import type { CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import { answerWords } from '../../handover/answer-words.ts'
import type { LogEntry } from '../../wizard/log.ts'
import type { ReviewRow } from '../parts/ReviewList.tsx'
import type { Book } from './book.ts'
import { pastDay } from './dates.ts'

/** When the answers are read: days are told from there ("yesterday"). */
export interface Reading {
  readonly now: Moment
  readonly locale: string
}

/** An answer in the words in which it was given. */
function entryWords(book: Book, entry: LogEntry, { now, locale }: Reading): string {
  const question = book.logicOf(entry.question)
  const day = (instant: string) => pastDay(instant, now, locale)
  return question
    ? answerWords(book, question, entry, { day, isToday: instant => day(instant) === day(now.instant) })
    : ''
}

/** The entry that a case file holds for one question. */
function entryOf(book: Book, caseFile: CaseFile, question: string): LogEntry | undefined {
  const answer = caseFile.answers[question]
  const isWeights = book.logicOf(question)?.kind === 'weights'
  return answer && { question, answer, ...(isWeights ? { weighIns: caseFile.weighIns } : {}) }
}

/** The answer a case holds to one question, in words. */
export function saidWords(book: Book, caseFile: CaseFile, question: string, reading: Reading): string {
  const entry = entryOf(book, caseFile, question)
  return entry ? entryWords(book, entry, reading) : ''
}

/** Every answer of a case in the protocol's order, in words. */
export function reviewRows(book: Book, caseFile: CaseFile, reading: Reading): ReviewRow[] {
  return book.logic.questions.flatMap(({ id }) => {
    const entry = entryOf(book, caseFile, id)
    return entry
      ? [{ id, question: book.question(id)?.ask ?? '', answer: entryWords(book, entry, reading) }]
      : []
  })
}
