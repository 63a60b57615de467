import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'

/** What the grade is computed from. */
export interface Counts {
  readonly sentence: number
  readonly word: number
  readonly syllable: number
}

/** The full sentences of a text: a label has no mark at its end and is left out. */
export function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.!?])["”)]?\s+/).filter(sentence => /[.!?]["”)]?$/.test(sentence))
}

/** The words of a sentence. Words joined by a hyphen are two, a numeral or a unit is one. */
export function wordsOf(sentence: string): string[] {
  return sentence.match(/°C|[\p{L}\p{N}]+(?:['’.:][\p{L}\p{N}]+)*/gu) ?? []
}

/** The syllables of a word: one for a numeral, a unit, and a word that was taught. */
function syllablesOf(word: string, taught: ReadonlySet<string>): number {
  const lower = word.toLowerCase()
  const plain = lower.replace(/['’]s$/, '')
  if (!/^\p{L}/u.test(lower) || taught.has(plain) || taught.has(plain.replace(/s$/, ''))) return 1
  return Math.max(1, syllable(lower))
}

/** The counts of all full sentences of some texts. */
export function countsOf(texts: readonly string[], taught: ReadonlySet<string> = new Set()): Counts {
  const sentences = texts.flatMap(sentencesOf).map(wordsOf)
  const words = sentences.flat()
  return {
    sentence: sentences.length,
    word: words.length,
    syllable: words.reduce((sum, word) => sum + syllablesOf(word, taught), 0),
  }
}

/** The Flesch-Kincaid grade; undefined where there is no full sentence. */
export function gradeOf(counts: Counts): number | undefined {
  return counts.sentence === 0 ? undefined : fleschKincaid({ ...counts })
}
