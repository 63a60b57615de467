import MiniSearch from 'minisearch'
import type { SearchWords } from '../../shared/search.ts'
import { stemOf, wordsOf } from './words.ts'

/** One way in that fits what was typed. */
export interface FoundDoor {
  readonly kind: 'screen' | 'concern'
  readonly id: string
  /** The text holds words of danger that this danger screen asks for. */
  readonly isDanger: boolean
}

/** What a text leads to, the best first. `isFound` is false where nothing fits, and the doors are those that are always safe. */
export interface Found {
  readonly isFound: boolean
  readonly doors: readonly FoundDoor[]
}

/** One phrase of the vocabulary as it is searched. */
interface Phrase {
  readonly id: number
  readonly door: Omit<FoundDoor, 'isDanger'>
  readonly stems: readonly string[]
}

/** A vocabulary made ready for searching. */
interface Index {
  readonly search: MiniSearch<Phrase>
  readonly phrases: readonly Phrase[]
  readonly small: ReadonlySet<string>
  readonly safe: readonly FoundDoor[]
}

/** A text that says more than this many words is read up to here. */
const MOST_WORDS = 60
/** Doors further below the best than this share of its score are not shown. */
const LEAST_SHARE = 0.25
const MOST_DOORS = 6
/** A phrase counts the less, the more of its words are missing. */
const COVER_POWER = 1.5
/** What the further phrases of a door that fit in part add to the best of them. */
const OTHERS_SHARE = 0.1
const SHORTEST_PREFIX = 2
/** How many other words may stand between two words of one danger phrase. */
const GAP = 1

/** From four letters on one may be wrong, from seven on two; fewer letters name too many other words. */
const fuzzyOf = (stem: string) => (stem.length < 4 ? false : stem.length < 7 ? 1 : 2)

function indexOf(vocabulary: SearchWords): Index {
  const small = new Set(vocabulary.smallWords)
  const stemsOf = (phrase: string) => {
    const words = wordsOf(phrase)
    const telling = words.filter(word => !small.has(word))
    return (telling.length > 0 ? telling : words).map(stemOf)
  }
  const phrases = [
    ...vocabulary.dangerDoors.map(({ screen, phrases: list }) => ({
      kind: 'screen' as const,
      id: screen,
      list,
    })),
    ...vocabulary.concerns.map(({ concern, phrases: list }) => ({
      kind: 'concern' as const,
      id: concern,
      list,
    })),
  ]
    .flatMap(({ kind, id, list }) => list.map(phrase => ({ door: { kind, id }, stems: stemsOf(phrase) })))
    .map((phrase, id): Phrase => ({ id, ...phrase }))
  const search = new MiniSearch<Phrase>({
    fields: ['stems'],
    extractField: (phrase, field) => (field === 'id' ? String(phrase.id) : phrase.stems.join(' ')),
    processTerm: term => term,
  })
  search.addAll(phrases)
  return {
    search,
    phrases,
    small,
    safe: [
      ...vocabulary.dangerDoors.map(({ screen }) => ({
        kind: 'screen' as const,
        id: screen,
        isDanger: false,
      })),
      { kind: 'concern' as const, id: vocabulary.nothingFound, isDanger: false },
    ],
  }
}

/** A vocabulary is made ready once. */
const indexes = new WeakMap<SearchWords, Index>()

/** Where in the text a word of a phrase was found, and how well it fits at best. */
interface Fit {
  readonly places: readonly number[]
  readonly score: number
}

/** For each phrase that shares a word with the text: where each of its words was found. */
function fitsOf({ search, small }: Index, text: string): Map<number, Map<string, Fit>> {
  const telling = wordsOf(text)
    .slice(0, MOST_WORDS)
    .filter(word => !small.has(word))
    .map(stemOf)
  const fits = new Map<number, Map<string, Fit>>()
  for (const [at, stem] of telling.entries()) {
    // The last word may still be being typed.
    const prefix = at === telling.length - 1 && stem.length >= SHORTEST_PREFIX
    for (const { id, score, terms } of search.search(stem, { fuzzy: fuzzyOf(stem), prefix })) {
      // Who misspells a word gets its first letter right: "legs" are no "eggs", a "head" is not "dead".
      const term = terms.find(one => one[0] === stem[0])
      if (term === undefined) continue
      const ofPhrase = fits.get(Number(id)) ?? new Map<string, Fit>()
      const before = ofPhrase.get(term)
      ofPhrase.set(term, {
        places: [...(before?.places ?? []), at],
        score: Math.max(score, before?.score ?? 0),
      })
      fits.set(Number(id), ofPhrase)
    }
  }
  return fits
}

/** Every word of the phrase was found, with few others between them. */
function standsTogether({ stems }: Phrase, fits: ReadonlyMap<string, Fit>): boolean {
  const places = stems.map(stem => fits.get(stem)?.places ?? [])
  return places.flat().some(from => {
    const before = from + stems.length + GAP
    return places.every(list => list.some(at => from <= at && at < before))
  })
}

/**
 * The danger screens and concerns that an owner's own words lead to, the best first; words of danger put their danger
 * screen before all. Never empty: where nothing fits it is every danger screen and the concern that takes everything.
 */
export function findDoors(vocabulary: SearchWords, text: string): Found {
  const index = indexes.get(vocabulary) ?? indexOf(vocabulary)
  indexes.set(vocabulary, index)
  const scores = new Map<string, { door: FoundDoor; best: number; others: number }>()
  for (const [id, fits] of fitsOf(index, text)) {
    const phrase = index.phrases[id]
    if (!phrase) continue
    const found = [...fits.values()].reduce((sum, { score }) => sum + score, 0)
    const score = found * (fits.size / phrase.stems.length) ** COVER_POWER
    const isDanger = phrase.door.kind === 'screen' && standsTogether(phrase, fits)
    const before = scores.get(phrase.door.id)
    scores.set(phrase.door.id, {
      door: { ...phrase.door, isDanger: isDanger || before?.door.isDanger === true },
      best: Math.max(score, before?.best ?? 0),
      others: (before?.others ?? 0) + Math.min(score, before?.best ?? 0),
    })
  }
  const ranked = [...scores.values()]
    .map(({ door, best, others }) => ({ door, score: best + others * OTHERS_SHARE }))
    .sort((a, b) => Number(b.door.isDanger) - Number(a.door.isDanger) || b.score - a.score)
  const most = Math.max(...ranked.map(({ score }) => score))
  const doors = ranked
    .filter(({ door, score }) => door.isDanger || score >= most * LEAST_SHARE)
    .slice(0, MOST_DOORS)
    .map(({ door }) => door)
  return doors.length > 0 ? { isFound: true, doors } : { isFound: false, doors: index.safe }
}
