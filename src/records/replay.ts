import type { AnimalRecord, KeeperRecord, RecordEntry } from '../../shared/record.ts'
import { comesBefore } from './entry-order.ts'
import { type Lists, listsOf, type StandingItem } from './item-lists.ts'

/**
 * Turns entries into the record. Of the entries about one thing the last written stands (by `written`, then by
 * `entryId`): a value puts the thing there, a removal takes it away, a restoration brings the last value back. A thing
 * written again under another animal has moved there. The result depends on which entries there are, never on the
 * order they come in.
 */

/** A record that grows with its entries. */
export interface Replay {
  /**
   * Takes more entries in and gives the record. Entries already taken in change nothing, and whatever did not change
   * keeps its identity: the lists of an animal, the animal, the record.
   */
  readonly add: (entries: Iterable<RecordEntry>) => KeeperRecord
  readonly record: () => KeeperRecord
}

/**
 * The record that entries come to: animals in the order they were first written, each list in order of time.
 * What is kept of an animal that no entry describes is left out until one does.
 */
export function replay(entries: Iterable<RecordEntry>): KeeperRecord {
  return startReplay().add(entries)
}

type AnimalEntry = Extract<RecordEntry, { kind: 'animal' }>

interface StandingAnimal {
  value?: AnimalEntry
  last?: RecordEntry
  /** The first entry that describes it. */
  first?: AnimalEntry
  readonly items: Set<StandingItem>
}

/** An empty record to add entries to, a few at a time; adding costs what the animals concerned hold. */
export function startReplay(): Replay {
  const seen = new Set<string>()
  const animals = new Map<string, StandingAnimal>()
  const items = new Map<string, StandingItem>()
  const made = new Map<string, AnimalRecord>()
  let record: KeeperRecord = { animals: [] }

  const animalOf = (animalId: string): StandingAnimal => {
    const known = animals.get(animalId)
    if (known) return known
    const fresh: StandingAnimal = { items: new Set() }
    animals.set(animalId, fresh)
    return fresh
  }

  /** Notes an entry about one thing of an animal, and the animals that had it and have it. */
  const takeItem = (entry: RecordEntry, itemId: string, touched: Set<string>): void => {
    let standing = items.get(itemId)
    if (!standing) {
      standing = { itemId }
      items.set(itemId, standing)
    }
    if (isLater(entry, standing.last)) standing.last = entry
    const before = standing.value?.animalId
    if ('itemId' in entry && entry.kind !== 'removed' && entry.kind !== 'restored') {
      if (isLater(entry, standing.value)) standing.value = entry
    }
    const after = standing.value?.animalId
    if (before !== undefined && before !== after) {
      animalOf(before).items.delete(standing)
      touched.add(before)
    }
    if (after !== undefined) {
      animalOf(after).items.add(standing)
      touched.add(after)
    }
  }

  const takeAnimal = (entry: RecordEntry, touched: Set<string>): void => {
    const standing = animalOf(entry.animalId)
    if (isLater(entry, standing.last)) standing.last = entry
    if (entry.kind === 'animal') {
      if (isLater(entry, standing.value)) standing.value = entry
      if (!standing.first || comesBefore(entry, standing.first)) standing.first = entry
    }
    touched.add(entry.animalId)
  }

  const build = (animalId: string): void => {
    const { value, last, items } = animalOf(animalId)
    if (!value || last?.kind === 'removed') {
      made.delete(animalId)
      return
    }
    const before = made.get(animalId)
    const lists: Lists = listsOf(items, before)
    const isSame = before?.animal === value.animal && LISTS.every(name => before[name] === lists[name])
    if (!isSame) made.set(animalId, { animalId, animal: value.animal, ...lists })
  }

  const add = (entries: Iterable<RecordEntry>): KeeperRecord => {
    const touched = new Set<string>()
    for (const entry of entries) {
      if (seen.has(entry.entryId)) continue
      seen.add(entry.entryId)
      const itemId = 'itemId' in entry ? entry.itemId : undefined
      if (itemId === undefined) takeAnimal(entry, touched)
      else takeItem(entry, itemId, touched)
    }
    for (const animalId of touched) build(animalId)
    const inOrder = [...animals]
      .filter(([animalId]) => made.has(animalId))
      .sort(([, one], [, other]) =>
        one.first && other.first && comesBefore(one.first, other.first) ? -1 : 1,
      )
      .flatMap(([animalId]) => made.get(animalId) ?? [])
    const isSame =
      inOrder.length === record.animals.length && inOrder.every((one, at) => one === record.animals[at])
    if (!isSame) record = { animals: inOrder }
    return record
  }

  return { add, record: () => record }
}

const LISTS = ['weighIns', 'events', 'readings', 'assessments'] as const

const isLater = (entry: RecordEntry, than: RecordEntry | undefined) =>
  than === undefined || comesBefore(than, entry)
