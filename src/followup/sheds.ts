import type { KeptEvent } from '../../shared/record.ts'
import { atHourAfterDays, calendarDaysBetween, dayOf } from '../triage/calendar.ts'

/** What an animal's own sheds tell: how far apart they come, when the next may, and whether skin keeps staying on. */
export interface ShedsOverTime {
  /** Sheds noted; entries on neighbouring days are one shed. */
  readonly count: number
  /** Days between sheds: the median of its last few intervals, and of how many; absent below three intervals. */
  readonly usual?: {
    readonly medianDays: number
    readonly shortestDays: number
    readonly longestDays: number
    readonly of: number
  }
  /** The days between which the next may come, by its own shortest and longest of those intervals. */
  readonly nextExpected?: { readonly from: string; readonly to: string }
  /** Of the sheds where it was told whether they came off whole. */
  readonly incomplete: {
    readonly count: number
    readonly told: number
    /** Where skin stayed, most often first. */
    readonly places: readonly { readonly place: string; readonly count: number }[]
  }
  /** How many of the newest told ones in a row were incomplete. */
  readonly incompleteInARow: number
  /** Three or more in a row: look for the cause. */
  readonly keepsSticking: boolean
}

// None of these is a fact about animals; they say how a keeper's notes are read.
const NEIGHBOURING_DAYS = 2
/** The newest only: a young animal's rhythm changes as it grows. */
const NEWEST_INTERVALS = 6
const FEWEST_INTERVALS = 3
const IN_A_ROW = 3

interface Shed {
  readonly firstMs: number
  readonly lastMs: number
  readonly whole: boolean | undefined
  readonly stuckAt: readonly string[]
}

/** One shed's notes together: what stayed on in any of them stayed on. */
function together(shed: Shed | undefined, noted: Shed): Shed {
  if (!shed) return noted
  const told = [shed.whole, noted.whole].filter(whole => whole !== undefined)
  return {
    firstMs: shed.firstMs,
    lastMs: noted.lastMs,
    whole: told.length === 0 ? undefined : told.every(Boolean),
    stuckAt: [...new Set([...shed.stuckAt, ...noted.stuckAt])],
  }
}

function shedsOf(events: readonly KeptEvent[], zone: string): Shed[] {
  const noted = events
    .filter(({ kind }) => kind === 'shed')
    .map(({ at, whole, stuckAt = [] }): Shed => {
      const atMs = Date.parse(at)
      return { firstMs: atMs, lastMs: atMs, whole: stuckAt.length > 0 ? false : whole, stuckAt }
    })
    .sort((one, other) => one.firstMs - other.firstMs)
  const sheds: Shed[] = []
  for (const shed of noted) {
    const last = sheds.at(-1)
    const isSame = last && calendarDaysBetween(last.lastMs, shed.firstMs, zone) < NEIGHBOURING_DAYS
    if (isSame) sheds.pop()
    sheds.push(together(isSame ? last : undefined, shed))
  }
  return sheds
}

function medianOf(sorted: readonly number[]): number {
  const middle = Math.floor(sorted.length / 2)
  const upper = sorted[middle] ?? 0
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2
}

/** Reads an animal's `shed` events; days are calendar days in `zone`. */
export function shedsOverTime(events: readonly KeptEvent[], zone: string): ShedsOverTime {
  const sheds = shedsOf(events, zone)
  const intervals = sheds
    .slice(1)
    .map(({ firstMs }, index) => calendarDaysBetween(sheds[index]?.firstMs ?? firstMs, firstMs, zone))
    .slice(-NEWEST_INTERVALS)
    .sort((one, other) => one - other)
  const [shortestDays, longestDays] = [intervals[0], intervals.at(-1)]
  const last = sheds.at(-1)
  const told = sheds.filter(({ whole }) => whole !== undefined)
  const incomplete = told.filter(({ whole }) => whole === false)
  const places = new Map<string, number>()
  for (const place of incomplete.flatMap(({ stuckAt }) => stuckAt))
    places.set(place, (places.get(place) ?? 0) + 1)
  const wholeFromEnd = told.toReversed().findIndex(({ whole }) => whole === true)
  const incompleteInARow = wholeFromEnd === -1 ? told.length : wholeFromEnd
  const base = {
    count: sheds.length,
    incomplete: {
      count: incomplete.length,
      told: told.length,
      places: [...places]
        .map(([place, count]) => ({ place, count }))
        .sort((one, other) => other.count - one.count || (one.place < other.place ? -1 : 1)),
    },
    incompleteInARow,
    keepsSticking: incompleteInARow >= IN_A_ROW,
  }
  if (!last || shortestDays === undefined || longestDays === undefined || intervals.length < FEWEST_INTERVALS)
    return base
  const day = (days: number) => dayOf(atHourAfterDays(last.firstMs, days, 12, zone), zone)
  return {
    ...base,
    usual: { medianDays: medianOf(intervals), shortestDays, longestDays, of: intervals.length },
    nextExpected: { from: day(shortestDays), to: day(longestDays) },
  }
}
