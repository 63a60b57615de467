import type { DateReading } from './dates.ts'

const isDigit = (code: number): boolean => code >= 48 && code <= 57

/** Two digits at a place as a number below `limit`, or -1. */
function twoDigits(text: string, at: number, limit: number): number {
  const [tens, ones] = [text.charCodeAt(at), text.charCodeAt(at + 1)]
  if (!isDigit(tens) || !isDigit(ones)) return -1
  const value = (tens - 48) * 10 + (ones - 48)
  return value < limit ? value : -1
}

/** The second of the day in `hh:mm` or `hh:mm:ss` between two places, as a key to look a time up by; -1 for other forms. */
function keyOf(text: string, from: number, to: number): number {
  const length = to - from
  if ((length !== 5 && length !== 8) || text.charCodeAt(from + 2) !== 58) return -1
  const hour = twoDigits(text, from, 24)
  const minute = twoDigits(text, from + 3, 60)
  const second = length === 5 ? 0 : text.charCodeAt(from + 5) === 58 ? twoDigits(text, from + 6, 60) : -1
  return hour < 0 || minute < 0 || second < 0 ? -1 : hour * 3600 + minute * 60 + second
}

/**
 * Reads times of day between two places of a text, in milliseconds after midnight; NaN where there is none. A file has
 * few different times and many rows: each time is read once by `readTime` and then looked up.
 */
export function clockReader({ readTime }: DateReading): (text: string, from: number, to: number) => number {
  const byKey: (number | undefined)[] = []
  const byText = new Map<string, number>()
  const read = (text: string): number => readTime(text)?.ms ?? Number.NaN
  return (text, from, to) => {
    const key = keyOf(text, from, to)
    if (key >= 0) {
      byKey[key] ??= read(text.slice(from, to))
      return byKey[key] ?? Number.NaN
    }
    const own = text.slice(from, to)
    const known = byText.get(own) ?? read(own)
    byText.set(own, known)
    return known
  }
}
