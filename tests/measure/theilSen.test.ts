import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mannKendall, tieSizes } from '../../src/measure/mannKendall.ts'
import { twoSidedZ } from '../../src/measure/normal.ts'
import { interceptOfMedians, theilSen } from '../../src/measure/theilSen.ts'

// Sen 1968, JASA 63:1379-1389: his worked example.
const times = [1, 2, 3, 4, 10, 12, 18]
const values = [9, 15, 19, 20, 45, 55, 78]

// Gilbert 1987, p. 212.
const gilbert = [20, 20, 20, 20, 15, 20, 20, 30, 27, 26, 23, 35, 25, 28, 70, 26, 24, 34, 32, 23, 50, 30]
const counted = (list: readonly number[]) => list.map((_, index) => index + 1)

describe('the Theil-Sen line', () => {
  it('has slope 4 and the 93 % limits 26/7 and 35/8 in the example of Sen 1968', () => {
    // 26/7 and 35/8 as the test suites of SciPy and of the R package deming have them; the interval printed
    // in the paper rests on mistakes in its list of slopes.
    const line = theilSen(times, values, 0.93)
    expect(line?.slope).toBe(4)
    expect(line?.limits?.low).toBeCloseTo(26 / 7, 12)
    expect(line?.limits?.high).toBeCloseTo(35 / 8, 12)
    expect(line?.pairs).toBe(21)
  })

  it('has the intercept 6 that halves the residuals (ml-regression-theil-sen) and 4 by medians (SciPy)', () => {
    const line = theilSen(times, values, 0.93)
    expect(line?.intercept).toBe(6)
    expect(interceptOfMedians(times, values, 4)).toBe(4)
  })

  it('has slope 2/3 and the interpolated limits in Gilbert 1987, p. 212', () => {
    const line95 = theilSen(counted(gilbert), gilbert, 0.95)
    expect(line95?.slope).toBeCloseTo(2 / 3, 12)
    expect(line95?.limits?.low).toBeCloseTo(0.253033, 6)
    expect(line95?.limits?.high).toBeCloseTo(1.139608, 6)
    const line90 = theilSen(counted(gilbert), gilbert, 0.9)
    expect(line90?.limits?.low).toBeCloseTo(0.333333, 6)
    expect(line90?.limits?.high).toBeCloseTo(1, 6)
  })

  it('falls 9.1667 a step in the worked table of the Wisconsin Administrative Code', () => {
    expect(theilSen([1, 2, 3, 4, 5], [100, 50, 85, 75, 50], 0.95)?.slope).toBeCloseTo(-9.16667, 5)
  })

  it('rises 0.4615 g a day for rat 1 of the BodyWeight series (R package nlme, computed in R 4.2.2)', () => {
    const days = [1, 8, 15, 22, 29, 36, 43, 44, 50, 57, 64]
    const grams = [240, 250, 255, 260, 262, 258, 266, 266, 265, 272, 278]
    expect(theilSen(days, grams, 0.95)?.slope).toBeCloseTo(0.4615384615, 10)
  })

  it('rises 7.6 % a day on the logarithm for chick 1 of ChickWeight (R 4.2.2)', () => {
    const days = [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 21]
    const grams = [42, 51, 59, 64, 76, 93, 106, 125, 149, 171, 199, 205]
    expect(theilSen(days, grams.map(Math.log), 0.95)?.slope).toBeCloseTo(0.07623099007, 10)
    expect(theilSen(days, grams, 0.95)?.slope).toBeCloseTo(8, 12)
  })

  it('has no limits when there are too few pairs for them, and no line without two times', () => {
    expect(theilSen([1, 2, 3], [3, 2, 1], 0.95)).toMatchObject({ slope: -1 })
    expect(theilSen([1, 2, 3], [3, 2, 1], 0.95)?.limits).toBeUndefined()
    expect(theilSen([1], [60], 0.95)).toBeUndefined()
    expect(theilSen([1, 1], [60, 61], 0.95)).toBeUndefined()
  })

  it('leaves out pairs at one time', () => {
    expect(theilSen([0, 0, 1], [1, 3, 4], 0.95)).toMatchObject({ pairs: 2, slope: 2 })
  })

  it('finds the same median of slopes and ordered limits as sorting all of them', () => {
    const series = fc
      .array(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 30, max: 90 })), {
        minLength: 2,
        maxLength: 25,
      })
      .filter(points => new Set(points.map(([time]) => time)).size > 1)
    fc.assert(
      fc.property(series, points => {
        const slopes: number[] = []
        points.forEach(([time, value], j) => {
          for (const [before, earlier] of points.slice(0, j)) {
            if (time !== before) slopes.push((value - earlier) / (time - before))
          }
        })
        slopes.sort((one, other) => one - other)
        const half = slopes.length >> 1
        const middle = slopes.length % 2 === 1 ? slopes[half]! : (slopes[half - 1]! + slopes[half]!) / 2
        const line = theilSen(
          points.map(([time]) => time),
          points.map(([, value]) => value),
          0.95,
        )
        expect(line?.slope).toBeCloseTo(middle, 12)
        if (line?.limits) {
          expect(line.limits.low).toBeLessThanOrEqual(line.slope)
          expect(line.limits.high).toBeGreaterThanOrEqual(line.slope)
          const below = slopes.filter(slope => slope < line.limits!.low).length
          const above = slopes.filter(slope => slope > line.limits!.high).length
          expect(Math.abs(below - above)).toBeLessThanOrEqual(slopes.length - new Set(slopes).size + 1)
        }
      }),
    )
  })

  it('finds the same in long series, where it only looks at the slopes near the limits', () => {
    const long = fc.array(fc.integer({ min: 30, max: 90 }), { minLength: 30, maxLength: 110 })
    // A wave, a jump or a run makes the sample guess wrong now and then: the answer must not depend on it.
    const shapes = fc.constantFrom<(index: number) => number>(
      () => 0,
      index => 20 * Math.sin(index / 5),
      index => (index > 50 ? 60 : 0),
      index => index,
      index => -3 * index,
      index => (index % 13 === 0 ? 400 : 0),
    )
    fc.assert(
      fc.property(long, shapes, fc.constantFrom(0.5, 0.95, 0.9999), (noise, shape, confidence) => {
        const days = noise.map((_, index) => index)
        const masses = noise.map((value, index) => value + shape(index))
        const slopes = days
          .flatMap(later => days.slice(0, later).map(day => (masses[later]! - masses[day]!) / (later - day)))
          .sort((one, other) => one - other)
        const at = (rank: number) => {
          const [low, high] = [slopes[Math.floor(rank) - 1]!, slopes[Math.ceil(rank) - 1]!]
          return low + (rank - Math.floor(rank)) * (high - low)
        }
        const line = theilSen(days, masses, confidence)
        const { s, variance } = mannKendall(masses)
        const halfWidth = twoSidedZ(confidence) * Math.sqrt(variance)
        expect(line?.s).toBe(s)
        expect([...(line?.tieSizes ?? [])].sort()).toEqual(tieSizes(masses).sort())
        expect(line?.slope).toBeCloseTo(at((slopes.length + 1) / 2), 10)
        expect(line?.limits?.low).toBeCloseTo(at((slopes.length - halfWidth) / 2), 10)
        expect(line?.limits?.high).toBeCloseTo(at((slopes.length + halfWidth) / 2 + 1), 10)
      }),
      { numRuns: 150 },
    )
  })
})
