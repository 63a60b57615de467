import type { KeeperRecord, KeptWeighIn, RecordEntry } from '../../../shared/record.ts'
import { type Fault, failure, type Result, success } from '../../../shared/result.ts'
import { saveWeighIn } from '../actions.ts'
import { CLOSE_MS, checkWeighIn } from '../check-input.ts'
import type { Writing } from '../keeper-store.ts'
import type { AnimalPreview } from '../preview.ts'
import { shortenFaults } from '../shorten-faults.ts'
import type { WeightRow } from './read-weights.ts'
import { type Fallback, type RowAnimal, rowAnimals } from './row-animals.ts'

export interface PlanOptions {
  readonly writing: Writing
  /** ISO 8601 instant: no weight may lie after it. */
  readonly now: string
  /** For a file that names no animals. */
  readonly fallback?: Fallback
}

/** What taking a file of weights into the record would come to, before anything is written. */
export interface WeightsPlan {
  readonly animals: readonly AnimalPreview[]
  /** Append these, all at once. */
  readonly entries: readonly RecordEntry[]
  /** Rows whose weight lies within two minutes of another one of the same animal: to be confirmed. */
  readonly closeInTime: readonly number[]
}

/**
 * Compares the weights of a file with the record. A weight that is on record already, or stands in the file twice
 * (same animal, same minute, same grams), is known and not taken again. One faulty row refuses the file.
 */
export function planWeights(
  record: KeeperRecord,
  rows: readonly WeightRow[],
  { writing, now, fallback }: PlanOptions,
): Result<WeightsPlan> {
  const faults: Fault[] = []
  const entries: RecordEntry[] = []
  const closeInTime: number[] = []
  const animalOf = rowAnimals(record, writing, fallback)
  const taken = new Map<RowAnimal, Taken>()
  for (const row of rows) {
    const animal = animalOf(row)
    if ('field' in animal) {
      faults.push(animal)
      continue
    }
    let has = taken.get(animal)
    if (!has) {
      has = startTaking(animal)
      taken.set(animal, has)
      if (animal.added) entries.push(animal.added)
    }
    // Without its weigh-ins: that a weight is close to another is found out below, and faster.
    const { faults: wrong } = checkWeighIn(row.weighIn, { ...animal.record, weighIns: [] }, now)
    faults.push(...wrong.map(fault => ({ ...fault, field: `row ${row.row}, ${fault.field}` })))
    if (isKnown(has, row.weighIn)) {
      has.known += 1
      continue
    }
    if (isClose(has, row.weighIn)) closeInTime.push(row.row)
    note(has, row.weighIn)
    has.new += 1
    entries.push(saveWeighIn(writing, animal.record.animalId, row.weighIn))
  }
  if (faults.length > 0)
    return failure(shortenFaults(faults, 'a table in which every row can be taken; nothing was taken'))
  const animals = [...taken].map(([animal, counts]): AnimalPreview => {
    const { animalId, animal: kept } = animal.record
    const rest = { isRemoved: false, changed: 0, removed: 0 }
    return {
      animalId,
      name: kept.name,
      isNew: animal.added !== undefined,
      new: counts.new,
      known: counts.known,
      ...rest,
    }
  })
  return success({ animals, entries, closeInTime })
}

/** What one animal has: the weights of the record, and those of the file so far. */
interface Taken {
  /** Instant and grams of its weights, by minute. */
  readonly byMinute: Map<number, { readonly ms: number; readonly massGrams: number }[]>
  new: number
  known: number
}

const MINUTE_MS = 60_000
const minuteOf = ({ at }: KeptWeighIn) => Math.floor(Date.parse(at) / MINUTE_MS)

/** Finer than this, in grams, two weights are the same: converted ones are rounded. */
const SAME_GRAMS = 0.001

function startTaking({ record }: RowAnimal): Taken {
  const taken: Taken = { byMinute: new Map(), new: 0, known: 0 }
  for (const weighIn of record.weighIns) note(taken, weighIn)
  return taken
}

function note({ byMinute }: Taken, weighIn: KeptWeighIn): void {
  const minute = minuteOf(weighIn)
  const one = { ms: Date.parse(weighIn.at), massGrams: weighIn.massGrams }
  const there = byMinute.get(minute)
  if (there) there.push(one)
  else byMinute.set(minute, [one])
}

function isKnown({ byMinute }: Taken, weighIn: KeptWeighIn): boolean {
  const there = byMinute.get(minuteOf(weighIn)) ?? []
  return there.some(({ massGrams }) => Math.abs(massGrams - weighIn.massGrams) < SAME_GRAMS)
}

function isClose({ byMinute }: Taken, weighIn: KeptWeighIn): boolean {
  const minute = minuteOf(weighIn)
  const ms = Date.parse(weighIn.at)
  return [-2, -1, 0, 1, 2].some(step =>
    byMinute.get(minute + step)?.some(other => Math.abs(other.ms - ms) < CLOSE_MS),
  )
}
