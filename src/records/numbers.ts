import { failure, type Result, shown, success } from '../../shared/result.ts'

/** How the decimal mark of a column of numbers is written; undefined where it was never seen. */
export type DecimalMark = '.' | ','

const PLAIN = /^[+-]?\d+(?:\.\d+)?$/
const WITH_COMMA = /^[+-]?\d+,\d+$/
/** A comma before exactly three digits may part thousands just as well: 1,234. After a 0 it can not: 0,125. */
const UNDECIDED = /^[+-]?[1-9]\d{0,2},\d{3}$/
const WITH_THOUSANDS = /^[+-]?[1-9]\d{0,2}(?:,\d{3})+\.\d+$|^[+-]?[1-9]\d{0,2}(?:,\d{3}){2,}$/

/**
 * Reads a number as people type it: `52`, `52.5`, `52,5`. A comma is a decimal mark where it can be nothing else, or
 * where `mark` says so; `1,234` alone is refused, since it may mean two numbers.
 *
 * @param field what to call it in a fault
 * @param mark the decimal mark, where other numbers of the same column have shown it
 */
export function readNumber(text: string, field: string, mark?: DecimalMark): Result<number> {
  const trimmed = text.trim()
  if (PLAIN.test(trimmed)) return success(Number(trimmed))
  if (WITH_THOUSANDS.test(trimmed)) return success(Number(trimmed.replaceAll(',', '')))
  if (UNDECIDED.test(trimmed) && mark !== ',') {
    if (mark === '.') return success(Number(trimmed.replace(',', '')))
    return failure([
      { field, value: shown(text), accepted: 'a number that means one thing, such as 1.234 or 1234' },
    ])
  }
  if (WITH_COMMA.test(trimmed)) return success(Number(trimmed.replace(',', '.')))
  return failure([{ field, value: shown(text), accepted: 'a number such as 52.5' }])
}

/** The decimal mark that the numbers of one column show, where they show one. Both at once show none. */
export function decimalMarkOf(texts: readonly string[]): DecimalMark | undefined {
  let comma = false
  let point = false
  for (const text of texts) {
    const trimmed = text.trim()
    if (/\d\.\d/.test(trimmed)) point = true
    else if (WITH_COMMA.test(trimmed) && !UNDECIDED.test(trimmed)) comma = true
  }
  if (comma === point) return undefined
  return comma ? ',' : '.'
}
