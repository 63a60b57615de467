import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  exactKendallUpperTail,
  kendallVariance,
  mannKendall,
  tieSizes,
} from '../../src/measure/mannKendall.ts'

// Gilbert 1987, Statistical Methods for Environmental Pollution Monitoring, p. 212.
const gilbert = [20, 20, 20, 20, 15, 20, 20, 30, 27, 26, 23, 35, 25, 28, 70, 26, 24, 34, 32, 23, 50, 30]

function sOf(values: readonly number[]): number {
  let s = 0
  values.forEach((later, j) => {
    for (const earlier of values.slice(0, j)) s += Math.sign(later - earlier)
  })
  return s
}

/** How often each S occurs among all orders of the values: the definition, by brute force. */
function countsByEnumeration(values: readonly number[]): Map<number, number> {
  const counts = new Map<number, number>()
  const walk = (placed: number[], left: readonly number[], s: number) => {
    if (left.length === 0) counts.set(s, (counts.get(s) ?? 0) + 1)
    left.forEach((value, index) => {
      const added = placed.reduce((sum, earlier) => sum + Math.sign(value - earlier), 0)
      walk([...placed, value], [...left.slice(0, index), ...left.slice(index + 1)], s + added)
    })
  }
  walk([], values, 0)
  return counts
}

function tailByEnumeration(
  values: readonly number[],
  s: number,
  counts = countsByEnumeration(values),
): number {
  let reaching = 0
  let all = 0
  for (const [value, count] of counts) {
    all += count
    if (value >= s) reaching += count
  }
  return reaching / all
}

/** Every way of splitting `total` into groups of equal values, largest first. */
function partitions(total: number, largest = total): number[][] {
  if (total === 0) return [[]]
  return Array.from({ length: Math.min(total, largest) }, (_, index) => index + 1).flatMap(size =>
    partitions(total - size, size).map(rest => [size, ...rest]),
  )
}

describe('the Mann-Kendall test', () => {
  it('gives S 111 and Z 3.14 for the 22 values of Gilbert 1987, p. 212', () => {
    const test = mannKendall(gilbert)
    expect(test.s).toBe(111)
    expect(test.variance).toBeCloseTo(1226.3333, 4)
    expect(test.z).toBeCloseTo(3.1411481, 7) // printed as 3.1
    expect(test.twoSidedProbability).toBeCloseTo(0.00168287, 8)
    expect(test.exact).toBe(false)
  })

  it('gives S -5 for the five values of the Wisconsin Administrative Code worked table', () => {
    const test = mannKendall([100, 50, 85, 75, 50])
    expect(test.s).toBe(-5)
    expect(test.variance).toBeCloseTo(15.6667, 4)
    expect(test.z).toBeCloseTo(-1.01058, 5)
  })

  it('gives S 4950 and Z 14.739 for 1 to 100', () => {
    const test = mannKendall(Array.from({ length: 100 }, (_, index) => index + 1))
    expect([test.s, test.variance]).toEqual([4950, 112750])
    expect(test.z).toBeCloseTo(14.738699982, 9)
  })

  it('gives S 46 and Z 3.51 for rat 1 of the BodyWeight series (R package nlme, computed in R 4.2.2)', () => {
    const test = mannKendall([240, 250, 255, 260, 262, 258, 266, 266, 265, 272, 278])
    expect([test.s, test.variance]).toEqual([46, 164])
    expect(test.z).toBeCloseTo(3.513909642, 9)
    expect(test.twoSidedProbability).toBeCloseTo(0.000441563, 9)
  })

  // Exact one-sided P(S >= s) without ties, by enumeration; they agree with the 20 % limits that the
  // Wisconsin Administrative Code prints for n = 4 to 10.
  it.each([
    [4, { 6: 0.04167, 4: 0.16667 }],
    [5, { 10: 0.00833, 8: 0.04167, 6: 0.11667, 4: 0.24167 }],
    [6, { 15: 0.00139, 13: 0.00833, 11: 0.02778, 9: 0.06806, 7: 0.13611 }],
    [7, { 19: 0.00139, 17: 0.00536, 15: 0.01508, 13: 0.03452, 11: 0.06806, 9: 0.11944, 7: 0.19067 }],
    [
      8,
      {
        22: 0.00275,
        20: 0.00707,
        18: 0.01558,
        16: 0.03051,
        14: 0.05434,
        12: 0.08943,
        10: 0.13755,
        8: 0.19938,
      },
    ],
    [9, { 24: 0.00633, 22: 0.01237, 20: 0.02231, 18: 0.03759, 16: 0.05972, 14: 0.09009, 12: 0.12976 }],
    [10, { 27: 0.00833, 25: 0.0143, 23: 0.02331, 21: 0.03628, 19: 0.05416, 17: 0.07787, 15: 0.10819 }],
  ])('gives the exact probabilities of %i untied values', (count, table) => {
    const sizes = Array.from({ length: count }, () => 1)
    for (const [s, probability] of Object.entries(table)) {
      expect(exactKendallUpperTail(Number(s), sizes)).toBeCloseTo(probability, 5)
    }
  })

  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'counts ties as tied: all orders of %i values, for every pattern of ties',
    count => {
      for (const sizes of partitions(count)) {
        const values = sizes.flatMap((size, value) => Array.from({ length: size }, () => value))
        const counts = countsByEnumeration(values)
        for (let s = -30; s <= 30; s++) {
          expect(exactKendallUpperTail(s, sizes)).toBeCloseTo(tailByEnumeration(values, s, counts), 12)
        }
      }
    },
  )

  it('takes the variance from the same orders: the formula with ties equals the mean square of S', () => {
    for (const sizes of partitions(6)) {
      const values = sizes.flatMap((size, value) => Array.from({ length: size }, () => value))
      let square = 0
      let all = 0
      for (const [s, count] of countsByEnumeration(values)) {
        square += s * s * count
        all += count
      }
      expect(kendallVariance(sizes)).toBeCloseTo(square / all, 10)
    }
  })

  it('is exact under ten values and the normal approximation from ten on', () => {
    expect(mannKendall([1, 2, 3, 4, 5, 6, 7, 8, 9]).exact).toBe(true)
    expect(mannKendall([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).exact).toBe(false)
  })

  it('says nothing about equal values or a single one', () => {
    expect(mannKendall([60, 60, 60]).twoSidedProbability).toBe(1)
    expect(mannKendall([60])).toMatchObject({ s: 0, z: 0, downProbability: 1, upProbability: 1 })
  })

  it('calls a run of three never a trend at one-sided 5 %, and of four only a perfect one', () => {
    expect(mannKendall([3, 2, 1]).downProbability).toBeCloseTo(1 / 6, 12)
    expect(mannKendall([4, 3, 2, 1]).downProbability).toBeCloseTo(1 / 24, 12)
    expect(mannKendall([4, 3, 1, 2]).downProbability).toBeGreaterThan(0.05)
  })

  it('turns up into down when the order is turned, and its S is the sum of all signs', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 14 }), values => {
        const forward = mannKendall(values)
        const backward = mannKendall([...values].reverse())
        expect(forward.s).toBe(sOf(values))
        expect(backward.s + forward.s).toBe(0)
        expect(backward.upProbability).toBeCloseTo(forward.downProbability, 12)
      }),
    )
  })

  it('finds the sizes of the groups of equal values', () => {
    expect(tieSizes([50, 75, 50, 100])).toEqual([2, 1, 1])
  })
})
