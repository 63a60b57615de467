import type { LoggerWords } from '../../../shared/enclosure.ts'

export type TemperatureUnit = 'celsius' | 'fahrenheit'
export type LoggerColumn = 'date' | 'time' | 'temperature' | 'humidity'

/** What the name of a column means. `exact` where the whole name is a known word, not only a part of it. */
export interface ColumnMeaning {
  readonly column: LoggerColumn
  readonly exact: boolean
  readonly unit: TemperatureUnit | undefined
}

const plainName = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[_\-/.]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()

/** Only the letters: `°C`, `º C` and a degree sign that lost its coding are all `c`. */
const plainUnit = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^a-z]/g, '')

/** Reads names of columns by the content's lists of words. */
export function columnNames(words: LoggerWords): {
  meaningOf(name: string): ColumnMeaning | undefined
  unitOf(text: string): TemperatureUnit | undefined
} {
  const units = new Map<string, TemperatureUnit>()
  for (const unit of ['celsius', 'fahrenheit'] as const)
    for (const word of words[unit]) units.set(plainUnit(word), unit)
  const exact = new Map<string, LoggerColumn>()
  const parts: (readonly [string, LoggerColumn])[] = []
  for (const column of ['date', 'time', 'temperature', 'humidity'] as const)
    for (const word of words[column]) {
      const plain = plainName(word)
      if (!exact.has(plain)) exact.set(plain, column)
      // A short word such as "t" means something only when it stands alone.
      if (plain.length >= 4) parts.push([plain, column])
    }
  const unitOf = (text: string) => units.get(plainUnit(text))
  const columnOf = (plain: string): Omit<ColumnMeaning, 'unit'> | undefined => {
    const whole = exact.get(plain)
    if (whole) return { column: whole, exact: true }
    const padded = ` ${plain} `
    // The longest word that stands in the name decides: "relative humidity" before "time".
    const part = parts
      .filter(([word]) => padded.includes(` ${word} `))
      .sort(([one], [other]) => other.length - one.length)[0]
    return part && { column: part[1], exact: false }
  }
  const meaningOf = (name: string): ColumnMeaning | undefined => {
    const [, before = name, inside] = name.trim().match(/^(.*?)\s*[([]\s*([^)\]]*)\s*[)\]]/) ?? []
    const plain = plainName(
      before.replace(/[°º%℃℉].*$/u, match => (/%/.test(match) ? match.replace('%', '') : '')),
    )
    const tail = plain.match(/^(.*?)(?: in)? (\S+)$/)
    const unit = unitOf(inside ?? '') ?? unitOf(before.match(/[°º℃℉].*$/u)?.[0] ?? '')
    const found = columnOf(plain)
    if (found?.exact) return { ...found, unit }
    const tailUnit = tail?.[2] === undefined ? undefined : unitOf(tail[2])
    if (tailUnit && tail?.[1] !== undefined) {
      const named = columnOf(tail[1])
      if (named) return { ...named, unit: tailUnit }
    }
    if (found) return { ...found, unit }
    // A name that is nothing but a unit of temperature.
    return plain === '' && unit ? { column: 'temperature', exact: true, unit } : undefined
  }
  return { meaningOf, unitOf }
}
