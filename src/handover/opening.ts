import { type Clinic, type OpenSpan, WEEKDAYS } from '../../shared/clinic.ts'
import type { Moment } from '../../shared/moment.ts'
import { dayAfter, wallClock } from './wall-clock.ts'

/** Whether a clinic is open, by the clock on its own wall. */
export interface Opening {
  readonly isOpen: boolean
  /** While open: when it shuts, `HH:MM` by its own clock; `24:00` where the day ends so. */
  readonly until?: string
  /** While shut: when it opens next within `LOOK_AHEAD_DAYS`. */
  readonly opensNext?: { readonly day: string; readonly from: string }
}

const LOOK_AHEAD_DAYS = 14

/** The spans that begin on a day: those of a holiday where it is one, else those of the week, earliest first. */
function spansOf(clinic: Clinic, day: string): readonly OpenSpan[] {
  const holiday = clinic.holidays.find(({ from, to }) => from <= day && day <= to)
  const weekday = WEEKDAYS[(new Date(`${day}T00:00:00Z`).getUTCDay() + 6) % 7]
  const spans = holiday?.spans ?? clinic.weeklyHours.filter(hours => hours.day === weekday)
  return spans.toSorted((one, other) => one.from.localeCompare(other.from))
}

const runsOver = ({ from, to }: OpenSpan) => to <= from

/**
 * Whether the clinic is open at `now`, by its weekly hours and holidays in its own zone. A span that runs past midnight
 * belongs to the day on which it began. Hours are what the wall clock shows, so that they hold through a clock change.
 */
export function openingAt(clinic: Clinic, now: Pick<Moment, 'instant'>): Opening {
  const { day, time } = wallClock(now.instant, clinic.zone)
  const today = spansOf(clinic, day)
  const ends = [
    ...spansOf(clinic, dayAfter(day, -1)).filter(span => runsOver(span) && time < span.to),
    ...today.filter(span => span.from <= time && (runsOver(span) || time < span.to)),
  ].map(({ to }) => to)
  const [until] = ends
  if (until !== undefined) return { isOpen: true, until }
  for (let days = 0; days <= LOOK_AHEAD_DAYS; days += 1) {
    const ahead = dayAfter(day, days)
    const next = spansOf(clinic, ahead).find(({ from }) => days > 0 || from > time)
    if (next) return { isOpen: false, opensNext: { day: ahead, from: next.from } }
  }
  return { isOpen: false }
}

/** Whether the clinic is open at `now`. */
export function isOpen(clinic: Clinic, now: Pick<Moment, 'instant'>): boolean {
  return openingAt(clinic, now).isOpen
}
