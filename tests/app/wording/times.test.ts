import { describe, expect, test } from 'vitest'
import { dayPartAndClock, dial, lookWords } from '../../../src/app/wording/dates.ts'
import { labels } from '../../../src/app/wording/labels.ts'
import { circle, looks, nobodyTitle } from '../../../src/app/wording/times.ts'
import { at, worked } from './worked.ts'

const NIGHT = { instant: '2026-11-24T23:10:00Z', zone: 'Europe/London' }
const [any] = worked
if (!any) throw new Error('No worked case settles.')

describe('a time to be seen', () => {
  test('is a day, a part of it and the hour begun, never later than the instant', () => {
    expect(dayPartAndClock('2026-11-25T23:50:00Z', NIGHT, 'en-GB')).toBe('tomorrow evening, Wednesday, 23:00')
    expect(dayPartAndClock('2026-11-27T09:59:00Z', NIGHT, 'en-GB')).toBe('Friday morning, 9:00')
  })

  test('is told by the clock where the animal lives, also half an hour off', () => {
    const kolkata = { instant: '2026-11-24T10:00:00Z', zone: 'Asia/Kolkata' }
    expect(dayPartAndClock('2026-11-25T08:00:00Z', kolkata, 'en-GB')).toBe(
      'tomorrow afternoon, Wednesday, 13:00',
    )
  })

  test('is written as the locale writes it', () => {
    expect(dayPartAndClock('2026-11-25T23:50:00Z', NIGHT, 'en-US')).toMatch(/, 11:00\sPM$/)
  })
})

test('a look in a few hours says how many and the clock time', () => {
  expect(lookWords('2026-11-25T00:10:00Z', 1, NIGHT, 'en-GB')).toBe('in 1 hour, at 0:10')
  expect(lookWords('2026-11-25T02:10:00Z', 3, NIGHT, 'en-GB')).toBe('in 3 hours, at 2:10')
  expect(lookWords('2026-11-25T23:10:00Z', 24, NIGHT, 'en-GB')).toBe('tomorrow evening, Wednesday, 23:00')
})

describe('the dial', () => {
  const later = (hours: number) => new Date(Date.parse(NIGHT.instant) + hours * 3_600_000).toISOString()
  test.each([
    [1, 1 / 12, [3, 6, 9, 12], labels.hours(12)],
    [20, 20 / 24, [6, 12, 18, 24], labels.hours(24)],
    [72, 1, [1, 2, 3], labels.days(3)],
    [160, 160 / 168, [1, 2, 3, 4, 5, 6, 7], labels.days(7)],
    [24 * 14, 1, [2, 4, 6, 8, 10, 12, 14], labels.days(14)],
  ])('for %i hours shows its share, its numbers and what once round is', (hours, share, numbers, span) => {
    const shown = dial(later(hours), NIGHT)
    expect(shown.fraction).toBeCloseTo(share)
    expect(shown.marks.flatMap(({ number }) => number ?? [])).toEqual(numbers)
    expect(shown.legend).toContain(span)
  })
})

test('"if nobody can see it" speaks of tonight by night and of today by day, where the animal lives', () => {
  expect(nobodyTitle(at(any, '2026-11-25T02:10:00Z', 'Europe/London'))).toBe(labels.nobodyTonight)
  expect(nobodyTitle(at(any, '2026-11-25T12:10:00Z', 'Europe/London'))).toBe(labels.nobodyToday)
  expect(nobodyTitle(at(any, '2026-11-25T12:10:00Z', 'Asia/Tokyo'))).toBe(labels.nobodyTonight)
})

describe.each(worked)('$name', told => {
  test('has a time circle unless it is now, and no look is said twice', () => {
    const { urgency } = told.assessment
    if (urgency === 'now') expect(circle(told)).toBeUndefined()
    if (urgency === 'day' || urgency === 'week') expect(circle(told)?.lead).toBe(labels.seen)
    const said = looks(told)
    expect(new Set(said.map(({ when }) => when)).size).toBe(said.length)
    for (const { what } of said)
      expect(what.filter(one => what.some(other => other !== one && other.includes(one)))).toEqual([])
  })
})
