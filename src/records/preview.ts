import type { AnimalRecord, KeeperRecord, RecordEntry } from '../../shared/record.ts'
import { mergeEntries, textOf } from './entry-order.ts'
import { replay } from './replay.ts'

/** What a file would change for one animal. Counts are of weigh-ins, events, readings and assessments together. */
export interface AnimalPreview {
  readonly animalId: string
  /** As it will be called. */
  readonly name: string
  readonly isNew: boolean
  /** The animal itself, with all it has, would leave the record. */
  readonly isRemoved: boolean
  readonly new: number
  readonly changed: number
  readonly removed: number
  /** Things of the file that are on record just so. */
  readonly known: number
}

/** What a file would change, before anything is written. */
export interface Preview {
  /** Animals the file says something about, in the order of the record. */
  readonly animals: readonly AnimalPreview[]
  /** Entries that are not on record yet: append these, all at once. */
  readonly entries: readonly RecordEntry[]
}

/** What taking the entries of a file into the record would come to. */
export function previewEntries(current: readonly RecordEntry[], incoming: readonly RecordEntry[]): Preview {
  const known = new Set(current.map(({ entryId }) => entryId))
  const entries = mergeEntries(incoming, []).filter(({ entryId }) => !known.has(entryId))
  const before = replay(current)
  const after = replay([...current, ...entries])
  const mentioned = new Set(incoming.flatMap(entry => ('itemId' in entry ? (entry.itemId ?? []) : [])))
  const concerned = new Set(incoming.map(({ animalId }) => animalId))
  const animals = allAnimals(before, after).flatMap(({ one, other }): AnimalPreview[] => {
    const { animalId, animal } = other ?? one ?? {}
    if (animalId === undefined || animal === undefined || !concerned.has(animalId)) return []
    const counts = { new: 0, changed: 0, removed: 0, known: 0 }
    const [itemsBefore, itemsAfter] = [itemsOf(one), itemsOf(other)]
    for (const [itemId, text] of itemsAfter) {
      const was = itemsBefore.get(itemId)
      if (was === undefined) counts.new += 1
      else if (was !== text) counts.changed += 1
      else if (mentioned.has(itemId)) counts.known += 1
    }
    for (const itemId of itemsBefore.keys()) if (!itemsAfter.has(itemId)) counts.removed += 1
    return [{ animalId, name: animal.name, isNew: !one, isRemoved: !other, ...counts }]
  })
  return { animals, entries }
}

function allAnimals(before: KeeperRecord, after: KeeperRecord) {
  const was = new Map(before.animals.map(one => [one.animalId, one]))
  const is = new Map(after.animals.map(one => [one.animalId, one]))
  return [...new Set([...was.keys(), ...is.keys()])].map(animalId => ({
    one: was.get(animalId),
    other: is.get(animalId),
  }))
}

function itemsOf(animal: AnimalRecord | undefined): Map<string, string> {
  if (!animal) return new Map()
  const { weighIns, events, readings, assessments } = animal
  return new Map([...weighIns, ...events, ...readings, ...assessments].map(one => [one.itemId, textOf(one)]))
}
