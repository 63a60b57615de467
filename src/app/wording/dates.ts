import type { Moment } from '../../../shared/moment.ts'
import { calendarDaysBetween, dayOf, partOfDay } from '../../triage/calendar.ts'
import { labels } from './labels.ts'

/** Times in words: a day, a part of it, and the hour. The zone comes with `now`, the locale is an argument. */

const HOUR_MS = 3_600_000

function named(ms: number, now: Moment, locale: string, options: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat(locale, { ...options, timeZone: now.zone }).format(new Date(ms))
}

/** "Thursday", or "Thursday 3 December" where a weekday alone could be mistaken. */
function dayName(ms: number, now: Moment, locale: string): string {
  const away = calendarDaysBetween(Date.parse(now.instant), ms, now.zone)
  return Math.abs(away) < 7
    ? named(ms, now, locale, { weekday: 'long' })
    : named(ms, now, locale, { weekday: 'long', day: 'numeric', month: 'long' })
}

/** "tomorrow evening, Thursday", "Friday morning", "early on Friday". */
function dayAndPart(instant: string, now: Moment, locale: string): string {
  const ms = Date.parse(instant)
  const away = calendarDaysBetween(Date.parse(now.instant), ms, now.zone)
  const part = partOfDay(ms, now.zone)
  if (away <= 0) return part === 'night' ? 'before this morning' : `this ${part}`
  const day = dayName(ms, now, locale)
  if (away === 1) return part === 'night' ? `early tomorrow, ${day}` : `tomorrow ${part}, ${day}`
  return part === 'night' ? `early on ${day}` : `${day} ${part}`
}

/** The time of day in figures, as the locale writes it: "23:10", "11:10 PM". */
function clock(ms: number, now: Moment, locale: string): string {
  return named(ms, now, locale, { hour: 'numeric', minute: '2-digit' })
}

/** The day, its part and the hour begun, so that it is never later than the instant: "Thursday evening, 20:00". */
export function dayPartAndClock(instant: string, now: Moment, locale: string): string {
  const ms = Date.parse(instant)
  const begun = ms - Number(named(ms, now, 'en-GB', { minute: 'numeric' })) * 60_000
  return `${dayAndPart(instant, now, locale)}, ${clock(begun, now, locale)}`
}

/** Up to half a day hours are counted; beyond that a day is named. */
const COUNTED_HOURS = 12

/** When to look: "in 1 hour, at 23:10" for few hours, else the day, the part of it and the hour. */
export function lookWords(at: string, hours: number | undefined, now: Moment, locale: string): string {
  return hours === undefined || hours > COUNTED_HOURS
    ? dayPartAndClock(at, now, locale)
    : labels.inHours(hours, clock(Date.parse(at), now, locale))
}

/** A day gone by: "today", "yesterday", "on Monday", "on 3 November". */
export function pastDay(instant: string, now: Moment, locale: string): string {
  const ms = Date.parse(instant)
  const ago = calendarDaysBetween(ms, Date.parse(now.instant), now.zone)
  if (ago <= 0) return 'today'
  if (ago === 1) return 'yesterday'
  if (ago < 7) return `on ${named(ms, now, locale, { weekday: 'long' })}`
  const sameYear = dayOf(ms, now.zone).slice(0, 4) === now.instant.slice(0, 4)
  return `on ${named(ms, now, locale, { day: 'numeric', month: 'long', ...(sameYear ? {} : { year: 'numeric' }) })}`
}

/** A moment gone by, with its time of day: "today at 23:10", "on Monday at 07:05". */
export function whenWords(instant: string, now: Moment, locale: string): string {
  const time = named(Date.parse(instant), now, locale, { hour: '2-digit', minute: '2-digit' })
  return `${pastDay(instant, now, locale)} at ${time}`
}

/** A place on the rim of the dial, 0 to 1, with the number that stands there. */
export interface DialMark {
  readonly at: number
  readonly number?: number
}

/** At most this many numbers stand round the dial. */
const MOST_NUMBERS = 7

/** What the dial shows: the share of its window, its marks, and in words what once round is. */
export function dial(instant: string, now: Moment): { fraction: number; marks: DialMark[]; legend: string } {
  const hours = (Date.parse(instant) - Date.parse(now.instant)) / HOUR_MS
  const days = Math.max(1, Math.ceil(hours / 24))
  const inHours = days === 1
  const whole = hours <= COUNTED_HOURS ? COUNTED_HOURS : days * 24
  const steps = inHours ? 4 : days
  const every = Math.ceil(steps / MOST_NUMBERS)
  return {
    fraction: Math.min(1, Math.max(0, hours / whole)),
    marks: Array.from({ length: steps }, (_, place) => {
      const step = place + 1
      return {
        at: step / steps,
        // The last one stands always, and nothing too near to it.
        ...(step === steps || (step % every === 0 && steps - step >= every)
          ? { number: inHours ? (step * whole) / steps : step }
          : {}),
      }
    }),
    legend: labels.dial(inHours ? labels.hours(whole) : labels.days(days)),
  }
}
