import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  atHourAfterDays,
  calendarDaysBetween,
  dayOf,
  hoursLater,
  isZone,
  monthOf,
  partOfDay,
} from '../../src/triage/calendar.ts'

const at = (text: string) => Date.parse(text)
const iso = (ms: number) => new Date(ms).toISOString()

test('a day is a calendar day where the animal lives, whatever the clock change makes of its length', () => {
  expect(calendarDaysBetween(at('2026-03-28T12:00:00Z'), at('2026-03-29T11:00:00Z'), 'Europe/London')).toBe(1)
  expect(calendarDaysBetween(at('2026-10-24T23:30:00Z'), at('2026-10-25T23:30:00Z'), 'Europe/London')).toBe(0)
  expect(
    calendarDaysBetween(at('2026-03-08T04:59:00Z'), at('2026-03-08T05:01:00Z'), 'America/New_York'),
  ).toBe(1)
})

test('the evening of the day of a clock change is at the same hour on the wall', () => {
  expect(iso(atHourAfterDays(at('2026-03-28T20:00:00Z'), 1, 19, 'Europe/London'))).toBe(
    '2026-03-29T18:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-10-24T20:00:00Z'), 1, 19, 'Europe/London'))).toBe(
    '2026-10-25T19:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-03-07T20:00:00Z'), 1, 8, 'America/New_York'))).toBe(
    '2026-03-08T12:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-10-31T20:00:00Z'), 1, 8, 'America/New_York'))).toBe(
    '2026-11-01T13:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-10-03T02:00:00Z'), 1, 8, 'Australia/Lord_Howe'))).toBe(
    '2026-10-03T21:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-04-04T02:00:00Z'), 1, 8, 'Australia/Lord_Howe'))).toBe(
    '2026-04-04T21:30:00.000Z',
  )
})

test('an hour that a clock change skips becomes the one after it', () => {
  expect(iso(atHourAfterDays(at('2026-03-28T12:00:00Z'), 1, 1, 'Europe/London'))).toBe(
    '2026-03-29T01:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-03-07T12:00:00Z'), 1, 2, 'America/New_York'))).toBe(
    '2026-03-08T07:00:00.000Z',
  )
  expect(iso(atHourAfterDays(at('2026-10-03T00:00:00Z'), 1, 2, 'Australia/Lord_Howe'))).toBe(
    '2026-10-03T15:30:00.000Z',
  )
})

test('hours are elapsed hours, also through a clock change', () => {
  expect(iso(hoursLater(at('2026-03-28T12:00:00Z'), 24))).toBe('2026-03-29T12:00:00.000Z')
})

test('29 February is a day like any other', () => {
  expect(calendarDaysBetween(at('2028-02-28T12:00:00Z'), at('2028-03-01T12:00:00Z'), 'Europe/London')).toBe(2)
  expect(calendarDaysBetween(at('2026-02-28T12:00:00Z'), at('2026-03-01T12:00:00Z'), 'Europe/London')).toBe(1)
  expect(dayOf(atHourAfterDays(at('2028-02-28T12:00:00Z'), 1, 19, 'Europe/London'), 'Europe/London')).toBe(
    '2028-02-29',
  )
})

test('month, day and part of the day are those of the zone', () => {
  const newYear = at('2026-12-31T23:30:00Z')
  expect(monthOf(newYear, 'Europe/London')).toBe(12)
  expect(monthOf(newYear, 'Australia/Lord_Howe')).toBe(1)
  expect(dayOf(newYear, 'Australia/Lord_Howe')).toBe('2027-01-01')
  expect(partOfDay(newYear, 'Europe/London')).toBe('evening')
  expect(partOfDay(newYear, 'Australia/Lord_Howe')).toBe('morning')
  expect(partOfDay(newYear, 'America/New_York')).toBe('evening')
})

test('whatever the instant, the hour asked for stands on the wall or was skipped, and the day is the one counted to', () => {
  const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia']
  fc.assert(
    fc.property(
      fc.constantFrom(...zones),
      fc.integer({ min: at('2025-01-01T00:00:00Z'), max: at('2030-01-01T00:00:00Z') }),
      fc.nat({ max: 40 }),
      (zone, from, days) => {
        const then = atHourAfterDays(from, days, 8, zone)
        expect(calendarDaysBetween(from, then, zone)).toBe(days)
        expect(partOfDay(then, zone)).toBe('morning')
      },
    ),
    { seed: 20_261_125 },
  )
})

test('a zone is known by its name', () => {
  expect(isZone('Europe/London')).toBe(true)
  expect(isZone('Europe/Nowhere')).toBe(false)
})
