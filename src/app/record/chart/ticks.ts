import { atHourAfterDays, calendarDaysBetween, dayOf } from '../../../triage/calendar.ts'

/**
 * Where the axes of one chart are written on. Own code and not a library: whole grams and calendar days of one zone
 * are all it needs, under 1 kB where the libraries for scales and times bring about 12.
 */

export interface Tick {
  /** Where it stands: grams, or milliseconds since 1970. */
  readonly value: number
  readonly label: string
}

/** Whole grams from `low` to `high` in steps of 1, 2 or 5 times a power of ten, at most `most` of them. */
export function gramTicks(low: number, high: number, most: number): Tick[] {
  let step = 1
  for (let turn = 0; (high - low) / step >= most; turn++) step *= turn % 3 === 1 ? 2.5 : 2
  const ticks: Tick[] = []
  for (let grams = Math.ceil(low / step) * step; grams <= high; grams += step)
    ticks.push({ value: grams, label: String(grams) })
  return ticks
}

const DAY_STEPS = [1, 2, 4, 7, 14]
const MONTH_STEPS = [1, 2, 3, 6, 12, 24, 60, 120]

/** The axis of dates: days where they are few, else firsts of months, else of years; at most `most` of them. */
export function dateTicks(
  fromMs: number,
  toMs: number,
  most: number,
  zone: string,
  locale: string,
): readonly Tick[] {
  const words = (options: Intl.DateTimeFormatOptions) => {
    const format = new Intl.DateTimeFormat(locale, { ...options, timeZone: zone })
    return (ms: number) => format.format(ms)
  }
  const days = calendarDaysBetween(fromMs, toMs, zone)
  const midnight = (day: number) => atHourAfterDays(fromMs, day, 0, zone)
  const dayStep = DAY_STEPS.find(step => days / step < most)
  if (dayStep !== undefined) {
    const label = words({ day: 'numeric', month: 'short' })
    return Array.from({ length: Math.floor(days / dayStep) + 1 }, (_, at) => midnight(days - at * dayStep))
      .filter(ms => ms >= fromMs)
      .reverse()
      .map(ms => ({ value: ms, label: label(ms) }))
  }
  const [year = 0, month = 1] = dayOf(fromMs, zone).split('-').map(Number)
  const step = MONTH_STEPS.find(months => days / 30.4 / months < most) ?? 240
  const monthName = words({ month: 'short' })
  const yearName = words({ year: 'numeric' })
  const ticks: Tick[] = []
  const first = year * 12 + Math.ceil((month - 1) / step) * step
  for (let at = step < 12 ? first : Math.ceil(first / step) * step; ; at += step) {
    const target = Date.UTC(Math.floor(at / 12), at % 12, 1)
    const start = Date.parse(`${dayOf(fromMs, zone)}T00:00:00Z`)
    const ms = midnight(Math.round((target - start) / 86_400_000))
    if (ms > toMs) return ticks
    if (ms >= fromMs) ticks.push({ value: ms, label: at % 12 === 0 ? yearName(ms) : monthName(ms) })
  }
}
