import { ucum } from '@atomic-ehr/ucum'
import { describe, expect, it, test } from 'vitest'
import { celsiusFromFahrenheit, centimetresFromInches, inItemUnit } from '../../src/enclosure/units.ts'

describe('units', () => {
  // UCUM: [degF] = degf(5 K/9), so 32 °F is 0 °C and 212 °F is 100 °C. The others follow by C = (F - 32) / 1.8.
  test.each([
    [32, 0],
    [212, 100],
    [65, 18.3333],
    [75, 23.8889],
    [88, 31.1111],
    [92, 33.3333],
    [95, 35],
    [100, 37.7778],
    [-40, -40],
  ])('%d °F is %d °C', (fahrenheit, celsius) => {
    expect(celsiusFromFahrenheit(fahrenheit)).toBeCloseTo(celsius, 4)
  })

  it('an inch is 2.54 cm exactly (UCUM [in_i])', () => {
    expect(centimetresFromInches(100)).toBe(254)
  })

  // A library of the Unified Code for Units of Measure (UCUM) that others wrote.
  test.each([-40, 0, 65, 72.5, 92, 97, 104])('%d °F and as many inches are what UCUM says', amount => {
    expect(celsiusFromFahrenheit(amount)).toBeCloseTo(ucum.convert(amount, '[degF]', 'Cel'), 9)
    expect(centimetresFromInches(amount)).toBeCloseTo(ucum.convert(amount, '[in_i]', 'cm'), 9)
  })

  it('refuses a unit of another kind', () => {
    expect(inItemUnit(20, 'percent', 'celsius')).toBeUndefined()
  })
})
