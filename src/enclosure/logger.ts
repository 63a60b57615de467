import type { CompiledEnclosure, Quantity } from '../../shared/enclosure.ts'
import type { LoggerAnswers } from '../../shared/enclosure-input.ts'
import { failure, type Result, success } from '../../shared/result.ts'
import type { DateReading } from './logger/dates.ts'
import { HEAD_LINES, type LoggerQuestion, layOut } from './logger/layout.ts'
import { type LoggerReader, loggerReader } from './logger/read.ts'
import { type LoggerSummary, type PlaceRanges, summaryOf } from './logger/summary.ts'

export type LoggerOutcome =
  | { readonly kind: 'summary'; readonly summary: LoggerSummary }
  | { readonly kind: 'question'; readonly question: LoggerQuestion }

/** What of the check a logger's file is read with. */
export type LoggerKnowledge = Pick<CompiledEnclosure, 'quantities' | 'logger'>

/** Takes a logger's file piece by piece, in any pieces, and sums it up in the end. */
export interface LoggerIntake {
  push(text: string): void
  end(): Result<LoggerOutcome>
}

function rangesAt({ quantities, logger }: LoggerKnowledge, place: string | undefined): PlaceRanges {
  const named = logger.places.find(({ id }) => id === place)
  const find = (id: string | undefined): Quantity | undefined => quantities.find(one => one.id === id)
  return { day: find(named?.day), night: find(named?.night), humidity: find(named?.humidity) }
}

/**
 * Reads the CSV of any logger of temperature or humidity: any delimiter, decimal mark, header, step and order of time.
 * What the file does not tell comes back as a question; rows that cannot be read are named and left out.
 *
 * @param dates how dates are read (src/records/csv)
 * @param answers where the sensor lay, and what was asked before
 */
export function loggerIntake(
  enclosure: LoggerKnowledge,
  dates: DateReading,
  answers: LoggerAnswers,
): LoggerIntake {
  const { logger } = enclosure
  let pending = ''
  let head: string[] | undefined = []
  let reader: LoggerReader | undefined
  let early: Result<LoggerOutcome> | undefined

  const open = (lines: readonly string[]) => {
    head = undefined
    const laidOut = layOut(lines, logger, dates, answers)
    if (!laidOut.ok) early = laidOut
    else if (laidOut.value.kind === 'question') early = success(laidOut.value)
    else {
      reader = loggerReader(laidOut.value.layout, logger.policy, dates, answers)
      for (const line of lines) reader.take(line)
    }
  }
  const take = (line: string) => {
    if (reader) reader.take(line)
    else if (head) {
      head.push(line)
      if (head.length >= HEAD_LINES) open(head)
    }
  }

  return {
    push: text => {
      // A mark of the coding at the very beginning is no part of the first name.
      let from = head?.length === 0 && pending === '' && text.charCodeAt(0) === 0xfeff ? 1 : 0
      for (;;) {
        const end = text.indexOf('\n', from)
        if (end < 0) break
        let line = text.slice(from, end)
        if (pending !== '') {
          line = pending + line
          pending = ''
        }
        take(line.endsWith('\r') ? line.slice(0, -1) : line)
        from = end + 1
      }
      pending += text.slice(from)
    },
    end: () => {
      if (pending !== '') take(pending.replace(/\r$/, ''))
      pending = ''
      if (head) open(head)
      if (early) return early
      if (answers.place !== undefined && !logger.places.some(({ id }) => id === answers.place))
        return failure([
          {
            field: 'logger.place',
            value: answers.place,
            accepted: logger.places.map(({ id }) => id).join(', '),
          },
        ])
      const read = reader?.end()
      if (!read) return failure([{ field: 'logger file', value: 'nothing', accepted: 'a table of readings' }])
      if (!read.ok) return read
      if (read.value.kind === 'question') return success(read.value)
      const ranges = rangesAt(enclosure, answers.place)
      return success({
        kind: 'summary',
        summary: summaryOf(read.value.series, ranges, logger.policy, answers.setCelsius),
      })
    },
  }
}
