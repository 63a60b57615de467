/**
 * Lines to cells. Papa Parse, which reads the files of weights, needs 250 ms to cut half a million rows into all their
 * cells; here two or three cells of a row are wanted, the whole reading takes 460 ms, and this folder imports shared
 * alone. RFC 4180 within a line, held against Papa Parse in tests/enclosure; a quoted line break, which no logger
 * writes, is a fault of its row.
 */

const QUOTE = '"'

/** All cells of one line, or undefined where a quotation mark is never closed. */
export function cellsOf(line: string, delimiter: string): string[] | undefined {
  if (!line.includes(QUOTE)) return line.split(delimiter)
  const cells: string[] = []
  let at = 0
  while (at <= line.length) {
    let start = at
    while (line[start] === ' ') start += 1
    if (line[start] !== QUOTE) {
      const end = line.indexOf(delimiter, at)
      cells.push(line.slice(at, end < 0 ? line.length : end))
      if (end < 0) return cells
      at = end + 1
      continue
    }
    let text = ''
    let from = start + 1
    for (;;) {
      const closing = line.indexOf(QUOTE, from)
      if (closing < 0) return undefined
      text += line.slice(from, closing)
      if (line[closing + 1] !== QUOTE) {
        cells.push(text)
        const next = line.indexOf(delimiter, closing + 1)
        if (next < 0) return cells
        at = next + 1
        break
      }
      text += QUOTE
      from = closing + 2
    }
  }
  return cells
}

/**
 * Puts the wanted cells of a line into `into`, in the order of `columns`, which rise. False where the line has
 * fewer cells or an open quotation mark.
 */
export function pickCells(
  line: string,
  delimiter: string,
  columns: readonly number[],
  into: string[],
): boolean {
  if (line.includes(QUOTE)) {
    const cells = cellsOf(line, delimiter)
    if (!cells) return false
    for (let at = 0; at < columns.length; at += 1) {
      const cell = cells[columns[at] ?? 0]
      if (cell === undefined) return false
      into[at] = cell
    }
    return true
  }
  let start = 0
  let column = 0
  for (let at = 0; at < columns.length; at += 1) {
    const wanted = columns[at] ?? 0
    while (column < wanted) {
      const next = line.indexOf(delimiter, start)
      if (next < 0) return false
      start = next + 1
      column += 1
    }
    const end = line.indexOf(delimiter, start)
    into[at] = end < 0 ? line.slice(start) : line.slice(start, end)
  }
  return true
}

const SUFFIX = /\s*(?:°|º|℃|℉|deg)?\s*(?:[cf]|%\s*(?:rh)?|rh)?\s*$/i

/** A number as a logger writes it, with or without its unit behind; NaN where it is none. */
export function numberIn(text: string, comma: boolean): number {
  const plain = comma ? text.replace(',', '.') : text
  const value = Number(plain)
  if (!Number.isNaN(value)) return plain.trim() === '' ? Number.NaN : value
  const bare = plain.replace(SUFFIX, '')
  return bare === '' ? Number.NaN : Number(bare)
}
