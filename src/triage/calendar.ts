import { tzOffset } from '@date-fns/tz/tzOffset'

/** Calendar arithmetic in a named time zone. Instants are milliseconds since 1970 UTC; no clock is read. */

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** Offsets already asked for: the same few instants are asked for again and again while a case is weighed. */
const offsets = new Map<string, Map<number, number>>()
const MOST_OFFSETS = 1000

/** Minutes that the clock of `zone` is ahead of UTC at an instant. */
function offsetOf(instantMs: number, zone: string): number {
  let ofZone = offsets.get(zone)
  if (!ofZone) {
    ofZone = new Map()
    offsets.set(zone, ofZone)
  }
  const before = ofZone.get(instantMs)
  if (before !== undefined) return before
  if (ofZone.size >= MOST_OFFSETS) ofZone.clear()
  const offset = tzOffset(zone, new Date(instantMs))
  ofZone.set(instantMs, offset)
  return offset
}

/** The wall clock of `zone` at an instant, as milliseconds that read like UTC. */
function wallOf(instantMs: number, zone: string): number {
  return instantMs + offsetOf(instantMs, zone) * 60_000
}

/** The instant at which the clock of `zone` shows `wallMs`; a time that a clock change skips becomes the one after it. */
function instantOf(wallMs: number, zone: string): number {
  const first = wallMs - offsetOf(wallMs, zone) * 60_000
  const second = wallMs - offsetOf(first, zone) * 60_000
  return wallOf(second, zone) === wallMs ? second : Math.max(first, second)
}

const numberOfDay = (wallMs: number) => Math.floor(wallMs / DAY_MS)

/** Calendar days from one instant to another, counted in `zone`. */
export function calendarDaysBetween(fromMs: number, toMs: number, zone: string): number {
  return numberOfDay(wallOf(toMs, zone)) - numberOfDay(wallOf(fromMs, zone))
}

/** The instant of `hour` o'clock on the day that is `days` calendar days after the day of `fromMs`, in `zone`. */
export function atHourAfterDays(fromMs: number, days: number, hour: number, zone: string): number {
  return instantOf((numberOfDay(wallOf(fromMs, zone)) + days) * DAY_MS + hour * HOUR_MS, zone)
}

/** The instant `hours` elapsed hours later. */
export function hoursLater(fromMs: number, hours: number): number {
  return fromMs + hours * HOUR_MS
}

/** The calendar day of an instant in `zone`, as `YYYY-MM-DD`. */
export function dayOf(instantMs: number, zone: string): string {
  return new Date(wallOf(instantMs, zone)).toISOString().slice(0, 10)
}

/** The month of an instant in `zone`, 1 to 12. */
export function monthOf(instantMs: number, zone: string): number {
  return new Date(wallOf(instantMs, zone)).getUTCMonth() + 1
}

/** The part of the day: night until 6, morning until 12, afternoon until 18, evening until midnight. */
export function partOfDay(instantMs: number, zone: string): 'night' | 'morning' | 'afternoon' | 'evening' {
  const hour = new Date(wallOf(instantMs, zone)).getUTCHours()
  if (hour < 6) return 'night'
  if (hour < 12) return 'morning'
  return hour < 18 ? 'afternoon' : 'evening'
}

/** Whether `zone` is a time zone that this machine knows. */
export function isZone(zone: string): boolean {
  return !Number.isNaN(tzOffset(zone, new Date(0)))
}
