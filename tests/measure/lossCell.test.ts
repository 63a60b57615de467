import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareWeights, type LossStep } from '../../src/measure/compareWeights.ts'
import { lossCell } from '../../src/measure/lossCell.ts'
import { day, grid, on, policy, weighed } from './fixtures/record.ts'

const some = compareWeights(weighed({ 0: 60, 7: 60 }), [], policy, on(7))

function cellOf(lossPercent: number, overDays: number): string | undefined {
  const loss: LossStep = {
    referenceGrams: 100,
    referenceAt: day(0),
    basis: 'medianOfThree',
    lossGrams: lossPercent,
    lossPercent,
    overDays,
  }
  return lossCell({ ...some, losses: [loss] }, grid)
}

describe('the grid of percent lost against days', () => {
  it.each([
    [14, 7, 'tenth-in-two-weeks'],
    [10, 14, 'tenth-in-two-weeks'],
    [12, 30, 'tenth'],
    [20, 200, 'fifth'],
    [5, 30, 'twentieth'],
    [4.9, 1, 'none'],
  ])('puts %d %% in %d days into %s', (percent, days, cell) => {
    expect(cellOf(percent, days)).toBe(cell)
  })

  it('takes the stricter between two cells: part of a day is not counted, percent are as shown', () => {
    expect(cellOf(10, 14.9)).toBe('tenth-in-two-weeks')
    expect(cellOf(10, 15)).toBe('tenth')
    expect(cellOf(9.96, 10)).toBe('tenth-in-two-weeks')
    expect(cellOf(9.94, 10)).toBe('twentieth')
  })

  it('never gives a milder cell to a larger loss in fewer days', () => {
    const index = (cell: string | undefined) => grid.findIndex(({ id }) => id === cell)
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 365, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (percent, more, days, part) => {
          expect(index(cellOf(percent + more, days * part))).toBeLessThanOrEqual(index(cellOf(percent, days)))
        },
      ),
    )
  })

  it('refuses a grid whose last cell does not take everything, such as one listed from mildest to worst', () => {
    expect(() => lossCell(some, [...grid].reverse())).toThrow('the last cell must take every loss')
    expect(() => lossCell(some, [])).toThrow(RangeError)
  })
})
