import type { Moment } from '../../../shared/moment.ts'
import { atHourAfterDays, calendarDaysBetween, dayOf } from '../../triage/calendar.ts'

/** Reads what was typed on the record's screens. What cannot be taken comes back as a sentence. */

export type Read<Value> = { readonly value: Value } | { readonly fault: string }

const NUMBER = /^\d+(?:[.,]\d+)?$/
const DAY = /^\d{4}-\d{2}-\d{2}$/

/** The heaviest weight the record takes, in grams (shared/case-file.ts). */
export const MOST_GRAMS = 500

/** A weight in grams: a point or a comma, "g" or nothing. */
export function readGrams(text: string): Read<number> {
  const written = text.trim().replace(/\s*g$/i, '')
  const accepted = `Accepted: a weight above 0 and up to ${MOST_GRAMS} g, such as 58 or 58.4.`
  if (written === '') return { fault: `Weight is empty. ${accepted}` }
  const value = NUMBER.test(written) ? Number(written.replace(',', '.')) : Number.NaN
  if (value > 0 && value <= MOST_GRAMS) return { value }
  return { fault: `Weight cannot be \u201c${text.trim()}\u201d. ${accepted}` }
}

/** A whole number from `from` to `to`; nothing typed is no number. */
export function readCount(name: string, text: string, from: number, to: number): Read<number | undefined> {
  const written = text.trim()
  if (written === '') return { value: undefined }
  const value = /^\d+$/.test(written) ? Number(written) : Number.NaN
  if (value >= from && value <= to) return { value }
  return {
    fault: `${name} cannot be \u201c${written}\u201d. Accepted: a whole number from ${from} to ${to}.`,
  }
}

/**
 * A calendar day as an instant: today is now, another day its noon in the zone of `now`. Refuses days to come, and
 * days before `notBefore` (a hatch day).
 */
export function readDay(day: string, now: Moment, notBefore?: string): Read<string> {
  const today = dayOf(Date.parse(now.instant), now.zone)
  const since = notBefore === undefined ? '' : ` and not before it hatched (${notBefore})`
  const accepted = `Accepted: a day up to today${since}.`
  if (day === '') return { fault: `Day is empty. ${accepted}` }
  const ms = DAY.test(day) ? Date.parse(`${day}T12:00:00Z`) : Number.NaN
  if (Number.isNaN(ms) || day > today || (notBefore !== undefined && day < notBefore))
    return { fault: `Day cannot be \u201c${day}\u201d. ${accepted}` }
  if (day === today) return { value: now.instant }
  const days = Math.round((ms - Date.parse(`${today}T12:00:00Z`)) / 86_400_000)
  return { value: new Date(atHourAfterDays(Date.parse(now.instant), days, 12, now.zone)).toISOString() }
}

/** The day so many days after another, as `YYYY-MM-DD`. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)
}

/** Days from one `YYYY-MM-DD` to another. */
export function daysFrom(one: string, other: string): number {
  return calendarDaysBetween(Date.parse(`${one}T12:00:00Z`), Date.parse(`${other}T12:00:00Z`), 'UTC')
}

/** The scale step a number needs: 58.4 cannot come from a scale that shows whole grams. */
export function stepFor(massGrams: number, stepGrams: number): number {
  const places = (String(massGrams).split('.')[1] ?? '').length
  const needed = places === 0 ? stepGrams : 10 ** -places
  const fits = Math.abs(massGrams / stepGrams - Math.round(massGrams / stepGrams)) < 1e-6
  return fits ? stepGrams : Math.min(stepGrams, needed)
}
