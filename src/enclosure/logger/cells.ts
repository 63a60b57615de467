/**
 * Lines to cells. Papa Parse, which reads the files of weights, cuts every row into all its cells: 350 to 410 ms of
 * processor time for half a million rows, more than the whole reading takes here (280 to 380 ms), and this folder imports
 * shared alone. RFC 4180 within a line, held against Papa Parse in tests/enclosure; a quoted line break, which no logger
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
 * Finds the wanted cells of a line, whose columns rise, without copying them: gives the text in which they stand (the
 * line itself unless it has quotation marks) and puts begin and end of each into `bounds`, in the order of `columns`.
 * Undefined where the line has fewer cells or an open quotation mark.
 */
export function pickCells(
  line: string,
  delimiter: string,
  columns: readonly number[],
  bounds: Int32Array,
): string | undefined {
  if (line.includes(QUOTE)) {
    const cells = cellsOf(line, delimiter)
    if (!cells) return undefined
    let text = ''
    for (let at = 0; at < columns.length; at += 1) {
      const cell = cells[columns[at] ?? 0]
      if (cell === undefined) return undefined
      bounds[2 * at] = text.length
      text += cell
      bounds[2 * at + 1] = text.length
    }
    return text
  }
  let start = 0
  let column = 0
  for (let at = 0; at < columns.length; at += 1) {
    const wanted = columns[at] ?? 0
    while (column < wanted) {
      const next = line.indexOf(delimiter, start)
      if (next < 0) return undefined
      start = next + 1
      column += 1
    }
    const end = line.indexOf(delimiter, start)
    bounds[2 * at] = start
    bounds[2 * at + 1] = end < 0 ? line.length : end
  }
  return line
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

const MOST_DIGITS = 15

/** What `numberIn` reads between two places of a text; plain digits with one mark are read without copying them. */
export function numberBetween(text: string, from: number, to: number, comma: boolean): number {
  const mark = comma ? 44 : 46
  let at = from
  while (at < to && text.charCodeAt(at) === 32) at += 1
  const isNegative = text.charCodeAt(at) === 45
  if (isNegative) at += 1
  let digits = 0
  let whole = 0
  let scale = 1
  let hasMark = false
  for (; at < to; at += 1) {
    const code = text.charCodeAt(at)
    if (code >= 48 && code <= 57) {
      whole = whole * 10 + (code - 48)
      digits += 1
      if (hasMark) scale *= 10
    } else if (code === mark && !hasMark) hasMark = true
    else break
  }
  if (at !== to || digits === 0 || digits > MOST_DIGITS) return numberIn(text.slice(from, to), comma)
  return (isNegative ? -whole : whole) / scale
}
