import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { Frame } from '../../shared/compiled.ts'
import { type SearchWords, searchWordsSchema } from '../../shared/search.ts'
import { type ContentDocument, type Path, parsed, readDocument } from './documents.ts'
import type { ContentFault } from './fault.ts'

/** What came of reading the words of the search: the content, or every fault found. */
export type LoadedSearchWords =
  | { readonly ok: true; readonly searchWords: SearchWords | undefined }
  | { readonly ok: false; readonly faults: readonly ContentFault[] }

interface Named {
  readonly name: string
  readonly path: Path
}

/**
 * Reads search-words.yaml of one species and checks it against the doors of its protocol: each danger screen and
 * concern has its words, none is unknown, nothing stands twice. `folder` is content/. A species without the file has none.
 */
export function loadSearchWords(
  folder: string,
  species: string,
  { doors, concerns }: Pick<Frame, 'doors' | 'concerns'>,
): LoadedSearchWords {
  const file = `${species}/search-words.yaml`
  if (!existsSync(join(folder, file))) return { ok: true, searchWords: undefined }
  const faults: ContentFault[] = []
  const document = readDocument(folder, file, faults)
  const searchWords = parsed(searchWordsSchema, document, faults)
  if (searchWords !== undefined)
    checkSearchWords(
      searchWords,
      document,
      { screens: doors.map(({ screen }) => screen), concerns: concerns.map(({ id }) => id) },
      faults,
    )
  return faults.length > 0 || searchWords === undefined ? { ok: false, faults } : { ok: true, searchWords }
}

function checkSearchWords(
  { smallWords, dangerDoors, concerns, nothingFound, bodyParts }: SearchWords,
  document: ContentDocument,
  known: { readonly screens: readonly string[]; readonly concerns: readonly string[] },
  faults: ContentFault[],
): void {
  const refuse = (path: Path, message: string) => faults.push(document.faultAt(path, message))
  const once = (what: string, list: readonly Named[]) => {
    const seen = new Set<string>()
    for (const { name, path } of list) {
      const given = name.toLowerCase()
      if (seen.has(given)) refuse(path, `${what}: given: ${name}; accepted: each once`)
      seen.add(given)
    }
  }
  const isKnown = (ids: readonly string[], what: string, { name, path }: Named) => {
    if (!ids.includes(name)) refuse(path, `${what}: given: ${name}; accepted: ${ids.join(', ')}`)
  }
  const covers = (ids: readonly string[], key: string, list: readonly Named[]) => {
    for (const id of ids)
      if (!list.some(({ name }) => name === id))
        refuse([key], `${key}: ${id} has no words; accepted: some for each`)
  }

  const small = smallWords.map((name, at): Named => ({ name, path: ['smallWords', at] }))
  once('smallWords', small)
  const screens = dangerDoors.map(
    ({ screen }, at): Named => ({ name: screen, path: ['dangerDoors', at, 'screen'] }),
  )
  const worries = concerns.map(
    ({ concern }, at): Named => ({ name: concern, path: ['concerns', at, 'concern'] }),
  )
  for (const [key, what, list, ids] of [
    ['dangerDoors', 'screen', screens, known.screens],
    ['concerns', 'concern', worries, known.concerns],
  ] as const) {
    once(what, list)
    for (const one of list) isKnown(ids, what, one)
    covers(ids, key, list)
  }
  for (const [key, list] of [
    ['dangerDoors', dangerDoors],
    ['concerns', concerns],
  ] as const)
    for (const [at, { phrases }] of list.entries())
      once(
        'phrases',
        phrases.map((name, place) => ({ name, path: [key, at, 'phrases', place] })),
      )
  isKnown(known.concerns, 'nothingFound', { name: nothingFound, path: ['nothingFound'] })
  once(
    'bodyParts',
    bodyParts.map(({ id }, at) => ({ name: id, path: ['bodyParts', at, 'id'] })),
  )
  for (const [at, { doors }] of bodyParts.entries()) {
    const list = doors.map((name, place): Named => ({ name, path: ['bodyParts', at, 'doors', place] }))
    once('doors', list)
    for (const one of list) isKnown([...known.screens, ...known.concerns], 'doors', one)
  }
}
