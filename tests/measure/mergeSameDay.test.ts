import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { WeighIn } from '../../shared/case-file.ts'
import { mergeSameDay as merge, timedWeighIns } from '../../src/measure/mergeSameDay.ts'

const mergeSameDay = (weighIns: WeighIn[], zone: string, step: number, cuts: number[] = []) =>
  merge(timedWeighIns(weighIns, step), zone, cuts)

const morning = (...masses: number[]) =>
  masses.map((massGrams, index) => ({ at: `2026-01-10T08:0${index}:00Z`, massGrams, scaleStepGrams: 0.1 }))
const massOf = (...masses: number[]) =>
  mergeSameDay(morning(...masses), 'UTC', 1).map(({ massGrams }) => massGrams)

describe('weighings of one day', () => {
  it('become one reading', () => {
    expect(mergeSameDay(morning(60, 60.2), 'UTC', 1)).toEqual([
      {
        at: '2026-01-10T08:01:00Z',
        atMilliseconds: Date.parse('2026-01-10T08:01:00Z'),
        massGrams: 60.2,
        scaleStepGrams: 0.1,
        weighings: 2,
        spreadGrams: expect.closeTo(0.2, 10),
      },
    ])
  })

  it('take the second weighing for the first, in either direction', () => {
    expect(massOf(52, 60)).toEqual([60])
    expect(massOf(60, 52)).toEqual([52])
  })

  it('do not let one high weighing undo two low ones, nor two high ones hide a last low one', () => {
    expect(massOf(52, 52, 60)).toEqual([52])
    expect(massOf(60, 60, 52)).toEqual([52])
    expect(massOf(52, 60, 60)).toEqual([60])
  })

  it('are put in order of time first', () => {
    expect(mergeSameDay(morning(60, 61).reverse(), 'UTC', 1)[0]?.massGrams).toBe(61)
  })

  it('belong to the day of the zone', () => {
    const late = [
      { at: '2026-01-10T22:30:00Z', massGrams: 60 },
      { at: '2026-01-10T23:30:00Z', massGrams: 59 },
    ]
    expect(mergeSameDay(late, 'UTC', 1)).toHaveLength(1)
    expect(mergeSameDay(late, 'Europe/Berlin', 1)).toHaveLength(2)
  })

  it('stay apart when something happened in between', () => {
    const laid = Date.parse('2026-01-10T08:00:30Z')
    expect(mergeSameDay(morning(60, 51), 'UTC', 1, [laid]).map(({ massGrams }) => massGrams)).toEqual([
      60, 51,
    ])
  })

  it('take the coarsest scale step, and the default where none is stated', () => {
    const mixed = [
      { at: '2026-01-10T08:00:00Z', massGrams: 60, scaleStepGrams: 0.1 },
      { at: '2026-01-10T09:00:00Z', massGrams: 60 },
    ]
    expect(mergeSameDay(mixed, 'UTC', 1)[0]?.scaleStepGrams).toBe(1)
  })

  it('refuse a weight that is none, naming the field', () => {
    expect(() => mergeSameDay(morning(60, 0), 'UTC', 1)).toThrow('weighIns.1.massGrams: 0')
  })

  it('are never above the last weighing, and are one of those taken', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 120 }), { minLength: 1, maxLength: 9 }), masses => {
        const [reading] = massOf(...masses)
        expect(reading).toBeLessThanOrEqual(masses.at(-1)!)
        expect(masses).toContain(reading)
      }),
    )
  })
})
