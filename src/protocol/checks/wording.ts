import type { ContentDocument, Path } from '../documents.ts'
import type { Checking } from './context.ts'

const MOST_WORDS = 18
const NEVER_ON_SCREEN =
  /\b(dull|bright|lively|lethargic|lethargy|alert|limp|dropped|gravid|necrotic|necrosis|prolapsed?|wasted|rings?)\b/gi

/** Keys under which the files of a species hold texts that an owner reads. */
const TEXT_KEYS = new Set([
  'ask',
  'help',
  'howTo',
  'text',
  'hint',
  'door',
  'doorHint',
  'noneText',
  'reason',
  'conflict',
  'name',
  'findOut',
  'title',
  'opening',
  'forbiddenBecause',
  'because',
  'look',
  'getHelpIf',
])

interface Shown {
  readonly path: Path
  readonly text: string
}

function textsIn(value: unknown, shown: boolean, isText: (key: string) => boolean, path: Path): Shown[] {
  if (typeof value === 'string') return shown ? [{ path, text: value }] : []
  if (Array.isArray(value))
    return value.flatMap((one, index) => textsIn(one, shown, isText, [...path, index]))
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, one]) => textsIn(one, isText(key), isText, [...path, key]))
}

/** The words of one sentence; a lone sign such as a dash or a degree is none. */
function wordsOf(sentence: string): string[] {
  return sentence.split(/\s+/).filter(word => /[\p{L}\p{N}]/u.test(word))
}

/** Texts that owners read hold no forbidden word and no sentence longer than 18 words. */
export function checkWording({ source, refuse }: Checking): void {
  const check = (document: ContentDocument, isText: (key: string) => boolean) => {
    for (const { path, text } of textsIn(document.value, false, isText, [])) {
      for (const [word] of text.matchAll(NEVER_ON_SCREEN))
        refuse(document, path, `word: given: ${word}; accepted: the words of content/README.md`)
      for (const sentence of text.split(/(?<=[.!?])["')]?\s+/)) {
        const { length } = wordsOf(sentence)
        if (length > MOST_WORDS)
          refuse(
            document,
            path,
            `sentence of ${length} words: "${sentence}"; accepted: at most ${MOST_WORDS}`,
          )
      }
    }
  }
  const owners = [
    source.species,
    source.questions,
    source.bands,
    source.dangerSigns,
    source.generalRules,
    ...source.concerns,
    ...source.carePlans,
  ]
  for (const { document } of owners) check(document, key => TEXT_KEYS.has(key))
  check(source.words.document, key => key !== 'id')
  // All of these two files may come on a screen, the words that columns of a file are known by excepted.
  if (source.enclosure) {
    check(source.enclosure.home.document, key => key !== 'words' && key !== 'date')
    check(source.enclosure.feeders.document, () => true)
  }
}
