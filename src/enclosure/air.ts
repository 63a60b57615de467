import type { AirContent, MagnusCoefficients } from '../../shared/enclosure.ts'
import { rounded } from './units.ts'

/**
 * Water vapour in air, by the Magnus form over water with the coefficients of the content (Alduchov and Eskridge 1996:
 * 6.1094 hPa, 17.625, 243.04 °C). Results are rounded to the content's places.
 */

/** The power of e in the Magnus form at a temperature. */
function magnusPower(celsius: number, { factor, offsetCelsius }: MagnusCoefficients): number {
  return (factor * celsius) / (offsetCelsius + celsius)
}

/** Saturation vapour pressure in hPa at a temperature in degrees Celsius, rounded to `places` (4 where left out). */
export function saturationHectopascals(celsius: number, magnus: MagnusCoefficients, places = 4): number {
  return rounded(magnus.hectopascals * Math.exp(magnusPower(celsius, magnus)), places)
}

/** The dew point in degrees Celsius of air at a temperature and a relative humidity above 0 percent. */
export function dewPointCelsius(celsius: number, percent: number, air: AirContent): number {
  const power = Math.log(percent / 100) + magnusPower(celsius, air)
  return rounded((air.offsetCelsius * power) / (air.factor - power), air.places)
}

/**
 * The relative humidity in percent that the same vapour has at another temperature; 100 at most, since beyond that
 * water settles.
 */
export function humidityElsewhere(
  percent: number,
  fromCelsius: number,
  toCelsius: number,
  air: AirContent,
): number {
  const ratio = Math.exp(magnusPower(fromCelsius, air) - magnusPower(toCelsius, air))
  return rounded(Math.min(100, percent * ratio), 1)
}

/** How many degrees the coolest place lies above the dew point; 0 or less means water settles there. */
export function wallMarginCelsius(coolestCelsius: number, dewPoint: number, air: AirContent): number {
  return rounded(coolestCelsius - dewPoint, air.places)
}
