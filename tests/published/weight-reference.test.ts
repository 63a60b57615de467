import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import * as z from 'zod/mini'
import { exactKendallUpperTail, mannKendall, tieSizes } from '../../src/measure/mannKendall.ts'
import { normalUpperQuantile, normalUpperTail } from '../../src/measure/normal.ts'
import { hampelLimit } from '../../src/measure/outliers.ts'
import { theilSen } from '../../src/measure/theilSen.ts'

// Our figures against those of R 4.2.2 and SciPy 1.10.1 on real series of weights: chicks, rats and a record of weight
// loss. tests/records/weight-reference holds the values and the two scripts that made them; `npm run verify:reference`
// makes them again.

const fromR = z.object({
  slope: z.number(),
  intercept: z.number(),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  s: z.number(),
  variance: z.number(),
  z: z.number(),
  p: z.number(),
  exactP: z.nullable(z.number()),
})
const fromSciPy = z.object({
  slope: z.number(),
  intercept: z.number(),
  low: z.number(),
  high: z.number(),
  exactP: z.nullable(z.number()),
})
const measures = <Measure extends z.ZodMiniType>(measure: Measure) => ({
  onMass: measure,
  onLogarithm: measure,
  firstEight: measure,
})
const record = z
  .object({
    r: z.object({
      series: z.array(
        z.object({
          name: z.string(),
          times: z.array(z.number()),
          masses: z.array(z.number()),
          ...measures(fromR),
        }),
      ),
    }),
    scipy: z.object({
      series: z.array(z.object({ median: z.number(), scaledDeviation: z.number(), ...measures(fromSciPy) })),
      normalTails: z.array(z.object({ z: z.number(), upper: z.number() })),
      normalQuantiles: z.array(z.object({ z: z.number(), upper: z.number() })),
    }),
  })
  .parse(
    JSON.parse(
      readFileSync(
        fileURLToPath(new URL('../records/weight-reference/reference.json', import.meta.url)),
        'utf8',
      ),
    ),
  )

const cases = record.r.series.flatMap((one, index) => {
  const other = record.scipy.series[index]!
  const { times, masses } = one
  const part = (what: string, on: readonly number[], key: 'onMass' | 'onLogarithm' | 'firstEight') => ({
    name: `${one.name}, ${what}`,
    times: times.slice(0, on.length),
    values: on,
    r: one[key],
    scipy: other[key],
  })
  return [
    part('grams', masses, 'onMass'),
    part('logarithm', masses.map(Math.log), 'onLogarithm'),
    part('first eight', masses.slice(0, 8), 'firstEight'),
  ]
})

/** R prints 15 digits. */
function near(value: number | undefined, expected: number, relative = 1e-11): void {
  expect(Math.abs((value ?? Number.NaN) - expected)).toBeLessThanOrEqual(
    relative * Math.max(Math.abs(expected), 1e-3),
  )
}

describe('real series of weights', () => {
  it('are 27: ten chicks, sixteen rats and one record of weight loss', () => {
    expect(record.r.series).toHaveLength(27)
    expect(cases.every(({ times, values }) => times.length === values.length && times.length >= 8)).toBe(true)
  })

  it.each(cases)('$name: slope and intercept as in R and SciPy', ({ times, values, r, scipy }) => {
    const line = theilSen(times, values, 0.95)
    near(line?.slope, r.slope)
    near(line?.intercept, r.intercept)
    near(line?.slope, scipy.slope)
    near(line?.intercept, scipy.intercept)
  })

  it.each(cases)('$name: limits as in R, and next to those of SciPy', ({ times, values, r, scipy }) => {
    const limits = theilSen(times, values, 0.95)?.limits
    const sorted = slopesOf(times, values)
    // SciPy rounds the rank to a whole number; ours lies between the two slopes on either side, so one of them is SciPy's.
    const around = (value: number) => {
      const above = sorted.findIndex(slope => slope >= value - 1e-12 * Math.abs(value))
      return sorted.slice(Math.max(0, above - 1), above + 2)
    }
    if (values.length >= 10) {
      near(limits?.low, r.low ?? Number.NaN)
      near(limits?.high, r.high ?? Number.NaN)
    } else {
      // Under ten values ours are rounded outward, so they hold those of R.
      expect(limits?.low).toBeLessThanOrEqual((r.low ?? Number.NaN) + 1e-12)
      expect(limits?.high).toBeGreaterThanOrEqual((r.high ?? Number.NaN) - 1e-12)
    }
    for (const [ours, theirs] of [
      [limits?.low, scipy.low],
      [limits?.high, scipy.high],
    ] as const)
      expect(around(ours ?? Number.NaN).some(slope => Math.abs(slope - theirs) < 1e-9)).toBe(true)
  })

  it.each(cases)('$name: S, its variance and Z as in R', ({ values, r }) => {
    const test = mannKendall(values)
    expect(test.s).toBe(r.s)
    near(test.variance, r.variance)
    near(test.z, r.z)
    if (!test.exact) near(test.twoSidedProbability, r.p, 1e-9)
  })

  it('exact probabilities are those of R and SciPy wherever no two weights are equal', () => {
    const untied = cases.filter(({ r, values }) => r.exactP !== null && values.length <= 18)
    expect(untied.length).toBeGreaterThan(20)
    for (const { values, r, scipy } of untied) {
      const upper = exactKendallUpperTail(Math.abs(r.s), tieSizes(values))
      near(Math.min(1, 2 * upper), r.exactP ?? Number.NaN, 1e-9)
      near(Math.min(1, 2 * upper), scipy.exactP ?? Number.NaN, 1e-9)
    }
  })

  it('have the median and the scaled median deviation of SciPy', () => {
    record.r.series.forEach(({ masses }, index) => {
      const { median, scaledDeviation } = record.scipy.series[index]!
      const { middle, limit } = hampelLimit(masses, 3)
      near(middle, median)
      near(limit, 3 * scaledDeviation)
    })
  })
})

describe('the normal distribution', () => {
  it.each(record.scipy.normalTails)('exceeds $z with the probability SciPy gives', ({ z: value, upper }) => {
    near(normalUpperTail(value) / upper, 1, 1e-12)
  })

  it.each(record.scipy.normalQuantiles)('is exceeded with $upper where SciPy says', ({ z: value, upper }) => {
    near(normalUpperQuantile(upper), value, 1e-12)
  })
})

function slopesOf(times: readonly number[], values: readonly number[]): number[] {
  return times
    .flatMap((time, later) =>
      times
        .slice(0, later)
        .flatMap((before, earlier) =>
          before === time ? [] : [((values[later] ?? 0) - (values[earlier] ?? 0)) / (time - before)],
        ),
    )
    .sort((one, other) => one - other)
}
