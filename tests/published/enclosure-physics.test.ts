import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import {
  dewPointCelsius,
  humidityElsewhere,
  saturationHectopascals,
  wallMarginCelsius,
} from '../../src/enclosure/air.ts'
import { celsiusFromFahrenheit, centimetresFromInches, inItemUnit } from '../../src/enclosure/units.ts'
import { realEnclosure } from '../enclosure/real.ts'

const { air } = realEnclosure()

describe('saturation vapour pressure', () => {
  // Alduchov O, Eskridge R 1996, J Appl Meteorol 35:601-609: 6.1094 hPa, 17.625, 243.04 °C. At 20 °C the manual of the
  // R package ConSciR prints 23.33441 for these coefficients; the other values are computed from them by hand.
  test.each([
    [0, 6.1094],
    [10, 12.2602],
    [20, 23.3344],
    [25, 31.6174],
    [30, 42.3665],
    [32, 47.4862],
    [35, 56.1757],
    [40, 73.7472],
  ])('at %d °C is %d hPa by the Magnus form of 1996', (celsius, hectopascals) => {
    expect(saturationHectopascals(celsius, air)).toBeCloseTo(hectopascals, 4)
  })

  // Handbook table of the vapour pressure of water (20 to 40 °C: 2.3388, 3.1690, 4.2455, 5.6267, 7.3814 kPa); the form
  // is stated to be within 0.3 percent of it.
  test.each([
    [20, 23.388],
    [25, 31.69],
    [30, 42.455],
    [35, 56.267],
    [40, 73.814],
  ])('at %d °C lies within 0.3 percent of the handbook table', (celsius, hectopascals) => {
    expect(Math.abs(saturationHectopascals(celsius, air) / hectopascals - 1)).toBeLessThan(0.003)
  })

  // WMO Guide No. 8 (2008): 6.112, 17.62, 243.12. Another set of coefficients for the same thing.
  test.each([15, 22, 28, 32])('at %d °C lies within 0.1 percent of the WMO form', celsius => {
    const wmo = saturationHectopascals(celsius, { hectopascals: 6.112, factor: 17.62, offsetCelsius: 243.12 })
    expect(Math.abs(saturationHectopascals(celsius, air) / wmo - 1)).toBeLessThan(0.001)
  })
})

// Worked from the inverse of the same form: Td = 243.04 g / (17.625 - g), g = ln(RH/100) + 17.625 T / (243.04 + T).
test.each([
  [20, 40, 5.988],
  [20, 50, 9.261],
  [22, 40, 7.78],
  [25, 30, 6.221],
  [25, 40, 10.465],
  [25, 50, 13.858],
  [28, 40, 13.147],
  [30, 30, 10.54],
  [30, 40, 14.933],
  [32, 30, 12.264],
  [28, 80, 24.226],
  [28, 90, 26.205],
])('air of %d °C and %d percent has its dew point at %d °C', (celsius, percent, dewPoint) => {
  expect(dewPointCelsius(celsius, percent, air)).toBe(dewPoint)
})

// By its meaning: at the dew point the vapour saturates, and half humidity is half the pressure of saturation.
it('is where the vapour that is there saturates', () => {
  const dewPoint = dewPointCelsius(25, 50, air)
  expect(saturationHectopascals(dewPoint, air)).toBeCloseTo(saturationHectopascals(25, air) / 2, 2)
})

// By hand from the handbook table above: 60 * 2.3388 / 4.2455 = 33.05; the form itself gives 33.046.
describe('the same vapour in two places', () => {
  test.each([
    [50, 24, 32, 31.4],
    [40, 24, 32, 25.1],
    [60, 20, 30, 33],
  ])('%d percent at %d °C is, at %d °C, %d percent', (percent, from, to, there) => {
    expect(humidityElsewhere(percent, from, to, air)).toBe(there)
  })

  it('is 100 percent where it would be more, and that place is wet', () => {
    expect(humidityElsewhere(80, 28, 20, air)).toBe(100)
    expect(wallMarginCelsius(20, dewPointCelsius(28, 80, air), air)).toBeLessThan(0)
  })

  it('does not change where the temperature does not', () => {
    expect(humidityElsewhere(43, 25, 25, air)).toBe(43)
  })
})

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

  it('refuses a unit of another kind', () => {
    expect(inItemUnit(20, 'percent', 'celsius')).toBeUndefined()
  })
})

describe('laws of air', () => {
  const warmth = fc.double({ min: 5, max: 45, noNaN: true })
  const damp = fc.double({ min: 1, max: 100, noNaN: true })

  it('the dew point is never above the temperature, and at 100 percent it is the temperature', () => {
    fc.assert(
      fc.property(warmth, damp, (celsius, percent) => {
        expect(dewPointCelsius(celsius, percent, air)).toBeLessThanOrEqual(celsius + 0.001)
        expect(dewPointCelsius(celsius, 100, air)).toBeCloseTo(celsius, 2)
      }),
    )
  })

  it('the same vapour has the same dew point wherever it is not wet', () => {
    fc.assert(
      fc.property(warmth, damp, fc.double({ min: 0, max: 20, noNaN: true }), (celsius, percent, warmer) => {
        const there = humidityElsewhere(percent, celsius, celsius + warmer, air)
        fc.pre(there >= 5)
        // Humidity is rounded to a tenth, which moves a dew point by less than half a degree above 5 percent.
        const apart = dewPointCelsius(celsius + warmer, there, air) - dewPointCelsius(celsius, percent, air)
        expect(Math.abs(apart)).toBeLessThan(0.5)
      }),
    )
  })
})
