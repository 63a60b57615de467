import { normalUpperTail } from './normal.ts'
import { at } from './numbers.ts'

/** Gilbert 1987 (chapter 16) advises the normal approximation only from about this many values on. */
const NORMAL_FROM = 10

/** The result of the Mann-Kendall test for a run up or down. */
export interface MannKendall {
  /** Pairs that rise minus pairs that fall, in order of time. */
  readonly s: number
  /** Variance of S when nothing but chance orders the values, ties counted. */
  readonly variance: number
  /** S less one towards zero, in standard deviations; 0 when S is 0. */
  readonly z: number
  /** One-sided probability of an S this low or lower by chance. */
  readonly downProbability: number
  /** One-sided probability of an S this high or higher by chance. */
  readonly upProbability: number
  /** Twice the smaller of the two, at most 1. */
  readonly twoSidedProbability: number
  /** Whether the probabilities are exact or the normal approximation. */
  readonly exact: boolean
}

/** Sizes of the groups of equal values, groups of one included. */
export function tieSizes(values: ArrayLike<number>): number[] {
  const sorted = new Float64Array(values).sort()
  const sizes: number[] = []
  let size = 0
  for (let index = 0; index < sorted.length; index++) {
    size++
    if (sorted[index + 1] !== sorted[index]) {
      sizes.push(size)
      size = 0
    }
  }
  return sizes
}

/** Variance of S: [n(n-1)(2n+5) - sum t(t-1)(2t+5)] / 18 over tie groups of size t (Gilbert 1987, chapter 16). */
export function kendallVariance(sizes: readonly number[]): number {
  const term = (size: number) => size * (size - 1) * (2 * size + 5)
  let count = 0
  let ties = 0
  for (const size of sizes) {
    count += size
    ties += term(size)
  }
  return (term(count) - ties) / 18
}

/**
 * The exact probability that S is at least `s` when every order of the values is equally likely, for values
 * with the given tie groups. The number of orders with so many falling pairs is a coefficient of the
 * q-multinomial (NIST Digital Library of Mathematical Functions, 26.16.2), and S is the number of untied
 * pairs less twice the falling ones. Exact in double arithmetic up to 18 values.
 */
export function exactKendallUpperTail(s: number, sizes: readonly number[]): number {
  const pairs = (size: number) => (size * (size - 1)) / 2
  const count = sizes.reduce((sum, size) => sum + size, 0)
  const untied = sizes.reduce((left, size) => left - pairs(size), pairs(count))
  const orders = new Float64Array(untied + 1)
  orders[0] = 1
  let factor = 0
  for (const size of sizes) {
    for (let divisor = 1; divisor <= size; divisor++) {
      factor++
      for (let power = untied; power >= factor; power--)
        orders[power] = at(orders, power) - at(orders, power - factor)
      for (let power = divisor; power <= untied; power++)
        orders[power] = at(orders, power) + at(orders, power - divisor)
    }
  }
  let total = 0
  let reaching = 0
  for (let falling = 0; falling <= untied; falling++) {
    total += at(orders, falling)
    if (untied - 2 * falling >= s) reaching += at(orders, falling)
  }
  return reaching / total
}

/**
 * Mann-Kendall test of values in order of time (Gilbert 1987, chapter 16). Under ten values the
 * probabilities are exact, tied values counted as tied; from ten on they are the normal approximation with
 * the continuity correction.
 */
export function mannKendall(values: readonly number[]): MannKendall {
  const inOrder = new Float64Array(values)
  let s = 0
  for (let later = 1; later < inOrder.length; later++) {
    const value = at(inOrder, later)
    for (let earlier = 0; earlier < later; earlier++) s += Math.sign(value - at(inOrder, earlier))
  }
  return kendallTest(s, tieSizes(values))
}

/** `mannKendall` where S and the groups of equal values are already counted. */
export function kendallTest(s: number, sizes: readonly number[]): MannKendall {
  const count = sizes.reduce((sum, size) => sum + size, 0)
  const variance = kendallVariance(sizes)
  const deviation = Math.sqrt(variance)
  const exact = count < NORMAL_FROM
  const atLeast = (value: number): number => {
    if (variance === 0) return 1
    return exact ? exactKendallUpperTail(value, sizes) : normalUpperTail((value - 1) / deviation)
  }
  const upProbability = atLeast(s)
  const downProbability = atLeast(-s)
  return {
    s,
    variance,
    z: s === 0 ? 0 : (s - Math.sign(s)) / deviation,
    downProbability,
    upProbability,
    twoSidedProbability: Math.min(1, 2 * Math.min(downProbability, upProbability)),
    exact,
  }
}
