/** Endings that make no other word of it here: "pooped", "pooping", "bites". */
const ENDINGS = /(?:ing|ed|es|s|e)$/
const SHORTEST_STEM = 3

/** A word without its ending, as long as enough of it is left to know it by. */
export function stemOf(word: string): string {
  const stem = word.replace(ENDINGS, '')
  return stem.length < SHORTEST_STEM ? word : stem
}

/** The words of a text in small letters; "won't" is "wont", numbers are left out. */
export function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .replace(/['’`]/g, '')
    .split(/[^a-z]+/)
    .filter(Boolean)
}
