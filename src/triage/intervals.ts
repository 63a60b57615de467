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
  readonly lowOptions: Int32Array
  readonly lowRest: Uint8Array
  readonly highOptions: Int32Array
  readonly highRest: Uint8Array
}

/** States for `count` facts, all false; four views of one buffer, because this is made for every assessment. */
export function noFacts(count: number): FactStates {
  const buffer = new ArrayBuffer(count * 10)
  return {
    lowOptions: new Int32Array(buffer, 0, count),
    highOptions: new Int32Array(buffer, count * 4, count),
    lowRest: new Uint8Array(buffer, count * 8, count),
    highRest: new Uint8Array(buffer, count * 9, count),
  }
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
      const nth = (sure: number, unsure: number) =>
        sure >= condition.count ? TRUE : unsure >= condition.count ? UNSURE : FALSE
      return nth(lowTrue, lowUnsure) | (nth(highTrue, highUnsure) << 2)
    }
  }
}
