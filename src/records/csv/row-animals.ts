import type { AnimalRecord, KeeperRecord, KeptAnimal, RecordEntry } from '../../../shared/record.ts'
import { type Fault, shown } from '../../../shared/result.ts'
import { addAnimal } from '../actions.ts'
import type { Writing } from '../keeper-store.ts'
import type { WeightRow } from './read-weights.ts'

/** Where weights go whose row names no animal. */
export type Fallback =
  | { readonly kind: 'known'; readonly animalId: string }
  | { readonly kind: 'new'; readonly animal: KeptAnimal }

/** The animal that rows of a file belong to. */
export interface RowAnimal {
  readonly record: AnimalRecord
  /** The entry that puts it on record, where the file brings a new animal. */
  readonly added: RecordEntry | undefined
}

/**
 * Finds the animal of a row: by its name within the record, else by the name the keeper gave it (case and spaces
 * do not matter), else it is a new one. Rows of one animal get one and the same object.
 */
export function rowAnimals(
  record: KeeperRecord,
  writing: Writing,
  fallback: Fallback | undefined,
): (row: WeightRow) => RowAnimal | Fault {
  const byId = new Map<string, RowAnimal>()
  /** More than one where animals share a name. */
  const byName = new Map<string, RowAnimal[]>()
  for (const one of record.animals) {
    const animal: RowAnimal = { record: one, added: undefined }
    byId.set(one.animalId, animal)
    const key = nameKey(one.animal.name)
    byName.set(key, [...(byName.get(key) ?? []), animal])
  }
  let unnamed: RowAnimal | undefined
  const add = (animal: KeptAnimal): RowAnimal => {
    const added = addAnimal(writing, animal)
    const lists = { weighIns: [], events: [], readings: [], assessments: [] }
    return { record: { animalId: added.animalId, animal, ...lists }, added }
  }
  return ({ row, animal, animalId }) => {
    const own = animalId === undefined ? undefined : byId.get(animalId)
    if (own) return own
    if (animal === undefined) {
      unnamed ??= fallback?.kind === 'known' ? byId.get(fallback.animalId) : fallback && add(fallback.animal)
      return (
        unnamed ?? { field: 'file', value: 'names no animal', accepted: 'the animal these weights are of' }
      )
    }
    const key = nameKey(animal)
    const [named, another] = byName.get(key) ?? []
    if (another)
      return {
        field: `row ${row}`,
        value: shown(animal),
        accepted: 'a name that one animal alone has; two on record share this one',
      }
    if (named) return named
    const added = add({ name: animal })
    byName.set(key, [added])
    return added
  }
}

function nameKey(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase()
}
