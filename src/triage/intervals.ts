import type { Condition } from '../../shared/compiled.ts'

/**
 * Truth on the chain false (0) < unsure (1) < true (2), and what is not settled as an interval on it.
 * An interval is packed into one number, low end plus four times high end.
 */
export const FALSE = 0
export const UNSURE = 1
export const TRUE = 2

export const lowOf = (interval: number): number => interval & 3
export const highOf = (interval: number): number => interval >> 2

/**
 * What is known of every fact. An atom's low end is true if the low options meet it, else the low rest;
 * its high end likewise.
 */
export interface FactStates {
  readonly lowOptions: readonly number[]
  readonly lowRest: readonly number[]
  readonly highOptions: readonly number[]
  readonly highRest: readonly number[]
}

/** The same, to be filled in. */
export interface FactStatesToFill {
  readonly lowOptions: number[]
  readonly lowRest: number[]
  readonly highOptions: number[]
  readonly highRest: number[]
}

/** States for as many facts as there are zeros, all false. A copy of a plain list is the cheapest to make. */
export function noFacts(zeros: readonly number[]): FactStatesToFill {
  return {
    lowOptions: zeros.slice(),
    lowRest: zeros.slice(),
    highOptions: zeros.slice(),
    highRest: zeros.slice(),
  }
}

function nth(count: number, sure: number, unsure: number): number {
  return sure >= count ? TRUE : unsure >= count ? UNSURE : FALSE
}

/** The interval of a condition: `all` takes the least ends, `any` the greatest, `atLeast n` the n-th greatest. */
export function intervalOf(condition: Condition, states: FactStates): number {
  switch (condition.kind) {
    case 'atom': {
      const { fact, options } = condition
      const low = (states.lowOptions[fact] ?? 0) & options ? TRUE : (states.lowRest[fact] ?? 0)
      const high = (states.highOptions[fact] ?? 0) & options ? TRUE : (states.highRest[fact] ?? 0)
      return low | (high << 2)
    }
    case 'all': {
      let low = TRUE
      let high = TRUE
      for (const part of condition.of) {
        const interval = intervalOf(part, states)
        if ((interval & 3) < low) low = interval & 3
        if (interval >> 2 < high) high = interval >> 2
        if (high === FALSE) return 0
      }
      return low | (high << 2)
    }
    case 'any': {
      let low = FALSE
      let high = FALSE
      for (const part of condition.of) {
        const interval = intervalOf(part, states)
        if ((interval & 3) > low) low = interval & 3
        if (interval >> 2 > high) high = interval >> 2
        if (low === TRUE) break
      }
      return low | (high << 2)
    }
    case 'atLeast': {
      let lowTrue = 0
      let lowUnsure = 0
      let highTrue = 0
      let highUnsure = 0
      for (const part of condition.of) {
        const interval = intervalOf(part, states)
        if ((interval & 3) === TRUE) lowTrue += 1
        if ((interval & 3) >= UNSURE) lowUnsure += 1
        if (interval >> 2 === TRUE) highTrue += 1
        if (interval >> 2 >= UNSURE) highUnsure += 1
      }
      return nth(condition.count, lowTrue, lowUnsure) | (nth(condition.count, highTrue, highUnsure) << 2)
    }
  }
}
