import { CANNOT_MEASURE, EMPTY_CASE_FILE } from '../../../shared/answers.ts'
import type { Answer, CaseFile, WeighIn } from '../../../shared/case-file.ts'
import type { Question } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { assess } from '../../triage/assess.ts'
import { hoursLater } from '../../triage/calendar.ts'
import type { Protocol } from '../../triage/prepare.ts'
import { caseFileOf, type LogEntry } from '../../wizard/log.ts'
import type { Book } from '../wording/book.ts'

const MOST_QUESTIONS = 200

/**
 * A finished case of an animal that does not exist, for any protocol: the chosen concern, the first line of its
 * first question, and the mildest answer to everything else that is asked.
 */
export function inventedLog(protocol: Protocol, book: Book, concern: string, now: Moment): LogEntry[] {
  const log: LogEntry[] = []
  let firstOfConcern = true
  for (let count = 0; count < MOST_QUESTIONS; count += 1) {
    const next = assess(protocol, inventedCase(log), now).nextQuestion
    const question = protocol.logic.questions.find(({ id }) => id === next)
    if (!question) return log
    const opening = question.phase === 'concerns' && firstOfConcern
    if (opening) firstOfConcern = false
    log.push(
      inventedEntry(
        book,
        question,
        question.phase === 'concern' ? [concern] : opening ? question.options.slice(0, 1) : [],
        now,
      ),
    )
  }
  return log
}

/** The case file that an invented log makes. */
export function inventedCase(log: readonly LogEntry[]): CaseFile {
  return caseFileOf(EMPTY_CASE_FILE, log)
}

function inventedEntry(book: Book, question: Question, chosen: readonly string[], now: Moment): LogEntry {
  const given = now.instant
  const before = (hours: number) => new Date(hoursLater(Date.parse(given), -hours)).toISOString()
  const entry = (answer: Answer, weighIns?: readonly WeighIn[]): LogEntry => ({
    question: question.id,
    answer,
    ...(weighIns ? { weighIns } : {}),
  })
  switch (question.kind) {
    case 'several':
      return entry({ kind: 'several', chosen, rest: 'no', given })
    case 'choice':
      return entry({ kind: 'choice', choice: question.options[0] ?? '', given })
    case 'since': {
      const preset = book.question(question.id)?.presets?.[0]
      return preset
        ? entry({
            kind: 'since',
            began: before(preset.hoursAgo),
            uncertaintyHours: preset.uncertaintyHours,
            given,
          })
        : entry({ kind: 'choice', choice: question.options[0] ?? '', given })
    }
    case 'weights': {
      const massGrams = question.range ? Math.round((question.range.from + question.range.to) / 3) : 60
      return entry({ kind: CANNOT_MEASURE, given }, [
        { at: before(24 * 21), massGrams: massGrams + 1 },
        { at: given, massGrams },
      ])
    }
    case 'amount':
      return entry({
        kind: 'amount',
        amount: question.range ? (question.range.from + question.range.to) / 2 : 1,
        given,
      })
  }
}
