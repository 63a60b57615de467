import { describe, expect, test } from 'vitest'
import type { AnimalRecord, KeptAnimal } from '../../shared/record.ts'
import { checkAnimal, checkEvent, checkReading, checkWeighIn } from '../../src/records/check-input.ts'
import { instantOf } from './entries.ts'

const NOW = instantOf(60)
const dune = (animal: Partial<KeptAnimal> = {}, weighIns: AnimalRecord['weighIns'] = []): AnimalRecord => ({
  animalId: 'dune',
  animal: { name: 'Dune', ...animal },
  weighIns,
  events: [],
  readings: [],
  assessments: [],
})
const at = (minute: number) => ({ at: instantOf(minute), massGrams: 60 })

describe('a weigh-in', () => {
  test('of an everyday weight at a past time has nothing wrong', () => {
    expect(checkWeighIn(at(30), dune(), NOW)).toEqual({ faults: [], needsConfirm: [] })
  })

  test.each([0, -5, 6000, Number.NaN, Number.POSITIVE_INFINITY])('of %d g is refused', massGrams => {
    expect(checkWeighIn({ ...at(30), massGrams }, dune(), NOW).faults).toMatchObject([
      { field: 'massGrams', accepted: 'a weight above 0 g and up to 500 g' },
    ])
  })

  test('in the future is refused, with the time that was given', () => {
    expect(checkWeighIn(at(90), dune(), NOW).faults).toEqual([
      { field: 'at', value: instantOf(90), accepted: 'a time that is not in the future' },
    ])
  })

  test('a minute ahead is two clocks that differ, not the future', () => {
    expect(checkWeighIn(at(61), dune(), NOW).faults).toEqual([])
  })

  test('before hatching is refused where the hatch date is sure, and asked about where it is not', () => {
    const hatchedOn = '2026-11-03'
    expect(checkWeighIn(at(30), dune({ hatchedOn }), '2026-11-25T00:00:00Z')).toEqual({
      faults: [{ field: 'at', value: instantOf(30), accepted: 'a time after it hatched on 2026-11-03' }],
      needsConfirm: [],
    })
    expect(
      checkWeighIn(at(30), dune({ hatchedOn, hatchedCertainty: 'likely' }), '2026-11-25T00:00:00Z'),
    ).toEqual({ faults: [], needsConfirm: [{ kind: 'before-hatching', hatchedOn }] })
  })

  test('on the day it hatched is taken in every time zone', () => {
    const animal = dune({ hatchedOn: '2026-11-03' })
    const weighIn = { at: '2026-11-03T01:00:00+14:00', massGrams: 3 }
    expect(checkWeighIn(weighIn, animal, '2026-11-25T00:00:00Z').faults).toEqual([])
  })

  test('a minute from another needs a second look, and not from itself when it is changed', () => {
    const other = { ...at(30), itemId: 'one' }
    expect(checkWeighIn(at(31), dune({}, [other]), NOW)).toEqual({
      faults: [],
      needsConfirm: [{ kind: 'close-in-time', other }],
    })
    expect(checkWeighIn(at(33), dune({}, [other]), NOW).needsConfirm).toEqual([])
    expect(checkWeighIn(at(31), dune({}, [other]), NOW, 'one').needsConfirm).toEqual([])
  })

  test('every fault is named at once', () => {
    const { faults } = checkWeighIn({ at: instantOf(90), massGrams: 0, scaleStepGrams: 0 }, dune(), NOW)
    expect(faults.map(({ field }) => field)).toEqual(['massGrams', 'scaleStepGrams', 'at'])
  })
})

test('more eaten than offered is refused', () => {
  const meal = { at: instantOf(1), kind: 'meal' as const, offered: 5, eaten: 6 }
  expect(checkEvent(meal, { name: 'Dune' }, NOW).faults).toEqual([
    { field: 'eaten', value: '6', accepted: 'up to the 5 that were offered' },
  ])
  expect(checkEvent({ ...meal, eaten: 5 }, { name: 'Dune' }, NOW).faults).toEqual([])
})

test('a reading that is no number, or lies ahead, is refused', () => {
  const reading = { at: instantOf(90), what: 'surface', value: Number.NaN, unit: 'celsius' }
  expect(checkReading(reading, NOW).faults.map(({ field }) => field)).toEqual(['at', 'value'])
})

test.each([
  [{ name: ' ' }, ['name']],
  [{ name: 'Dune', hatchedOn: '2027-01-01' }, ['hatchedOn']],
  [{ name: 'Dune', hatchedOn: 'spring' }, ['hatchedOn']],
  [{ name: 'Dune', hatchedOn: '2026-11-01' }, []],
])('of the animal %j the faults are %j', (animal, fields) => {
  expect(checkAnimal(animal, NOW).faults.map(({ field }) => field)).toEqual(fields)
})
