import { type Fault, shown } from '../../../shared/result.ts'
import { type DateOrder, type DayText, dayText, type ReadDate, readDate } from './dates.ts'
import type { Row } from './table.ts'

/** Asked once for a file in which no date settles it: is 03/04/2025 the third of April or the fourth of March? */
export interface DateQuestion {
  readonly kind: 'date-order'
  readonly row: number
  /** The date as it stands in the file. */
  readonly text: string
  /** The two days it may mean, `YYYY-MM-DD`. */
  readonly dayFirst: string
  readonly monthFirst: string
}

/** The days of a column: by row, with the faults of the rows that have none, and the question where one is open. */
export interface DateColumn {
  readonly days: ReadonlyMap<number, DayText>
  readonly faults: readonly Fault[]
  readonly question: DateQuestion | undefined
}

const ACCEPTED = 'a date such as 2025-04-03, 3.4.2025 or 3 April 2025'

/**
 * Reads the dates of one column. Dates of two numbers and a year are read in one order throughout: the one that some
 * row settles, since 25/4/2025 can be read only one way; else the one answered; else it is asked.
 */
export function readDates(
  rows: readonly Row[],
  at: number,
  name: string,
  answer: DateOrder | undefined,
): DateColumn {
  const days = new Map<number, DayText>()
  const faults: Fault[] = []
  const open: { row: number; text: string; date: Extract<ReadDate, { kind: 'either' }> }[] = []
  for (const row of rows) {
    const text = row.cells[at] ?? ''
    const date = readDate(text)
    if (!date) faults.push({ field: `row ${row.row}, ${name}`, value: shown(text), accepted: ACCEPTED })
    else if (date.kind === 'one') days.set(row.row, date.day)
    else open.push({ row: row.row, text, date })
  }
  const onlyDayFirst = open.find(({ date }) => !date.monthFirst)
  const onlyMonthFirst = open.find(({ date }) => !date.dayFirst)
  if (onlyDayFirst && onlyMonthFirst) {
    const accepted = `one order in all rows; ${shown(onlyDayFirst.text)} in row ${onlyDayFirst.row} has the day first`
    faults.push({
      field: `row ${onlyMonthFirst.row}, ${name}`,
      value: shown(onlyMonthFirst.text),
      accepted,
    })
    return { days, faults, question: undefined }
  }
  const settled = onlyDayFirst ? 'day-first' : onlyMonthFirst ? 'month-first' : answer
  for (const { row, text, date } of open) {
    const { dayFirst, monthFirst } = date
    if (settled === undefined && dayFirst && monthFirst) {
      const question = { dayFirst: dayText(dayFirst), monthFirst: dayText(monthFirst) }
      return { days, faults, question: { kind: 'date-order', row, text: text.trim(), ...question } }
    }
    const day = settled === 'day-first' ? dayFirst : monthFirst
    if (day) days.set(row, day)
  }
  return { days, faults, question: undefined }
}
