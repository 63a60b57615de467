const DAY_MS = 86_400_000

/** Making one is dear, and a page asks hundreds of times for the same zone. */
let last: { readonly zone: string; readonly format: Intl.DateTimeFormat } | undefined

function formatOf(zone: string): Intl.DateTimeFormat {
  if (last?.zone !== zone) {
    const format = new Intl.DateTimeFormat('en-US-u-ca-iso8601-nu-latn', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    })
    last = { zone, format }
  }
  return last.format
}

/** Day and time of an instant on the wall of a zone, such as `2026-11-25` and `02:10`. */
export function wallClock(instant: string, zone: string): { readonly day: string; readonly time: string } {
  const parts = formatOf(zone).formatToParts(new Date(instant))
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find(one => one.type === type)?.value ?? ''
  return {
    day: `${part('year')}-${part('month')}-${part('day')}`,
    time: `${part('hour')}:${part('minute')}`,
  }
}

/** The calendar day `days` after `day`; days have no clock, so no clock change bears on them. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10)
}

/** Calendar days from one day to a later one. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS)
}
