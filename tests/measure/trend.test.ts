import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { weightSeries } from '../../src/measure/series.ts'
import { percentPerWeek, windowTrends } from '../../src/measure/trend.ts'
import { event, on, policy, weekly, weighed } from './fixtures/record.ts'

const trendsOf = (weighIns: ReturnType<typeof weekly>, events: ReturnType<typeof event>[] = []) =>
  windowTrends(weightSeries(weighIns, events, policy, on(400)), policy.trend)

describe('percent per week', () => {
  // 100 * (exp(7 b) - 1), b the slope of ln(mass) per day; computed by hand and in R 4.2.2.
  it.each([
    [60, 57, 14, -2.5321],
    [60, 54, 28, -2.5996],
    [62, 60.5, 9, -1.8868],
  ])('from %d g to %d g in %d days is %d', (from, to, days, expected) => {
    expect(percentPerWeek(Math.log(to / from) / days)).toBeCloseTo(expected, 4)
  })

  it('is -1.433252 for the Theil-Sen slope on the logarithm of the wtloss record (R package MASS)', () => {
    expect(percentPerWeek(-0.002062317684)).toBeCloseTo(-1.433252, 6)
  })
})

describe('the trend in a window', () => {
  it('is the slope, its limits and the chance of so much fall', () => {
    const [trend] = trendsOf(weekly([60, 59, 58, 57, 56, 55, 54])).slice(-1)
    expect(trend).toMatchObject({ windowDays: 90, readings: 7, spanDays: 42, exact: true })
    expect(trend?.percentPerWeek).toBeCloseTo(-1.75, 1)
    expect(trend?.limits?.highPercentPerWeek).toBeLessThan(-1.5)
    expect(trend?.downProbability).toBeCloseTo(1 / 5040, 6)
    expect(trend?.line[0].massGrams).toBeCloseTo(60, 0)
    expect(trend?.line[1].massGrams).toBeCloseTo(54, 0)
  })

  it('is not told from fewer readings than the policy asks', () => {
    expect(trendsOf(weekly([60, 59]))).toEqual([])
    expect(trendsOf([])).toEqual([])
  })

  it('comes for every length of window, counted back from the newest reading', () => {
    const daily = weighed(
      Object.fromEntries(Array.from({ length: 120 }, (_, index) => [index, 60 + index / 100])),
    )
    expect(trendsOf(daily).map(({ readings }) => readings)).toEqual([15, 29, 61, 91])
    expect(trendsOf(daily).every(({ exact }) => !exact)).toBe(true)
  })

  it('starts anew after an event that explains a step', () => {
    const trends = trendsOf(weighed({ 0: 60, 7: 60, 14: 60, 19: 46, 26: 46, 33: 46.5 }), [
      event('tail-lost', 15),
    ])
    expect(trends.at(-1)).toMatchObject({ readings: 3 })
    expect(trends.at(-1)?.percentPerWeek).toBeGreaterThanOrEqual(0)
  })

  it('leaves out marked readings but never the newest', () => {
    expect(trendsOf(weekly([60, 61, 60, 52, 60.5, 60, 61])).at(-1)).toMatchObject({ readings: 6 })
    expect(trendsOf(weekly([60, 61, 60, 60.5, 52])).at(-1)).toMatchObject({ readings: 5 })
  })

  it('is the same in percent whatever the unit of weight', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 40, max: 80 }), { minLength: 3, maxLength: 12 }), masses => {
        const grams = trendsOf(weekly(masses, 0.1)).at(-1)
        const halves = trendsOf(
          weekly(
            masses.map(mass => mass / 2),
            0.05,
          ),
        ).at(-1)
        expect(halves?.percentPerWeek ?? 0).toBeCloseTo(grams?.percentPerWeek ?? 0, 5)
        expect(halves?.downProbability).toBe(grams?.downProbability)
      }),
    )
  })
})
