import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { KeptEvent } from '../../shared/record.ts'
import { shedsOverTime } from '../../src/followup/sheds.ts'

const ZONE = 'Europe/London'
const shed = (at: string, more: Partial<KeptEvent> = {}): KeptEvent => ({ at, kind: 'shed', ...more })
const whole = (at: string) => shed(at, { whole: true })
const stuck = (at: string, ...stuckAt: string[]) => shed(at, { stuckAt })

test('the usual interval is the median of its own, and the next is expected within its own spread', () => {
  // Intervals 28, 30, 26, 35 days, worked out by hand; the median of 26, 28, 30, 35 is 29.
  const sheds = ['2026-01-01', '2026-01-29', '2026-02-28', '2026-03-26', '2026-04-30'].map(day =>
    whole(`${day}T09:00:00Z`),
  )
  expect(shedsOverTime(sheds, ZONE)).toEqual({
    count: 5,
    usual: { medianDays: 29, shortestDays: 26, longestDays: 35, of: 4 },
    nextExpected: { from: '2026-05-26', to: '2026-06-04' },
    incomplete: { count: 0, told: 5, places: [] },
    incompleteInARow: 0,
    keepsSticking: false,
  })
})

test('two intervals are too few to expect anything', () => {
  const sheds = ['2026-01-01', '2026-01-29', '2026-02-28'].map(day => whole(`${day}T09:00:00Z`))
  const { usual, nextExpected, count } = shedsOverTime(sheds, ZONE)
  expect([usual, nextExpected, count]).toEqual([undefined, undefined, 3])
})

test('a young rhythm does not stretch into a grown one: only the newest six intervals count', () => {
  const days = [0, 7, 14, 21, 28, 58, 88, 118, 148, 178, 208]
  const sheds = days.map(day => whole(new Date(Date.UTC(2026, 0, 1 + day, 12)).toISOString()))
  expect(shedsOverTime(sheds, ZONE).usual).toEqual({
    medianDays: 30,
    shortestDays: 30,
    longestDays: 30,
    of: 6,
  })
})

test('pieces noted on two days in a row are one shed, and what stayed on in any of them stayed on', () => {
  const told = shedsOverTime(
    [
      whole('2026-05-01T22:30:00Z'),
      stuck('2026-05-02T20:00:00Z', 'toes'),
      stuck('2026-05-03T08:00:00Z', 'eye'),
    ],
    ZONE,
  )
  expect(told).toMatchObject({ count: 1, incomplete: { count: 1, told: 1 }, incompleteInARow: 1 })
})

test('three incomplete in a row are a finding; a whole one in between is not', () => {
  const two = [stuck('2026-01-01T09:00:00Z', 'toes'), stuck('2026-02-01T09:00:00Z', 'toes', 'tail-tip')]
  expect(shedsOverTime(two, ZONE)).toMatchObject({ incompleteInARow: 2, keepsSticking: false })
  const three = [...two, shed('2026-03-01T09:00:00Z', { whole: false })]
  expect(shedsOverTime(three, ZONE)).toMatchObject({ incompleteInARow: 3, keepsSticking: true })
  // One that nobody told about neither breaks the row nor lengthens it.
  const untold = [...two, shed('2026-02-20T09:00:00Z'), shed('2026-03-10T09:00:00Z', { whole: false })]
  expect(shedsOverTime(untold, ZONE)).toMatchObject({
    incompleteInARow: 3,
    incomplete: { count: 3, told: 3 },
  })
  const broken = [...two, whole('2026-02-20T09:00:00Z'), stuck('2026-03-10T09:00:00Z', 'toes')]
  expect(shedsOverTime(broken, ZONE)).toMatchObject({ incompleteInARow: 1, keepsSticking: false })
})

test('the places are counted, most often first', () => {
  const told = shedsOverTime(
    [
      stuck('2026-01-01T09:00:00Z', 'tail-tip', 'toes'),
      whole('2026-02-01T09:00:00Z'),
      stuck('2026-03-01T09:00:00Z', 'toes'),
      { at: '2026-03-02T09:00:00Z', kind: 'meal' },
    ],
    ZONE,
  )
  expect(told.incomplete).toEqual({
    count: 2,
    told: 3,
    places: [
      { place: 'toes', count: 2 },
      { place: 'tail-tip', count: 1 },
    ],
  })
})

test('the order of the entries does not matter, and the median lies within the spread', () => {
  const events = fc.array(
    fc
      .record({ day: fc.integer({ min: 0, max: 900 }), whole: fc.option(fc.boolean(), { nil: undefined }) })
      .map(({ day, whole: isWhole }) =>
        shed(
          new Date(Date.UTC(2026, 0, 1 + day, 12)).toISOString(),
          isWhole === undefined ? {} : { whole: isWhole },
        ),
      ),
    { maxLength: 14 },
  )
  fc.assert(
    fc.property(events, drawn => {
      const told = shedsOverTime(drawn, ZONE)
      expect(shedsOverTime(drawn.toReversed(), ZONE)).toEqual(told)
      const { usual } = told
      if (!usual) return
      expect(usual.medianDays).toBeGreaterThanOrEqual(usual.shortestDays)
      expect(usual.medianDays).toBeLessThanOrEqual(usual.longestDays)
      expect(usual.shortestDays).toBeGreaterThanOrEqual(2)
    }),
  )
})
