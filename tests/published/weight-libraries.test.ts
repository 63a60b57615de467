import fc from 'fast-check'
import { TheilSenRegression } from 'ml-regression-theil-sen'
import { linearRegression, mad, median, sampleCorrelation } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { scalingOf } from '../../src/measure/massIndex.ts'
import { median as ourMedian } from '../../src/measure/numbers.ts'
import { hampelLimit } from '../../src/measure/outliers.ts'
import { interceptOfMedians, theilSen } from '../../src/measure/theilSen.ts'

// Our figures against two libraries that others wrote, on random data.

const weights = fc.integer({ min: 200, max: 900 }).map(tenths => tenths / 10)
const series = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 400 }), weights), {
    minLength: 2,
    maxLength: 40,
    selector: ([day]) => day,
  })
  .map(points => points.sort(([one], [other]) => one - other))

describe('ml-regression-theil-sen', () => {
  it('finds the same slope and intercept for any series of weights with one middle slope and one middle residual', () => {
    fc.assert(
      fc.property(series, points => {
        // Of an even number the library takes the lower middle value and not the mean of both, so only lengths
        // of 3, 7, 11 and so on compare: they have an odd number of pairs and of residuals.
        const whole = points.slice(0, points.length - ((points.length + 1) % 4))
        fc.pre(whole.length >= 3)
        const days = whole.map(([day]) => day)
        const grams = whole.map(([, mass]) => mass)
        const theirs = new TheilSenRegression(days, grams)
        const ours = theilSen(days, grams, 0.95)
        expect(ours?.slope).toBeCloseTo(theirs.slope, 10)
        expect(ours?.intercept).toBeCloseTo(theirs.intercept, 8)
      }),
      { numRuns: 300 },
    )
  })

  it('takes the lower of two middle slopes where we take their mean', () => {
    const days = [0, 1, 2, 3]
    const grams = [20, 20, 20, 20.1]
    expect(new TheilSenRegression(days, grams).slope).toBe(0)
    expect(theilSen(days, grams, 0.95)?.slope).toBeCloseTo(0.1 / 3 / 2, 12)
  })

  it('gives slope 4 and intercept 6 for the example of Sen 1968, as we do', () => {
    const times = [1, 2, 3, 4, 10, 12, 18]
    const values = [9, 15, 19, 20, 45, 55, 78]
    const { slope, intercept } = new TheilSenRegression(times, values)
    expect([slope, intercept]).toEqual([4, 6])
    expect(theilSen(times, values, 0.93)).toMatchObject({ slope, intercept })
    expect(interceptOfMedians(times, values, slope)).toBe(4)
  })
})

describe('simple-statistics', () => {
  const list = fc.array(weights, { minLength: 1, maxLength: 60 })

  it('finds the same median and, times 1.4826, the same deviation of an outlier limit', () => {
    fc.assert(
      fc.property(list, values => {
        expect(ourMedian(values)).toBeCloseTo(median(values), 12)
        const { middle, limit } = hampelLimit(values, 3)
        expect(middle).toBeCloseTo(median(values), 12)
        expect(limit).toBeCloseTo(3 * 1.4826 * mad(values), 9)
      }),
    )
  })

  it('finds the same scaling of mass with length: least squares and correlation of the logarithms', () => {
    const animals = fc.array(fc.tuple(weights, fc.integer({ min: 60, max: 150 })), {
      minLength: 3,
      maxLength: 40,
    })
    fc.assert(
      fc.property(animals, pairs => {
        const masses = pairs.map(([mass]) => mass)
        const lengths = pairs.map(([, length]) => length)
        fc.pre(new Set(masses).size > 1 && new Set(lengths).size > 1)
        const logarithms = pairs.map(([mass, length]) => [Math.log(length), Math.log(mass)])
        const scaling = scalingOf(masses, lengths)
        const correlation = sampleCorrelation(lengths.map(Math.log), masses.map(Math.log))
        fc.pre(Math.abs(correlation) > 1e-6)
        expect(scaling?.leastSquaresSlope).toBeCloseTo(linearRegression(logarithms).m, 7)
        expect(scaling?.correlation).toBeCloseTo(correlation, 9)
      }),
    )
  })
})
