import * as z from 'zod/mini'

/** Nothing that is no sign on paper: control characters, and marks that turn the direction of the text around. */
const ONE_LINE = /^[^\p{Cc}\p{Zl}\p{Zp}\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]*$/u

/** One line of text from outside, at most `most` characters long. */
export function oneLine(most: number) {
  return z.string().check(z.maxLength(most), z.regex(ONE_LINE))
}

/** As `oneLine`, with at least one character that shows. */
export function filledLine(most: number) {
  return oneLine(most).check(z.regex(/\S/))
}
