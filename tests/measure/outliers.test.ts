import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mergeSameDay, timedWeighIns } from '../../src/measure/mergeSameDay.ts'
import { hampelLimit, markOutliers } from '../../src/measure/outliers.ts'
import { day, policy, weekly } from './fixtures/record.ts'

const marked = (masses: readonly number[], lastIsNewest = true) => {
  const readings = mergeSameDay(timedWeighIns(weekly(masses), 1), 'UTC')
  return masses.filter((_, index) => markOutliers(readings, lastIsNewest, policy)[index])
}

describe('marking outliers', () => {
  it('has the limits of the NIST uranium isotopes: median 201.37, scaled deviation 1.475187', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.
    const isotopes = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    const { middle, limit } = hampelLimit(isotopes, 3)
    expect(middle).toBeCloseTo(201.37, 10)
    expect(limit / 3).toBeCloseTo(1.475187, 6)
    expect(isotopes.filter(value => Math.abs(value - middle) > limit)).toEqual([245.57])
  })

  it('marks one odd reading that its neighbours do not confirm', () => {
    expect(marked([60, 61, 60, 52, 60.5, 60, 61])).toEqual([52])
    expect(marked([60, 61, 60, 85, 60.5, 60, 61])).toEqual([85])
  })

  it('never marks the newest reading, however low', () => {
    expect(marked([60, 61, 60, 60.5, 52])).toEqual([])
    expect(marked([60, 61, 60, 60.5, 52], false)).toEqual([52])
  })

  it('does not mark a low reading that the next one confirms', () => {
    expect(marked([60, 61, 60, 60.5, 52, 51.5])).toEqual([])
  })

  it('does not mark a wobble within the noise, even among equal readings', () => {
    expect(marked([60, 60, 60, 61, 60, 60, 60])).toEqual([])
  })

  it('marks nothing among too few readings, nor across a long gap', () => {
    expect(marked([60, 52, 60])).toEqual([])
    const quarterly = [60, 52, 60, 61, 60].map((massGrams, index) => ({ at: day(90 * index), massGrams }))
    const far = mergeSameDay(timedWeighIns(quarterly, 1), 'UTC')
    expect(markOutliers(far, true, policy)).not.toContain(true)
  })

  it('marks, and deletes nothing', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 2, max: 120 }), { minLength: 1, maxLength: 30 }), masses => {
        const marks = markOutliers(mergeSameDay(timedWeighIns(weekly(masses), 1), 'UTC'), true, policy)
        expect(marks).toHaveLength(masses.length)
        expect(marks.at(-1)).toBe(false)
      }),
    )
  })
})
