import { describe, expect, it } from 'vitest'
import { normalUpperQuantile, normalUpperTail, twoSidedZ } from '../../src/measure/normal.ts'

describe('the normal distribution', () => {
  it('has the tail that R 4.2 pnorm gives for Z = 3.1411481: half of 0.00168287', () => {
    expect(2 * normalUpperTail(3.1411481)).toBeCloseTo(0.00168287, 8)
  })

  it('has a half above 0 and is symmetric', () => {
    expect(normalUpperTail(0)).toBe(0.5)
    expect(normalUpperTail(-1.3)).toBeCloseTo(1 - normalUpperTail(1.3), 15)
  })

  it('changes from the series to the continued fraction without a step', () => {
    expect(normalUpperTail(3 + 1e-9) / normalUpperTail(3 - 1e-9)).toBeCloseTo(1, 7)
    expect(normalUpperTail(3)).toBeCloseTo(0.0013498980316301, 13) // any table of the normal distribution
  })

  it('gives the familiar z of 1.96 for 95 % (NIST e-Handbook 1.3.6.7.1, table of the normal distribution)', () => {
    expect(twoSidedZ(0.95)).toBeCloseTo(1.959963984540054, 12)
    expect(twoSidedZ(0.9)).toBeCloseTo(1.6448536269514722, 12)
  })

  it('inverts itself from the middle far into the tail', () => {
    for (const tail of [0.5, 0.3, 0.05, 1e-3, 1e-6, 1e-12]) {
      expect(normalUpperTail(normalUpperQuantile(tail)) / tail).toBeCloseTo(1, 9)
    }
  })

  it('refuses a tail that is none', () => {
    expect(() => normalUpperQuantile(0)).toThrow('upperTail: 0')
    expect(() => normalUpperQuantile(0.6)).toThrow(RangeError)
  })
})
