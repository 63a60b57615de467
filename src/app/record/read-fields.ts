import type { Moment } from '../../../shared/moment.ts'
import type { Fault } from '../../../shared/result.ts'
import { checkMass, type Doubt } from '../../records/check-input.ts'
import { readNumber } from '../../records/numbers.ts'
import { atHourAfterDays, dayOf } from '../../triage/calendar.ts'
import { dayWords, numberWords } from './words.ts'

/** Reads what was typed on the record's screens. What cannot be taken comes back as a sentence. */

export type Read<Value> = { readonly value: Value } | { readonly fault: string }

const DAY = /^\d{4}-\d{2}-\d{2}$/

/** A fault as a sentence: the field, what was given, what is accepted. */
export function sentence(name: string, { value, accepted }: Pick<Fault, 'value' | 'accepted'>): string {
  return `${name} ${value === '' ? 'is empty' : `cannot be \u201c${value}\u201d`}. Accepted: ${accepted}.`
}

/** A weight in grams: a point or a comma, "g" or nothing. */
export function readGrams(text: string): Read<number> {
  const written = text.trim().replace(/\s*g$/i, '')
  const read = readNumber(written, 'massGrams')
  const faults = read.ok ? checkMass(read.value) : read.faults
  const [fault] = faults
  if (read.ok && fault === undefined) return { value: read.value }
  const [{ accepted } = { accepted: 'a weight in grams' }] = checkMass(0)
  return { fault: sentence('Weight', { value: text.trim(), accepted: `${accepted}, such as 58 or 58.4` }) }
}

/** A whole number from `from` to `to`; nothing typed is no number. */
export function readCount(name: string, text: string, from: number, to: number): Read<number | undefined> {
  const written = text.trim()
  if (written === '') return { value: undefined }
  const value = /^\d+$/.test(written) ? Number(written) : Number.NaN
  if (value >= from && value <= to) return { value }
  return { fault: sentence(name, { value: written, accepted: `a whole number from ${from} to ${to}` }) }
}

/** A calendar day as an instant: today is now, another day its noon in the zone of `now`. Refuses days to come. */
export function readDay(day: string, now: Moment): Read<string> {
  const today = dayOf(Date.parse(now.instant), now.zone)
  const ms = DAY.test(day) ? Date.parse(`${day}T12:00:00Z`) : Number.NaN
  // Some engines read the 31st of February as a day in March.
  const isDay = !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(day)
  if (!isDay || day > today) return { fault: sentence('Day', { value: day, accepted: 'a day up to today' }) }
  if (day === today) return { value: now.instant }
  const days = Math.round((ms - Date.parse(`${today}T12:00:00Z`)) / 86_400_000)
  return { value: new Date(atHourAfterDays(Date.parse(now.instant), days, 12, now.zone)).toISOString() }
}

/** What should be looked at once more before it is saved. */
export function doubtWords(doubt: Doubt, { zone }: Moment, locale: string): string {
  return doubt.kind === 'close-in-time'
    ? `There is a weight of that time already: ${numberWords(locale).grams(doubt.other.massGrams)}. Save again to keep both.`
    : `That is before it hatched, ${dayWords(`${doubt.hatchedOn}T12:00:00Z`, zone, locale)}. Save again if it is right.`
}

/** The day so many days after another, as `YYYY-MM-DD`. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)
}

/** The scale step a number needs: 58.4 cannot come from a scale that shows whole grams. */
export function stepFor(massGrams: number, stepGrams: number): number {
  const places = (String(massGrams).split('.')[1] ?? '').length
  const fits = Math.abs(massGrams / stepGrams - Math.round(massGrams / stepGrams)) < 1e-6
  return fits ? stepGrams : Math.min(stepGrams, 10 ** -places)
}
