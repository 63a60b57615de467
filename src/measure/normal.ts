const SQUARE_ROOT_OF_TWO_PI = Math.sqrt(2 * Math.PI)
const SERIES_UP_TO = 3
const FRACTION_DEPTH = 160

function density(z: number): number {
  return Math.exp((-z * z) / 2) / SQUARE_ROOT_OF_TWO_PI
}

/**
 * The probability that a standard normal variable exceeds `z`. Near the middle by the series
 * 1/2 - density * (z + z^3/3 + z^5/15 + ...) (Marsaglia 2004, Journal of Statistical Software 11(4)),
 * further out by the continued fraction density / (z + 1/(z + 2/(z + 3/(z + ...)))) (DLMF section 7.9).
 * Both citations are from memory, not read for this; the values are checked against published tables in the tests.
 */
export function normalUpperTail(z: number): number {
  if (z < 0) return 1 - normalUpperTail(-z)
  if (z > SERIES_UP_TO) {
    let below = z
    for (let term = FRACTION_DEPTH; term >= 1; term--) below = z + term / below
    return density(z) / below
  }
  let sum = 0
  let term = z
  for (let odd = 3; sum + term !== sum; odd += 2) {
    sum += term
    term *= (z * z) / odd
  }
  return 0.5 - density(z) * sum
}

/**
 * The z that a standard normal variable exceeds with probability `upperTail` (over 0, at most one half).
 * Newton's method from 0: the tail is convex there, so every step stays short of the answer and none
 * overshoots.
 */
export function normalUpperQuantile(upperTail: number): number {
  if (!(upperTail > 0 && upperTail <= 0.5))
    throw new RangeError(`upperTail: ${upperTail} is not over 0 and at most 0.5`)
  let z = 0
  for (let step = 0; step < 100; step++) {
    const next = z + (normalUpperTail(z) - upperTail) / density(z)
    if (Math.abs(next - z) < 1e-14) return next
    z = next
  }
  return z
}

const zOfConfidence = new Map<number, number>()

/** The z of a two-sided confidence between 0 and 1: 1.96 for 0.95. Remembered, because every comparison asks for the same few. */
export function twoSidedZ(confidence: number): number {
  const known = zOfConfidence.get(confidence)
  if (known !== undefined) return known
  const z = normalUpperQuantile((1 - confidence) / 2)
  zOfConfidence.set(confidence, z)
  return z
}
