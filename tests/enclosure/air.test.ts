import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  dewPointCelsius,
  sameAirPercent,
  saturationHectopascal,
  vapourHectopascal,
} from '../../src/enclosure/air.ts'

describe('the pressure of saturated vapour over water', () => {
  // A printed table in kilopascals (20 to 40 °C), and the saturation line of IAPWS-95 (Wagner and Pruss) in
  // hectopascals, computed for this project and anchored at its published 23.39194 hPa for 20 °C.
  it.each([
    [20, 2.3388],
    [25, 3.169],
    [30, 4.2455],
    [35, 5.6267],
    [40, 7.3814],
  ])('at %d °C lies within 0.3 percent of the table: %d kPa', (celsius, kilopascal) => {
    expect(Math.abs(saturationHectopascal(celsius) / (10 * kilopascal) - 1)).toBeLessThan(0.003)
  })

  it.each([
    [0, 6.1121],
    [10, 12.2811],
    [15, 17.0568],
    [20, 23.3919],
    [22, 26.4522],
    [28, 37.8298],
    [32, 47.5956],
    [40, 73.8511],
  ])('at %d °C lies within 0.3 percent of IAPWS-95: %d hPa', (celsius, hectopascal) => {
    expect(Math.abs(saturationHectopascal(celsius) / hectopascal - 1)).toBeLessThan(0.003)
  })

  it('is 23.33441 hPa at 20 °C, as a public program prints it for the Magnus form', () => {
    expect(saturationHectopascal(20)).toBeCloseTo(23.33441, 4)
  })

  // The form of the World Meteorological Organization's guide: 6.112 exp(17.62 T / (243.12 + T)).
  it('agrees with the form of the WMO guide to 0.15 percent from 0 to 40 °C', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), celsius => {
        const guide = 6.112 * Math.exp((17.62 * celsius) / (243.12 + celsius))
        expect(Math.abs(saturationHectopascal(celsius) / guide - 1)).toBeLessThan(0.0015)
      }),
    )
  })
})

describe('the dew point', () => {
  // Worked from the same formula by hand, to three places.
  it.each([
    [20, 40, 5.988],
    [20, 50, 9.261],
    [25, 50, 13.858],
    [30, 30, 10.54],
    [32, 30, 12.264],
    [28, 90, 26.205],
  ])('of %d °C and %d percent is %d °C', (celsius, percent, dewPoint) => {
    expect(dewPointCelsius(celsius, percent)).toBeCloseTo(dewPoint, 3)
  })

  it('is where the vapour of the air saturates it', () => {
    const celsius = fc.double({ min: 10, max: 40, noNaN: true })
    fc.assert(
      fc.property(celsius, fc.double({ min: 55, max: 100, noNaN: true }), (warmth, percent) => {
        const dewPoint = dewPointCelsius(warmth, percent) ?? Number.NaN
        expect(saturationHectopascal(dewPoint) / vapourHectopascal(warmth, percent)).toBeCloseTo(1, 3)
        expect(dewPoint).toBeLessThanOrEqual(warmth + 0.001)
      }),
    )
  })

  it('of dry air is none', () => {
    expect(dewPointCelsius(20, 0)).toBeUndefined()
  })
})

describe('the same air at two temperatures', () => {
  // From the pressures of IAPWS-95 above: 60 percent of 23.3919 hPa are so many percent of 42.4692 hPa, and so on.
  it.each([
    [20, 60, 30, (60 * 23.3919) / 42.4692],
    [22, 50, 32, (50 * 26.4522) / 47.5956],
    [28, 40, 20, (40 * 37.8298) / 23.3919],
  ])('%d °C and %d percent is at %d °C %d percent', (celsius, percent, atCelsius, there) => {
    expect(Math.abs(sameAirPercent(celsius, percent, atCelsius) - there)).toBeLessThan(0.1)
  })

  it('is drier the warmer it is, and itself at its own temperature', () => {
    const celsius = fc.integer({ min: 0, max: 59 })
    fc.assert(
      fc.property(celsius, fc.integer({ min: 1, max: 100 }), (warmth, percent) => {
        expect(sameAirPercent(warmth, percent, warmth)).toBe(percent)
        expect(sameAirPercent(warmth, percent, warmth + 1)).toBeLessThan(percent)
      }),
    )
  })

  it('refuses what no air has', () => {
    expect(() => sameAirPercent(20, 101, 25)).toThrow('humidityPercent: 101')
    expect(() => saturationHectopascal(-1)).toThrow('celsius: -1')
    expect(() => dewPointCelsius(Number.NaN, 50)).toThrow('celsius')
  })
})
