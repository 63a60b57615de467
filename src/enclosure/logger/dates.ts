import type { Fault } from '../../../shared/result.ts'

/**
 * How dates and times of a file are read. The same code reads the files of weights (src/records/csv); it is handed in,
 * so that there is one way to read a date and this folder knows nothing of records.
 */
export interface DateReading {
  readDates(
    rows: readonly { readonly row: number; readonly cells: readonly string[] }[],
    at: number,
    name: string,
    answer: 'day-first' | 'month-first' | undefined,
  ): {
    readonly days: ReadonlyMap<
      number,
      { readonly year: number; readonly month: number; readonly day: number; readonly rest: string }
    >
    readonly faults: readonly Fault[]
    readonly question:
      | {
          readonly row: number
          readonly text: string
          readonly dayFirst: string
          readonly monthFirst: string
        }
      | undefined
  }
  readTime(text: string): { readonly ms: number; readonly offsetMinutes: number | undefined } | undefined
}

/** What stands behind the date in a text, or undefined where the text does not begin with a date. */
export function restAfterDate(text: string, { readDates }: DateReading): string | undefined {
  const row = [{ row: 1, cells: [text] }]
  const day =
    readDates(row, 0, '', 'day-first').days.get(1) ?? readDates(row, 0, '', 'month-first').days.get(1)
  return day?.rest
}

const isGap = (code: number): boolean => code === 32 || code === 9 || code === 44 || code === 160
const isDigit = (code: number): boolean => code >= 48 && code <= 57

/** Whether the letter at a place parts date and time: a space, a comma, or a T between digits. */
export function isParting(text: string, at: number): boolean {
  const code = text.charCodeAt(at)
  if (isGap(code)) return !isGap(text.charCodeAt(at - 1))
  return code === 84 && isDigit(text.charCodeAt(at - 1)) && isDigit(text.charCodeAt(at + 1))
}

/** How many parting places stand before the rest of a text: the same in every row of one file. */
export function partsBefore(text: string, rest: string): number {
  const end = text.length - rest.length
  let count = 0
  for (let at = 1; at < end; at += 1) if (isParting(text, at)) count += 1
  return count
}

/** Where the rest begins after so many parting places; the length of the text where it has fewer. */
export function cutAfter(text: string, count: number): number {
  let seen = 0
  for (let at = 1; at < text.length; at += 1)
    if (isParting(text, at)) {
      seen += 1
      if (seen === count) return at
    }
  return text.length
}
