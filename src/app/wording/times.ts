import type { Assessment } from '../../../shared/assessment.ts'
import { partOfDay } from '../../triage/calendar.ts'
import type { TimeCircleProps } from '../parts/TimeCircle.tsx'
import type { Book } from './book.ts'
import { dayPartAndClock, dial, lookWords } from './dates.ts'
import { labels } from './labels.ts'
import { plansTold, type Told, unique } from './outcome.ts'

/** The times of an outcome in words: by when to be seen, when to look again, and whether it is night. */

/** The latest time to be seen, or the first look at home. */
export function circle(told: Told): TimeCircleProps | undefined {
  const { locale, assessment } = told
  const { now, seenBy, urgency } = assessment
  // There is no time to show where it is now.
  if (urgency === 'now') return undefined
  if (seenBy)
    return {
      lead: labels.seen,
      day: labels.by(dayPartAndClock(seenBy.instant, now, locale)),
      note: labels.soonerIsBetter,
      ...dial(seenBy.instant, now),
    }
  const [first] = looks(told)
  return (
    first && { lead: labels.lookAgain, day: first.when, note: first.what.join(' '), ...dial(first.at, now) }
  )
}

function hoursOf(book: Book, look: Assessment['lookAgain'][number]): number | undefined {
  return book.logic.carePlans.find(({ id }) => id === look.plan)?.lookAgain[look.index]?.hours
}

export interface Look {
  readonly at: string
  readonly when: string
  readonly what: readonly string[]
}

/** When to look again, the soonest first, times that fall together under one heading. */
export function looks({ assessment, book, locale }: Told): Look[] {
  const groups = new Map<string, { at: string; what: string[] }>()
  const told = plansTold(assessment)
  for (const look of assessment.lookAgain.filter(({ plan }) => told.has(plan))) {
    const { at } = look
    const when = lookWords(at, hoursOf(book, look), assessment.now, locale)
    const what = book.plan(look.plan)?.lookAgain[look.index]
    const before = groups.get(when)
    if (what !== undefined)
      groups.set(when, { at: before?.at ?? at, what: unique([...(before?.what ?? []), what]) })
  }
  return [...groups].map(([when, { at, what }]) => ({
    at,
    when,
    // Plans that go together ask for the same: what another line says as well is said once.
    what: what.filter(one => !what.some(other => other !== one && other.includes(one))),
  }))
}

/** "Nobody can see it tonight", by the clock where the animal lives; by day it is "today". */
export function nobodyTitle({ assessment: { now } }: Told): string {
  const part = partOfDay(Date.parse(now.instant), now.zone)
  return part === 'night' || part === 'evening' ? labels.nobodyTonight : labels.nobodyToday
}
