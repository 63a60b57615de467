import { describe, expect, it } from 'vitest'
import { readEnclosureCase } from '../../src/enclosure/read-input.ts'
import { realEnclosure } from './real.ts'

const faults = (input: unknown): string[] => {
  const read = readEnclosureCase(realEnclosure(), input)
  return read.ok ? [] : read.faults.map(({ field, value, accepted }) => `${field}: ${value}; ${accepted}`)
}

describe('bad input gets a sentence with field, value and what is accepted', () => {
  it.each([
    [{ answers: { 'warm-spot': 300 } }, 'answers.warm-spot: 300; from 0 to 70 celsius'],
    [{ answers: { 'warm-spot': 'hot' } }, 'answers.warm-spot: hot; a number of celsius'],
    [{ answers: { 'warm-spot': ['hot'] } }, 'answers.warm-spot: ["hot"]; a number, or not-known-yet'],
    [
      { answers: { 'warm-spot': { amount: 90, unit: 'percent' } } },
      'answers.warm-spot.unit: percent; a unit of celsius',
    ],
    [
      { answers: { 'warm-spot': { amount: 30, instrument: 'thumb' } } },
      /^answers\.warm-spot\.instrument: thumb; one of probe, infrared/,
    ],
    [
      { answers: { company: 'a-cat' } },
      'answers.company: a-cat; one of alone, with-others, another-ill, or not-known-yet',
    ],
    [{ answers: { 'heat-source': ['heat-mat', 'fire'] } }, /^answers\.heat-source: fire; a list of heat-mat/],
    [{ answers: { 'heat-source': 3 } }, /^answers\.heat-source: 3; a list of heat-mat/],
    [{ answers: { 'last-change': 'yesterday' } }, /^answers\.last-change: yesterday; \{ "began"/],
    [{ answers: { roof: 1 } }, /^answers\.roof: 1; an item: warm-spot/],
    [
      { feeding: { week: [{ feeder: 'peas', count: 1, eachGrams: 1 }] } },
      /^feeding\.week\.0\.feeder: peas; one of house-cricket-adult/,
    ],
    [
      { feeding: { week: [{ feeder: 'mealworm', count: 0, eachGrams: 1 }] } },
      'feeding.week.0.count: 0; more than 0',
    ],
    [{ logger: { place: 'roof' } }, /^logger\.place: roof; one of at-warm-spot/],
    [{ anser: {} }, 'file: anser; only the fields of the published schema'],
    ['nothing', 'file: nothing; object'],
  ])('%j', (input, fault) => {
    const found = faults(input)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(fault)
  })

  it('all faults at once', () => {
    expect(faults({ answers: { 'warm-spot': 300, company: 'a-cat', roof: 1 } })).toHaveLength(3)
  })
})

it('reads °F and inches into the unit of the item', () => {
  const read = readEnclosureCase(realEnclosure(), {
    answers: {
      'warm-spot': { amount: 95, unit: 'fahrenheit', instrument: 'infrared' },
      'floor-length': { amount: 36, unit: 'inches' },
    },
  })
  expect(read.ok && [...read.value.answers.values()]).toEqual([
    { kind: 'amount', amount: 35, instrument: 'infrared' },
    { kind: 'amount', amount: 91.44 },
  ])
})

it('takes an empty file', () => {
  expect(faults({})).toEqual([])
})
