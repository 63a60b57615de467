import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { median, medianOfThree, roundTo } from '../../src/measure/numbers.ts'
import { select } from '../../src/measure/select.ts'

describe('order statistics', () => {
  it('select the value that sorting would put there, and part the rest around it', () => {
    const lists = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 60 })
    fc.assert(
      fc.property(lists, fc.nat(), (list, draw) => {
        const rank = draw % list.length
        const values = new Float64Array(list)
        const sorted = [...list].sort((one, other) => one - other)
        expect(select(values, rank)).toBe(sorted[rank])
        expect(Math.max(...values.slice(0, rank + 1))).toBe(sorted[rank])
        expect(Math.min(...values.slice(rank))).toBe(sorted[rank])
        expect([...values].sort((one, other) => one - other)).toEqual(sorted)
      }),
    )
  })

  it('take the mean of the two middle values of an even number', () => {
    expect(median([4, 1, 3])).toBe(3)
    expect(median([4, 1, 3, 2])).toBe(2.5)
    expect(median([])).toBeNaN()
    expect(medianOfThree(60, 52, 61)).toBe(60)
    expect(medianOfThree(61, 60, 52)).toBe(60)
  })

  it('round to places', () => {
    expect(roundTo(13.2649, 1)).toBe(13.3)
    expect(roundTo(-2.5321, 2)).toBe(-2.53)
  })
})
