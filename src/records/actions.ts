import type {
  KeptAnimal,
  KeptAssessment,
  KeptEvent,
  KeptReading,
  KeptWeighIn,
  RecordEntry,
} from '../../shared/record.ts'
import { comesBefore } from './entry-order.ts'
import type { Writing } from './keeper-store.ts'

/**
 * What a keeper does, as entries to append. Each function makes them and changes nothing; `writing` comes from the
 * store and gives the time and the names. Check what was typed first (`check-input.ts`); these trust it.
 */

/** The value of one thing in a list of the record, by its kind. */
export type ItemValue =
  | { readonly kind: 'weigh-in'; readonly weighIn: KeptWeighIn }
  | { readonly kind: 'event'; readonly event: KeptEvent }
  | { readonly kind: 'reading'; readonly reading: KeptReading }
  | { readonly kind: 'assessment'; readonly assessment: KeptAssessment }

/** Puts a new animal on record; its name in the record is the `animalId` of the entry. */
export function addAnimal(writing: Writing, animal: KeptAnimal): RecordEntry {
  return changeAnimal(writing, writing.newId(), animal)
}

/** Replaces what is said of an animal, all of it. */
export function changeAnimal(writing: Writing, animalId: string, animal: KeptAnimal): RecordEntry {
  return { ...head(writing), animalId, kind: 'animal', animal }
}

export function saveWeighIn(writing: Writing, animalId: string, weighIn: KeptWeighIn): RecordEntry {
  return change(writing, animalId, writing.newId(), { kind: 'weigh-in', weighIn })
}

export function saveEvent(writing: Writing, animalId: string, event: KeptEvent): RecordEntry {
  return change(writing, animalId, writing.newId(), { kind: 'event', event })
}

export function saveReading(writing: Writing, animalId: string, reading: KeptReading): RecordEntry {
  return change(writing, animalId, writing.newId(), { kind: 'reading', reading })
}

export function keepAssessment(writing: Writing, animalId: string, assessment: KeptAssessment): RecordEntry {
  return change(writing, animalId, writing.newId(), { kind: 'assessment', assessment })
}

/** Replaces one thing, whole. Another `animalId` than before moves it to that animal. */
export function change(writing: Writing, animalId: string, itemId: string, value: ItemValue): RecordEntry {
  return { ...head(writing), animalId, itemId, ...value }
}

/** Takes one thing, or without `itemId` the whole animal, out of the record. */
export function remove(writing: Writing, animalId: string, itemId?: string): RecordEntry {
  return { ...head(writing), animalId, kind: 'removed', ...(itemId === undefined ? {} : { itemId }) }
}

/** Takes a removal back: the last value of the thing, or the animal with all of its things, stands again. */
export function restore(writing: Writing, animalId: string, itemId?: string): RecordEntry {
  return { ...head(writing), animalId, kind: 'restored', ...(itemId === undefined ? {} : { itemId }) }
}

/**
 * The entry that undoes `done`: what stood before it stands again. A thing that was not there before is removed.
 *
 * @param entries every entry of the record, `done` among them or not
 */
export function undo(writing: Writing, done: RecordEntry, entries: readonly RecordEntry[]): RecordEntry {
  const thing = thingOf(done)
  const earlier = entries.filter(entry => isAbout(entry, thing) && comesBefore(entry, done))
  const last = latest(earlier)
  const itemId = thing.itemId
  if (last === undefined || last.kind === 'removed') return remove(writing, done.animalId, itemId)
  const value = latest(earlier.filter(entry => entry.kind !== 'removed' && entry.kind !== 'restored'))
  // A restoration brings back the last value written, which after a change is not the one before it.
  if (!value || done.kind === 'removed' || done.kind === 'restored')
    return restore(writing, done.animalId, itemId)
  return { ...value, ...head(writing) }
}

interface Thing {
  readonly animalId: string
  readonly itemId: string | undefined
}

function thingOf(entry: RecordEntry): Thing {
  return { animalId: entry.animalId, itemId: 'itemId' in entry ? entry.itemId : undefined }
}

/** A thing is known by its own name whichever animal it is with; an animal by the animal's. */
function isAbout(entry: RecordEntry, { animalId, itemId }: Thing): boolean {
  const about = thingOf(entry)
  return about.itemId === itemId && (itemId !== undefined || about.animalId === animalId)
}

function latest(entries: readonly RecordEntry[]): RecordEntry | undefined {
  return entries.reduce<RecordEntry | undefined>(
    (last, entry) => (last && comesBefore(entry, last) ? last : entry),
    undefined,
  )
}

function head({ written, newId }: Writing) {
  return { entryId: newId(), written }
}
