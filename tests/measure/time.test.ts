import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { calendarDayIn, elapsedDays, instantMilliseconds } from '../../src/measure/time.ts'

const milliseconds = (instant: string) => instantMilliseconds(instant, 'at')

describe('calendar days', () => {
  it('part at midnight of the zone, not of UTC', () => {
    const berlin = calendarDayIn('Europe/Berlin')
    expect(berlin(milliseconds('2026-01-10T22:59:00Z'))).toBe(berlin(milliseconds('2026-01-10T08:00:00Z')))
    expect(berlin(milliseconds('2026-01-10T23:01:00Z'))).toBe(
      berlin(milliseconds('2026-01-10T08:00:00Z')) + 1,
    )
  })

  it('part rightly on both sides of a change of the clock', () => {
    // Berlin put its clocks forward at 01:00 UTC on 29 March 2026: midnight was 23:00 UTC before, 22:00 after.
    const berlin = calendarDayIn('Europe/Berlin')
    const sunday = berlin(milliseconds('2026-03-29T12:00:00Z'))
    expect(berlin(milliseconds('2026-03-28T22:30:00Z'))).toBe(sunday - 1)
    expect(berlin(milliseconds('2026-03-28T23:30:00Z'))).toBe(sunday)
    expect(berlin(milliseconds('2026-03-29T21:30:00Z'))).toBe(sunday)
    expect(berlin(milliseconds('2026-03-29T22:30:00Z'))).toBe(sunday + 1)
  })

  it('are those that the zone itself writes, at any instant', () => {
    for (const zone of ['America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC']) {
      const dayOf = calendarDayIn(zone)
      const written = new Intl.DateTimeFormat('en-CA', { timeZone: zone })
      fc.assert(
        fc.property(
          fc.date({ min: new Date('2015-01-01'), max: new Date('2035-01-01'), noInvalidDate: true }),
          date => {
            const text = new Date(dayOf(date.getTime()) * 86_400_000).toISOString().slice(0, 10)
            expect(text).toBe(written.format(date))
          },
        ),
        { numRuns: 60 },
      )
    }
  })

  it('count elapsed days in parts', () => {
    expect(elapsedDays(milliseconds('2026-01-01T00:00:00Z'), milliseconds('2026-01-02T12:00:00Z'))).toBe(1.5)
  })

  it('name the field of an instant that is none', () => {
    expect(() => instantMilliseconds('yesterday', 'weighIns.3.at')).toThrow('weighIns.3.at: "yesterday"')
  })
})
