import { CANNOT_MEASURE } from '../../shared/answers.ts'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { HandoverFact, Tag } from '../../shared/handover.ts'
import type { HandoverContent } from '../../shared/handover-content.ts'
import type { Moment } from '../../shared/moment.ts'
import type { KeptEvent, KeptReading } from '../../shared/record.ts'
import { answerWords, type DayWords, unitWords } from './answer-words.ts'
import { daysBetween, wallClock } from './wall-clock.ts'
import type { WordBook } from './word-book.ts'

/** Facts of a history, each with how it is known and when it was so. Computes nothing but days. */

const FIELD_LENGTH = 600
const LABEL_LENGTH = 300

const cut = (text: string, most: number) => (text.length > most ? `${text.slice(0, most - 1)}…` : text)

/** Text that people wrote, on one line: what the published form of a history accepts. */
export function onOneLine(text: string, most = FIELD_LENGTH): string {
  return cut(
    text
      .replaceAll(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ')
      .replaceAll(/[\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g, '')
      .trim(),
    most,
  )
}

/** A clinic reads dates in the owner's zone; what "yesterday" was is not left to the reader. */
export function byDate({ zone }: Moment): DayWords {
  return { day: instant => wallClock(instant, zone).day, isToday: () => false }
}

/** An instant to the whole minute in UTC: as exact as any reader needs, and short in a link. */
export function toTheMinute(instant: string): string {
  return `${new Date(Date.parse(instant)).toISOString().slice(0, 16)}:00Z`
}

/** The moment of a fact and how many calendar days before `now` it was; nothing of a moment still to come. */
export function moment(instant: string, now: Moment): { readonly at: string; readonly daysAgo?: number } {
  const at = toTheMinute(instant)
  const days = daysBetween(wallClock(at, now.zone).day, wallClock(now.instant, now.zone).day)
  return days < 0 ? { at } : { at, daysAgo: days }
}

function tagOf(question: Question, answer: Answer, told: readonly string[]): Tag {
  switch (answer.kind) {
    case 'amount':
      return told.includes(question.id) ? 'told' : 'measured'
    case 'since':
      return answer.uncertaintyHours > 0 ? 'guessed' : 'told'
    case CANNOT_MEASURE:
      return 'told'
    default:
      return told.includes(question.id) ? 'told' : 'seen'
  }
}

/** What the facts of answers are made from. */
export interface Answered {
  readonly book: Pick<WordBook, 'question' | 'sign'>
  readonly caseFile: CaseFile
  readonly content: Pick<HandoverContent, 'told'>
  readonly now: Moment
}

/** One answer as a fact; undefined where there is none. */
export function answerFact(
  { book, caseFile, content, now }: Answered,
  question: Question,
): HandoverFact | undefined {
  const answer = caseFile.answers[question.id]
  if (!answer) return undefined
  return {
    label: onOneLine(book.question(question.id)?.ask ?? question.id, LABEL_LENGTH),
    value: onOneLine(answerWords(book, question, { answer }, byDate(now))),
    tag: tagOf(question, answer, content.told),
    ...moment(answer.kind === 'since' ? answer.began : answer.given, now),
    ...(answer.kind === 'amount' && question.range
      ? { quantity: { value: answer.amount, unit: question.range.unit } }
      : {}),
  }
}

/** An event's kind in words: `tail-lost` is "Tail lost". */
function kindWords(kind: string): string {
  return `${kind.charAt(0).toUpperCase()}${kind.slice(1).replaceAll('-', ' ')}`
}

/** An event of the record as a fact. */
export function eventFact(event: KeptEvent, now: Moment): HandoverFact {
  const details = [
    event.food,
    event.offered === undefined ? undefined : `offered ${event.offered}`,
    event.eaten === undefined ? undefined : `eaten ${event.eaten}`,
    event.whole === undefined ? undefined : event.whole ? 'came off whole' : 'did not come off whole',
    event.share === undefined ? undefined : `${Math.round(event.share * 100)} % of its length`,
    event.note,
  ].filter(detail => detail !== undefined)
  return {
    label: kindWords(event.kind),
    value: onOneLine([byDate(now).day(event.at), ...details].join('; ')),
    tag: event.seen === undefined ? 'told' : event.seen ? 'seen' : 'guessed',
    ...moment(event.at, now),
  }
}

/** A reading of the enclosure as a fact, with what it was measured with and where. */
export function readingFact(reading: KeptReading, now: Moment): HandoverFact {
  const { what, value, unit, measuredWith, measuredWhere, note } = reading
  const details = [`${value} ${unitWords(unit)}`.trim(), measuredWith, measuredWhere, note]
  return {
    label: onOneLine(kindWords(what), LABEL_LENGTH) || 'Reading',
    value: onOneLine(details.filter(detail => detail !== undefined).join('; ')),
    tag: 'measured',
    ...moment(reading.at, now),
    quantity: { value, unit: onOneLine(unit, 20) },
  }
}
