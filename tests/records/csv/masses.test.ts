import { describe, expect, test } from 'vitest'
import { GRAMS_IN, partMass, readGrams } from '../../../src/records/csv/masses.ts'

describe('grams in a unit', () => {
  // Recorded from the UCUM library of the US National Library of Medicine, @lhncbc/ucum-lhc 7.1.10:
  // convertUnitTo(code, 1, 'g').toVal for kg, [lb_av] and [oz_av].
  test.each([
    ['kg', 1000],
    ['lb', 453.59237],
    ['oz', 28.349523125],
  ] as const)('%s as UCUM has it', (unit, grams) => {
    expect(GRAMS_IN[unit]).toBe(grams)
  })

  // Recorded from SciPy 1.17.1, scipy.constants.pound and .oz, in kilograms (it multiplies up from the grain).
  test.each([
    ['lb', 0.45359236999999997],
    ['oz', 0.028349523124999998],
  ] as const)('%s as SciPy has it', (unit, kilograms) => {
    expect(GRAMS_IN[unit] / 1000).toBeCloseTo(kilograms, 15)
  })
})

test.each([
  ['52.5', '52.5', undefined],
  ['52,5 g', '52,5', 'g'],
  ['1.85oz', '1.85', 'oz'],
  ['0.12 Lbs.', '0.12', 'lb'],
  ['0,05 kg', '0,05', 'kg'],
])('%j is %j in %j', (text, number, unit) => {
  expect(partMass(text, 'weight')).toEqual({ ok: true, value: { number, unit } })
})

test('what stands behind a number and is no unit is refused', () => {
  expect(partMass('52 stone', 'row 2, weight')).toEqual({
    ok: false,
    faults: [
      {
        field: 'row 2, weight',
        value: '52 stone',
        accepted: 'a number, and behind it nothing or g, kg, oz, lb',
      },
    ],
  })
})

test.each([
  ['2', 'oz', 56.699],
  ['0.0605', 'kg', 60.5],
  ['0,125', 'lb', 56.699],
  ['52.12345', 'g', 52.12345],
] as const)('%s %s are %d g', (number, unit, grams) => {
  expect(readGrams(number, unit, 'weight', undefined)).toEqual({ ok: true, value: grams })
})

test.each([
  ['0', 'g'],
  ['-5', 'g'],
  ['6000', 'g'],
  ['60', 'oz'],
  ['60', 'kg'],
  ['0.000001', 'oz'],
] as const)('%s %s are refused with what is accepted', (number, unit) => {
  expect(readGrams(number, unit, 'weight', undefined)).toMatchObject({
    ok: false,
    faults: [{ field: 'weight', accepted: 'a weight above 0 g and up to 500 g' }],
  })
})
