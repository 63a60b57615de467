import Papa from 'papaparse'
import { type Fault, failure, type Result, shown, success } from '../../../shared/result.ts'
import { knownColumns } from './columns.ts'

/** One row with its number as a spreadsheet counts: the first row of the file is 1. */
export interface Row {
  readonly row: number
  readonly cells: readonly string[]
}

export interface Table {
  readonly header: Row
  readonly rows: readonly Row[]
}

/** RFC 4180 knows the comma; spreadsheets set to a decimal comma write semicolons, and some copy with tabs. */
const SEPARATORS = [',', ';', '\t'] as const

/**
 * Cuts a file into cells as RFC 4180 has it. The separator is the one under which the most names of the header are
 * known; rows without anything in them are passed over.
 */
export function readTable(text: string): Result<Table> {
  const unmarked = text.replace(/^\uFEFF/, '')
  const separator = separatorOf(unmarked)
  const { data, errors } = Papa.parse<string[]>(unmarked, { delimiter: separator, header: false })
  const faults = errors.map((error): Fault => {
    const row = (error.row ?? 0) + 1
    const cells = data[row - 1]
    return {
      field: `row ${row}`,
      value: shown(cells?.join(separator) ?? ''),
      accepted: 'every quotation mark closed again; where the file breaks off, copy it again',
    }
  })
  if (faults.length > 0) return failure(faults)
  const rows = data
    .map((cells, at): Row => ({ row: at + 1, cells: cells.map(unguarded) }))
    .filter(({ cells }) => cells.some(cell => cell.trim() !== ''))
  const [header, ...rest] = rows
  if (!header || rest.length === 0)
    return failure([
      { field: 'file', value: 'no rows', accepted: 'a row of names and a row for each weight below it' },
    ])
  return success({ header, rows: rest })
}

function separatorOf(text: string): string {
  const known = SEPARATORS.map(separator => {
    const { data } = Papa.parse<string[]>(text, {
      delimiter: separator,
      preview: 5,
      skipEmptyLines: 'greedy',
    })
    return { separator, count: knownColumns(data[0] ?? []) }
  })
  return known.reduce((best, one) => (one.count > best.count ? one : best)).separator
}

/**
 * Spreadsheets run a cell that begins with one of these as a formula, so a mark is put before it on the way out
 * and taken off on the way in. A cell that looks marked already gets one more.
 */
const FORMULA = /^'*[=+\-@\t\r]/
const GUARDED = /^'+[=+\-@\t\r]/

function guarded(cell: string): string {
  return FORMULA.test(cell) ? `'${cell}` : cell
}

function unguarded(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell
}

/** Control characters that are no part of a text, and would make the file look like something else. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
const CONTROL = /[\u0000-\u0008\u000E-\u001F]/g

/** Rows as the text of a file: RFC 4180, with CRLF after each row, and no cell that a spreadsheet would run. */
export function tableText(rows: readonly (readonly string[])[]): string {
  const cells = rows.map(row => row.map(cell => guarded(cell.replace(CONTROL, ' '))))
  return `${Papa.unparse(cells, { newline: '\r\n' })}\r\n`
}
