import { describe, expect, it } from 'vitest'
import { type ConditionInput, conditionReport } from '../../src/measure/conditionReport.ts'
import { day } from './fixtures/record.ts'

const scale = { exponent: 3, referenceLengthMillimetres: 120 }
const measured = [
  { at: day(60), massGrams: 54, lengthMillimetres: 120 },
  { at: day(0), massGrams: 60, lengthMillimetres: 120 },
  { at: day(30), massGrams: 60, lengthMillimetres: 120 },
]
const report = (input: Partial<ConditionInput>) => conditionReport({ measured, ...input }, scale)

describe('the report on condition', () => {
  it("compares the newest index with the median of the animal's own earlier ones", () => {
    const { indices, againstOwnPast, notCompared } = report({})
    expect(indices.map(({ scaledMassIndexGrams }) => scaledMassIndexGrams)).toEqual([60, 60, 54])
    expect(againstOwnPast).toMatchObject({ massOverLengthPercent: -10, scaledMassIndexPercent: -10 })
    expect(notCompared).toBeUndefined()
  })

  it('says how far a length misread by 3 mm alone moves the scaled index', () => {
    const error = report({ lengthErrorMillimetres: 3 }).againstOwnPast?.lengthErrorPercent
    expect(error?.short).toBeCloseTo(100 * ((120 / 117) ** 3 - 1), 3)
    expect(error?.long).toBeCloseTo(100 * ((120 / 123) ** 3 - 1), 3)
  })

  it('compares nothing with eggs inside', () => {
    const seen = { looks: {}, tail: 'original' as const, gravid: true }
    expect(report({ seen })).toMatchObject({ againstOwnPast: undefined, notCompared: 'gravid' })
  })

  it('compares nothing across a lost tail, and again once there are two of the new tail', () => {
    expect(report({ tailLostAt: day(45) })).toMatchObject({
      againstOwnPast: undefined,
      notCompared: 'tailLostSince',
    })
    expect(report({ tailLostAt: day(70) }).notCompared).toBe('tailLostSince')
    expect(report({ tailLostAt: day(15) }).againstOwnPast?.scaledMassIndexPercent).toBe(-10)
  })

  it('has nothing to compare with one measure or none, and reads the look and the tail alone', () => {
    expect(conditionReport({ measured: [] }, scale)).toMatchObject({
      indices: [],
      againstOwnPast: undefined,
      notCompared: undefined,
    })
    const seen = { looks: { tail: 2 as const }, tail: 'original' as const, gravid: false }
    const alone = conditionReport({ measured: [], seen, tailMillimetres: 9, neckMillimetres: 12 }, scale)
    expect(alone).toMatchObject({ look: { step: 2 }, tailOverNeck: 0.75 })
  })
})
