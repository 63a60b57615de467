import type { AnimalEvent } from '../../shared/case-file.ts'
import { EVENT_KINDS } from '../../shared/event-kinds.ts'
import { type Fault, failure, type Result, shown, success } from '../../shared/result.ts'
import type { ShelfAnimal } from '../measure/shelf.ts'
import { type FileQuestion, type WeightRow, weightsOf } from '../records/csv/read-weights.ts'
import { readTable } from '../records/csv/table.ts'
import { dayOf } from '../triage/calendar.ts'
import { type Kept, keptColumns } from './shelf-columns.ts'
import type { TrendWords, WordedEvent } from './trend-words.ts'

/** So many faults are told one by one; a file that is wrong throughout need not fill the screen. */
const MOST_FAULTS = 20

/** The animals of a file of weights, with the events that the command names, or every fault found. */
export function readShelf(text: string, words: TrendWords): Result<ShelfAnimal[]> {
  const table = readTable(text)
  if (!table.ok) return failure(table.faults.slice(0, MOST_FAULTS))
  const read = weightsOf(table.value, {
    zone: words.now.zone,
    ...(words.dateOrder === undefined ? {} : { dateOrder: words.dateOrder }),
    ...(words.unit === undefined ? {} : { unit: words.unit }),
  })
  if (read.kind === 'refused') return failure(read.faults)
  if (read.kind === 'asks') return failure(read.questions.map(asFault))
  const kept = keptColumns(table.value)
  const animals = new Map<string, { readonly name: string; readonly rows: WeightRow[] }>()
  for (const row of read.rows) {
    const name = row.animal ?? ''
    const key = keyOf(name)
    const known = animals.get(key)
    if (known === undefined) animals.set(key, { name, rows: [row] })
    else known.rows.push(row)
  }
  const faults: Fault[] = []
  const eventsOf = assign(words.events, animals, faults)
  const shelf = [...animals].map(([key, { name, rows }]) => {
    const about = mergedKept(rows, kept, faults)
    const animal = animalOf(name, rows, about, eventsOf.get(key) ?? [], words)
    faults.push(...timeFaults(rows, animal, words))
    return animal
  })
  return faults.length > 0 ? failure(faults.slice(0, MOST_FAULTS)) : success(shelf)
}

/** The same animal is meant whatever the case and the spaces. */
function keyOf(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase()
}

function asFault(question: FileQuestion): Fault {
  const { row, text } = question
  if (question.kind === 'unit')
    return {
      field: `row ${row}`,
      value: shown(text),
      accepted: 'a unit in the header, or --unit g, kg, oz or lb',
    }
  const { dayFirst, monthFirst } = question
  return {
    field: `row ${row}`,
    value: shown(text),
    accepted: `--dates day-first (${dayFirst}) or --dates month-first (${monthFirst})`,
  }
}

/** The events of each animal by its key. With several animals an event names one of them. */
function assign(
  events: readonly WordedEvent[],
  animals: ReadonlyMap<string, { readonly name: string }>,
  faults: Fault[],
): Map<string, WordedEvent[]> {
  const byAnimal = new Map<string, WordedEvent[]>()
  const [only] = animals.size === 1 ? animals.keys() : []
  for (const event of events) {
    const key = event.animal === undefined ? only : keyOf(event.animal)
    if (key === undefined || !animals.has(key))
      faults.push({
        field: '--event',
        value: shown(event.animal ?? event.kind),
        accepted: 'DATE:KIND:NAME with the name of an animal of the file',
      })
    else byAnimal.set(key, [...(byAnimal.get(key) ?? []), event])
  }
  return byAnimal
}

/** What the rows of one animal say of it: where they differ, the newest stands. */
function mergedKept(
  rows: readonly WeightRow[],
  kept: ReadonlyMap<number, Kept>,
  faults: Fault[],
): Omit<Kept, 'faults'> {
  const newestOf = new Map<Kept, string>()
  for (const { row, weighIn } of rows) {
    const said = kept.get(row)
    if (said === undefined) continue
    const newest = newestOf.get(said)
    if (newest === undefined || weighIn.at > newest) newestOf.set(said, weighIn.at)
  }
  let merged: Omit<Kept, 'faults'> = {}
  const inOrder = [...newestOf].sort(([, one], [, other]) => Date.parse(one) - Date.parse(other))
  for (const [{ faults: wrong, ...said }] of inOrder) {
    faults.push(...wrong)
    merged = { ...merged, ...said }
  }
  return merged
}

const isRecordKind = (kind: string): kind is AnimalEvent['kind'] => EVENT_KINDS.some(known => known === kind)

function animalOf(
  name: string,
  rows: readonly WeightRow[],
  { hatchedOn, ...place }: Omit<Kept, 'faults'>,
  worded: readonly WordedEvent[],
  { born, scaleStepGrams, now }: TrendWords,
): ShelfAnimal {
  const hatched = hatchedOn ?? born
  const latest = new Date(now.instant).toISOString()
  const today = dayOf(Date.parse(latest), now.zone)
  return {
    name,
    ...(Object.keys(place).length === 0 ? {} : { place }),
    ...(hatched === undefined ? {} : { hatchedOn: hatched }),
    weighIns: rows.map(({ weighIn: { at, massGrams, scaleStepGrams: own } }) => {
      const step = own ?? scaleStepGrams
      // A day alone means noon; this morning it stands for what was weighed before now.
      const taken = at > latest && dayOf(Date.parse(at), now.zone) === today ? latest : at
      return { at: taken, massGrams, ...(step === undefined ? {} : { scaleStepGrams: step }) }
    }),
    events: worded.flatMap(({ at, kind, share, seen }) =>
      isRecordKind(kind)
        ? [{ at, kind, ...(share === undefined ? {} : { share }), ...(seen === undefined ? {} : { seen }) }]
        : [],
    ),
    seen: worded.flatMap(({ at, kind }) => (isRecordKind(kind) ? [] : [{ at, kind }])),
  }
}

/** Weights of a day that has not come, or from before the animal hatched. A day alone may lie later today. */
function timeFaults(rows: readonly WeightRow[], { hatchedOn }: ShelfAnimal, { now }: TrendWords): Fault[] {
  const latest = new Date(now.instant).toISOString()
  const today = dayOf(Date.parse(latest), now.zone)
  return rows.flatMap(({ row, weighIn: { at } }) => {
    // The day where the animal lives is worked out only where it can matter: a shelf has many rows.
    const mayBeAhead = at > latest
    const mayBeBefore = hatchedOn !== undefined && at.slice(0, 10) <= hatchedOn
    if (!mayBeAhead && !mayBeBefore) return []
    const day = dayOf(Date.parse(at), now.zone)
    const fault = (accepted: string) => [{ field: `row ${row}`, value: day, accepted }]
    if (day > today) return fault(`a day up to ${today}`)
    return hatchedOn !== undefined && day < hatchedOn ? fault(`a day from its hatching on, ${hatchedOn}`) : []
  })
}
