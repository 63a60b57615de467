export const MILLISECONDS_PER_DAY = 86_400_000

const WEEK = 7 * MILLISECONDS_PER_DAY

/** Milliseconds since 1970 of an ISO 8601 instant; a RangeError names the field of one that is none. */
export function instantMilliseconds(instant: string, field: string): number {
  const milliseconds = Date.parse(instant)
  if (Number.isNaN(milliseconds)) throw new RangeError(`${field}: "${instant}" is not an ISO 8601 instant`)
  return milliseconds
}

/** Days of 24 hours that passed from one instant to another, both in milliseconds. */
export function elapsedDays(fromMilliseconds: number, toMilliseconds: number): number {
  return (toMilliseconds - fromMilliseconds) / MILLISECONDS_PER_DAY
}

/** The same without the day that has only begun: an hour that a clock change adds makes no day of four weeks five. */
export function wholeDays(fromMilliseconds: number, toMilliseconds: number): number {
  return Math.floor(elapsedDays(fromMilliseconds, toMilliseconds))
}

const daysOfZones = new Map<string, (milliseconds: number) => number>()

/**
 * A function from an instant (milliseconds) to the number of its calendar day in an IANA zone; equal
 * numbers are the same day. The zone's distance from UTC is looked up at the ends of each week and, only
 * in a week where the two differ, at the instant itself: ten years of days would otherwise take 3,650
 * slow lookups. Each zone is remembered, because a shelf asks for the same one for every animal.
 */
export function calendarDayIn(zone: string): (milliseconds: number) => number {
  const known = daysOfZones.get(zone)
  if (known !== undefined) return known
  const made = makeCalendarDay(zone)
  daysOfZones.set(zone, made)
  return made
}

function makeCalendarDay(zone: string): (milliseconds: number) => number {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  })
  const offsetAt = (milliseconds: number): number => {
    // The fixed locale writes month, day, year, hour, minute, second, in this order.
    const [month = 1, day = 1, year = 0, hour = 0, minute = 0, second = 0] = (
      format.format(milliseconds).match(/\d+/g) ?? []
    ).map(Number)
    return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(milliseconds / 1000) * 1000
  }
  const atWeek = new Map<number, number>()
  const offsetAtWeek = (week: number): number => {
    const known = atWeek.get(week)
    if (known !== undefined) return known
    const offset = offsetAt(week * WEEK)
    atWeek.set(week, offset)
    return offset
  }
  return milliseconds => {
    const week = Math.floor(milliseconds / WEEK)
    const atStart = offsetAtWeek(week)
    const offset = atStart === offsetAtWeek(week + 1) ? atStart : offsetAt(milliseconds)
    return Math.floor((milliseconds + offset) / MILLISECONDS_PER_DAY)
  }
}
