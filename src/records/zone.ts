import { tzOffset } from '@date-fns/tz/tzOffset'

const MINUTE_MS = 60_000
const DAY_MS = 86_400_000

/**
 * A function from what the clocks of an IANA zone show, as milliseconds that read like UTC, to the instant in
 * milliseconds since 1970. A time that a clock change skips becomes the one after it; of a time that comes twice, one
 * is taken. Offsets are looked up once a day: files hold many rows of few days.
 */
export function instantIn(zone: string): (wallMs: number) => number {
  const atStartOf = new Map<number, number>()
  const offsetAtStart = (day: number): number => {
    const known = atStartOf.get(day)
    if (known !== undefined) return known
    const offset = tzOffset(zone, new Date(day * DAY_MS))
    atStartOf.set(day, offset)
    return offset
  }
  /** Milliseconds that the clocks are ahead of UTC at an instant. */
  const offsetMs = (instantMs: number): number => {
    const day = Math.floor(instantMs / DAY_MS)
    const offset = offsetAtStart(day)
    const isSteady = offset === offsetAtStart(day + 1)
    return (isSteady ? offset : tzOffset(zone, new Date(instantMs))) * MINUTE_MS
  }
  return wallMs => {
    const first = wallMs - offsetMs(wallMs)
    const second = wallMs - offsetMs(first)
    return second + offsetMs(second) === wallMs ? second : Math.max(first, second)
  }
}

/** Whether `zone` is a time zone that this machine knows. */
export function isZone(zone: string): boolean {
  return !Number.isNaN(tzOffset(zone, new Date(0)))
}
