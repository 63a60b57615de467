import type { Moment } from '../../../shared/moment.ts'
import { calendarDaysBetween, dayOf, partOfDay } from '../../triage/calendar.ts'
import { labels } from './labels.ts'

/** Times in words: a day and a part of it, never minutes. The zone comes with `now`, the locale is an argument. */

type Part = ReturnType<typeof partOfDay>

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
export function dayAndPart(instant: string, now: Moment, locale: string, given?: Part): string {
  const ms = Date.parse(instant)
  const away = calendarDaysBetween(Date.parse(now.instant), ms, now.zone)
  const part = given ?? partOfDay(ms, now.zone)
  if (away <= 0) return part === 'night' ? 'before this morning' : `this ${part}`
  const day = dayName(ms, now, locale)
  if (away === 1) return part === 'night' ? `early tomorrow, ${day}` : `tomorrow ${part}, ${day}`
  return part === 'night' ? `early on ${day}` : `${day} ${part}`
}

/** Up to half a day hours are counted; beyond that a day is named. */
const COUNTED_HOURS = 12

/** When to look: "in 1 hour" for few hours, else the day and the part of it. */
export function lookWords(at: string, hours: number | undefined, now: Moment, locale: string): string {
  return hours === undefined || hours > COUNTED_HOURS
    ? dayAndPart(at, now, locale)
    : `in ${labels.hours(hours)}`
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

/** What the dial of the time circle shows: the share of its window, and where its days begin. */
export function dial(instant: string, now: Moment): { fraction: number; dayStarts: number[] } {
  const hours = (Date.parse(instant) - Date.parse(now.instant)) / HOUR_MS
  const days = Math.max(1, Math.ceil(hours / 24))
  const whole = hours <= COUNTED_HOURS ? COUNTED_HOURS : days * 24
  return {
    fraction: Math.min(1, Math.max(0, hours / whole)),
    dayStarts: days > 1 ? Array.from({ length: days }, (_, day) => day / days) : [],
  }
}
