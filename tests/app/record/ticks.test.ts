import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dateTicks, gramTicks } from '../../../src/app/record/chart/ticks.ts'

const DAY_MS = 86_400_000
const from = Date.parse('2026-03-01T12:00:00Z')
const labels = (days: number, most: number, zone = 'UTC') =>
  dateTicks(from, from + days * DAY_MS, most, zone, 'en-GB').map(({ label }) => label)

describe('the axis of grams', () => {
  test('is written on in whole grams', () => {
    expect(gramTicks(47.6, 62.1, 5).map(({ label }) => label)).toEqual(['50', '55', '60'])
    expect(gramTicks(2.2, 18.4, 5).map(({ label }) => label)).toEqual(['5', '10', '15'])
  })

  test('never has more ticks than fit, and all of them inside', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 400, noNaN: true }),
        fc.double({ min: 0.5, max: 100, noNaN: true }),
        fc.integer({ min: 3, max: 8 }),
        (low, span, most) => {
          const ticks = gramTicks(low, low + span, most)
          expect(ticks.length).toBeLessThanOrEqual(most)
          for (const { value } of ticks) {
            expect(Number.isInteger(value)).toBe(true)
            expect(value).toBeGreaterThanOrEqual(low)
            expect(value).toBeLessThanOrEqual(low + span)
          }
        },
      ),
    )
  })
})

describe('the axis of dates', () => {
  test('names days where there are few', () => {
    expect(labels(7, 3)).toEqual(['4 Mar', '8 Mar'])
  })

  test('names months, and the year at each January', () => {
    expect(labels(330, 7)).toEqual(['May', 'Jul', 'Sept', 'Nov', '2027'])
  })

  test('names years over ten years', () => {
    expect(labels(3650, 6)).toEqual(['2028', '2030', '2032', '2034', '2036'])
  })

  test('puts a day where it begins in the zone of the record', () => {
    const [tick] = dateTicks(from, from + 3 * DAY_MS, 5, 'Pacific/Auckland', 'en-GB')
    expect(new Date(tick?.value ?? 0).toISOString()).toBe('2026-03-02T11:00:00.000Z')
  })

  test('never has more ticks than fit, in order and inside', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9000 }), fc.integer({ min: 3, max: 12 }), (days, most) => {
        const ticks = dateTicks(from, from + days * DAY_MS, most, 'Europe/London', 'en-GB')
        expect(ticks.length).toBeLessThanOrEqual(most + 1)
        expect(ticks.map(({ value }) => value)).toEqual(
          ticks.map(({ value }) => value).toSorted((one, other) => one - other),
        )
        for (const { value } of ticks) {
          expect(value).toBeGreaterThanOrEqual(from)
          expect(value).toBeLessThanOrEqual(from + days * DAY_MS)
        }
      }),
      { numRuns: 200 },
    )
  })
})
