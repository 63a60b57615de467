import { failure, type Result, shown, success } from '../../../shared/result.ts'
import { type Column, columnNamed, EXAMPLES, type MassUnit, unitNamed } from './file-words.ts'

/** Where a column stands, counted from 0, what the file calls it, and the unit its name states. */
export interface Place {
  readonly at: number
  readonly name: string
  readonly unit: MassUnit | undefined
}
export type Columns = Partial<Record<Column, Place>> & { readonly date: Place; readonly weight: Place }

/** What one name of a header means: `Weight (g)` a weight in grams, `grams` too, `Remarks` a note. */
function meaningOf(name: string): { column: Column; unit: MassUnit | undefined } | undefined {
  const plain = name
    .replace(/[_\-/]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const [, before = plain, inBrackets] = plain.match(/^(.*?)\s*[([]\s*([^)\]]*)\s*[)\]]$/) ?? []
  const whole = columnNamed(before)
  if (whole) return { column: whole, unit: inBrackets === undefined ? undefined : unitNamed(inBrackets) }
  const alone = unitNamed(before)
  if (alone) return { column: 'weight', unit: alone }
  const [, words, last] = before.match(/^(.*?)(?: in)? (\S+)$/) ?? []
  const column = words === undefined ? undefined : columnNamed(words)
  const unit = last === undefined ? undefined : unitNamed(last)
  return column && unit ? { column, unit } : undefined
}

/** How many names of a header are known. */
export function knownColumns(header: readonly string[]): number {
  return header.filter(name => meaningOf(name)).length
}

/** Finds the columns of a file by the names in its header; names that mean nothing here are passed over. */
export function columnsOf(header: readonly string[], row: number): Result<Columns> {
  const found: Partial<Record<Column, Place>> = {}
  for (const [at, name] of header.entries()) {
    const meaning = meaningOf(name)
    if (!meaning) continue
    const before = found[meaning.column]
    if (before) {
      return failure([
        {
          field: `row ${row}`,
          value: shown(`${before.name}, ${name}`),
          accepted: `one column of this kind; leave out or rename one of the two`,
        },
      ])
    }
    found[meaning.column] = { at, name: name.trim(), unit: meaning.unit }
  }
  const { date, weight } = found
  if (date && weight) return success({ ...found, date, weight })
  return failure([
    {
      field: `row ${row}`,
      value: shown(header.join(', ')),
      accepted: date
        ? `a column with a name such as ${EXAMPLES.weight}`
        : `columns with names such as ${EXAMPLES.date}, and ${EXAMPLES.weight}`,
    },
  ])
}
