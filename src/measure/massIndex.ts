import { median, roundTo } from './numbers.ts'

/** Places to which indices are rounded, because they pass through pow. */
const PLACES = 4

/** The exponent and the length that a scaled mass index is taken at; always shown with the index. */
export interface IndexScale {
  readonly exponent: number
  readonly referenceLengthMillimetres: number
}

/** Mass in grams over snout-vent length in millimetres, in g/mm. */
export function massOverLength(massGrams: number, lengthMillimetres: number): number {
  positive('massGrams', massGrams)
  positive('lengthMillimetres', lengthMillimetres)
  return roundTo(massGrams / lengthMillimetres, PLACES)
}

/**
 * The scaled mass index in grams: the mass this animal would have at the reference length,
 * M * (L0 / L)^b (Peig and Green 2009, Oikos 118:1883-1891).
 */
export function scaledMassIndexGrams(
  massGrams: number,
  lengthMillimetres: number,
  scale: IndexScale,
): number {
  positive('massGrams', massGrams)
  positive('lengthMillimetres', lengthMillimetres)
  return roundTo(massGrams * (scale.referenceLengthMillimetres / lengthMillimetres) ** scale.exponent, PLACES)
}

/**
 * By how many percent the scaled mass index shifts when the length was measured too short by
 * `errorMillimetres`: 100 * ((L / (L - e))^b - 1).
 */
export function indexErrorPercent(
  lengthMillimetres: number,
  errorMillimetres: number,
  scale: IndexScale,
): number {
  positive('lengthMillimetres', lengthMillimetres - errorMillimetres)
  return roundTo(
    100 * ((lengthMillimetres / (lengthMillimetres - errorMillimetres)) ** scale.exponent - 1),
    PLACES,
  )
}

/** What a sample of animals says about how mass scales with length. */
export interface Scaling extends IndexScale {
  readonly leastSquaresSlope: number
  readonly correlation: number
}

/**
 * The scaling of mass with length in a sample: the exponent is the slope of the standardised major axis of
 * ln mass on ln length, which is the least-squares slope over the correlation; the reference length is the
 * mean length (Peig and Green 2009). Undefined for fewer than two animals or no spread.
 */
export function scalingOf(
  massesGrams: readonly number[],
  lengthsMillimetres: readonly number[],
): Scaling | undefined {
  const x = lengthsMillimetres.map(Math.log)
  const y = massesGrams.map(Math.log)
  const meanX = mean(x)
  const meanY = mean(y)
  const xx = sum(x.map(value => (value - meanX) ** 2))
  const yy = sum(y.map(value => (value - meanY) ** 2))
  const xy = sum(x.map((value, index) => (value - meanX) * ((y[index] ?? Number.NaN) - meanY)))
  const correlation = xy / Math.sqrt(xx * yy)
  if (!(xx > 0 && yy > 0) || correlation === 0) return undefined
  const leastSquaresSlope = xy / xx
  return {
    exponent: leastSquaresSlope / correlation,
    referenceLengthMillimetres: mean(lengthsMillimetres),
    leastSquaresSlope,
    correlation,
  }
}

/** The newest value of an index against the median of the same animal's earlier ones, in percent of that median. */
export function againstOwnPastPercent(newest: number, earlier: readonly number[]): number | undefined {
  if (earlier.length === 0) return undefined
  const usual = median(earlier)
  return roundTo((100 * (newest - usual)) / usual, PLACES)
}

function positive(field: string, value: number): void {
  if (!(value > 0)) throw new RangeError(`${field}: ${value} is not above 0`)
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

function mean(values: readonly number[]): number {
  return sum(values) / values.length
}
