import { isWeekday, monthNamed } from './file-words.ts'

/** How dates of two numbers and a year are meant where nothing else tells: 3/4/2025. */
export type DateOrder = 'day-first' | 'month-first'

/** A day, and what stands behind it in the cell: a time of day, or nothing. */
export interface DayText {
  readonly year: number
  /** 1 to 12. */
  readonly month: number
  readonly day: number
  readonly rest: string
}

/** What the text of a date may mean: one day, or one of two; undefined where it is no date in that order. */
export type ReadDate =
  | { readonly kind: 'one'; readonly day: DayText }
  | {
      readonly kind: 'either'
      readonly dayFirst: DayText | undefined
      readonly monthFirst: DayText | undefined
    }

const REST = '(?:[\\sT,]+(\\S.*))?$'
const YEAR_FIRST = new RegExp(`^(\\d{4})([-/.])(\\d{1,2})\\2(\\d{1,2})${REST}`)
const WITH_POINTS = new RegExp(`^(\\d{1,2})\\.\\s?(\\d{1,2})\\.\\s?(\\d{4}|\\d{2})${REST}`)
const TWO_NUMBERS = new RegExp(`^(\\d{1,2})([-/])(\\d{1,2})\\2(\\d{4}|\\d{2})${REST}`)
const DAY_NAME = new RegExp(
  `^(\\d{1,2})(?:st|nd|rd|th)?[\\s.-]+([a-z]{3,})\\.?,?[\\s-]+(\\d{4}|\\d{2})${REST}`,
  'i',
)
const NAME_DAY = new RegExp(
  `^([a-z]{3,})\\.?[\\s-]+(\\d{1,2})(?:st|nd|rd|th)?,?[\\s-]+(\\d{4}|\\d{2})${REST}`,
  'i',
)

/**
 * Reads a date as people write it: 2025-04-03, 3.4.2025 (day first wherever points are used, common practice),
 * 3/4/2025 and 3-4-25 (either), 3 April 2025, Apr 3, 2025, with or without a time behind it. Two digits of a year
 * mean this century. Undefined where it is no date.
 */
export function readDate(text: string): ReadDate | undefined {
  const plain = withoutWeekday(text.trim())
  const yearFirst = plain.match(YEAR_FIRST)
  if (yearFirst) return one(dayOf(yearFirst[1], yearFirst[3], yearFirst[4], yearFirst[5]))
  const points = plain.match(WITH_POINTS)
  if (points) return one(dayOf(points[3], points[2], points[1], points[4]))
  const numbers = plain.match(TWO_NUMBERS)
  if (numbers) {
    const [, first, , second, year, rest] = numbers
    const dayFirst = dayOf(year, second, first, rest)
    const monthFirst = dayOf(year, first, second, rest)
    if (dayFirst && monthFirst && dayFirst.day === monthFirst.day) return one(dayFirst)
    return dayFirst || monthFirst ? { kind: 'either', dayFirst, monthFirst } : undefined
  }
  const dayName = plain.match(DAY_NAME)
  if (dayName) return one(dayOf(dayName[3], monthNamed(dayName[2] ?? ''), dayName[1], dayName[4]))
  const nameDay = plain.match(NAME_DAY)
  if (nameDay) return one(dayOf(nameDay[3], monthNamed(nameDay[1] ?? ''), nameDay[2], nameDay[4]))
  return undefined
}

function withoutWeekday(text: string): string {
  const [, name = '', rest = ''] = text.match(/^([a-z]+)\.?,?\s+(.+)$/i) ?? []
  return isWeekday(name) ? rest : text
}

function one(day: DayText | undefined): ReadDate | undefined {
  return day && { kind: 'one', day }
}

function dayOf(
  yearText: string | undefined,
  monthText: string | number | undefined,
  dayText: string | undefined,
  rest: string | undefined,
): DayText | undefined {
  if (yearText === undefined || monthText === undefined) return undefined
  const year = Number(yearText) + (yearText.length === 2 ? 2000 : 0)
  const [month, day] = [Number(monthText), Number(dayText)]
  const made = new Date(Date.UTC(year, month - 1, day))
  const isReal =
    made.getUTCFullYear() === year && made.getUTCMonth() === month - 1 && made.getUTCDate() === day
  return isReal ? { year, month, day, rest: rest?.trim() ?? '' } : undefined
}

/** A time of day, in milliseconds after midnight, and the distance from UTC where one is stated. */
export interface ReadTime {
  readonly ms: number
  /** Minutes ahead of UTC; undefined where the clock of the place is meant. */
  readonly offsetMinutes: number | undefined
}

const TIME =
  /^(\d{1,2})(?:[:.h](\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?)?\s*(?:([ap])\.?\s?m\.?)?\s*(?:(z|utc)|([+-])(\d{2}):?(\d{2}))?$/i

/** Reads a time of day: 18:30, 18:30:05, 6:30 pm, 6 pm, 18h30, and 18:30Z or 18:30+02:00. */
export function readTime(text: string): ReadTime | undefined {
  const match = text.trim().match(TIME)
  if (!match) return undefined
  const [, hourText, minuteText, secondText = '0', fraction = '', half, utc, sign, offsetHours, offsetRest] =
    match
  // A lone number is an hour only where it says so.
  if (minuteText === undefined && half === undefined) return undefined
  const hour = hourOf(Number(hourText), half?.toLowerCase())
  const [minute, second] = [Number(minuteText ?? 0), Number(secondText)]
  if (hour === undefined || minute > 59 || second > 59) return undefined
  const thousandths = Number(fraction.slice(0, 3).padEnd(3, '0'))
  const distance = Number(offsetHours ?? 0) * 60 + Number(offsetRest ?? 0)
  const ms = ((hour * 60 + minute) * 60 + second) * 1000 + thousandths
  return { ms, offsetMinutes: utc || sign ? (sign === '-' ? -distance : distance) : undefined }
}

function hourOf(hour: number, half: string | undefined): number | undefined {
  if (half === undefined) return hour <= 23 ? hour : undefined
  if (hour < 1 || hour > 12) return undefined
  return (hour % 12) + (half === 'p' ? 12 : 0)
}

/** A day as `YYYY-MM-DD`. */
export function dayText({ year, month, day }: DayText): string {
  return new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10)
}
