/**
 * Water vapour in air. Saturation over water by the Magnus form of Alduchov and Eskridge 1996 (Journal of Applied
 * Meteorology 35:601-609), e(T) = 6.1094 hPa * exp(17.625 T / (243.04 + T)); its coefficients were seen as public
 * programs carry them. Within 0.3 percent of IAPWS-95 from 0 to 40 °C, the range that is meant here. What passes
 * through exp and log is rounded to a stated number of places.
 */
const SATURATION_AT_ZERO_HECTOPASCAL = 6.1094
const SLOPE = 17.625
const OFFSET_CELSIUS = 243.04

const PRESSURE_PLACES = 4
const TEMPERATURE_PLACES = 3
const PERCENT_PLACES = 2

/** The temperatures that the formula is used for here, both included. */
const COLDEST_CELSIUS = 0
const HOTTEST_CELSIUS = 60

/** Whether a temperature is one that the formula is used for here. */
export function isAirCelsius(celsius: number): boolean {
  return celsius >= COLDEST_CELSIUS && celsius <= HOTTEST_CELSIUS
}

/** Pressure in hectopascals at which water vapour saturates air of that temperature, to 4 places. */
export function saturationHectopascal(celsius: number): number {
  return rounded(saturation(celsius), PRESSURE_PLACES)
}

/** Pressure of the water vapour in hectopascals, from the temperature and the relative humidity there, to 4 places. */
export function vapourHectopascal(celsius: number, humidityPercent: number): number {
  return rounded(vapour(celsius, humidityPercent), PRESSURE_PLACES)
}

/**
 * The relative humidity in percent, to 2 places, that the same air has at another temperature: a reading at the cool
 * end is not the humidity of the warm end. May exceed 100, where water would settle out.
 */
export function sameAirPercent(celsius: number, humidityPercent: number, atCelsius: number): number {
  return rounded((100 * vapour(celsius, humidityPercent)) / saturation(atCelsius), PERCENT_PLACES)
}

/** The temperature in degrees Celsius, to 3 places, at which that air begins to leave water behind. Dry air has none. */
export function dewPointCelsius(celsius: number, humidityPercent: number): number | undefined {
  inRange('celsius', celsius, COLDEST_CELSIUS, HOTTEST_CELSIUS)
  inRange('humidityPercent', humidityPercent, 0, 100)
  if (humidityPercent === 0) return undefined
  const share = Math.log(humidityPercent / 100) + (SLOPE * celsius) / (OFFSET_CELSIUS + celsius)
  return rounded((OFFSET_CELSIUS * share) / (SLOPE - share), TEMPERATURE_PLACES)
}

function saturation(celsius: number): number {
  inRange('celsius', celsius, COLDEST_CELSIUS, HOTTEST_CELSIUS)
  return SATURATION_AT_ZERO_HECTOPASCAL * Math.exp((SLOPE * celsius) / (OFFSET_CELSIUS + celsius))
}

function vapour(celsius: number, humidityPercent: number): number {
  inRange('humidityPercent', humidityPercent, 0, 100)
  return (saturation(celsius) * humidityPercent) / 100
}

function inRange(field: string, value: number, from: number, to: number): void {
  if (!(value >= from && value <= to)) throw new RangeError(`${field}: ${value} is not from ${from} to ${to}`)
}

function rounded(value: number, places: number): number {
  const scale = 10 ** places
  return Math.round(value * scale) / scale
}
