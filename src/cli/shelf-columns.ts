import { calendarDay } from '../../shared/moment.ts'
import { type Fault, shown } from '../../shared/result.ts'
import { dayText, readDate } from '../records/csv/dates.ts'
import type { Table } from '../records/csv/table.ts'

/** What a row of a shelf's file says of the animal besides its weight. */
export interface Kept {
  readonly room?: string
  readonly rack?: string
  readonly tub?: string
  readonly hatchedOn?: string
  readonly faults: readonly Fault[]
}

/** The names under which these columns stand in a file. */
const COLUMNS = {
  room: ['room'],
  rack: ['rack', 'shelf'],
  tub: ['tub', 'box', 'tank', 'enclosure'],
  hatchedOn: ['hatched', 'hatched on', 'hatch date', 'born', 'born on', 'birth date', 'date of birth'],
} as const

/** By row number, where each animal lives and when it hatched; rows that say nothing of it are left out. */
export function keptColumns(table: Table): Map<number, Kept> {
  const header = table.header.cells.map(name => name.trim().toLowerCase().replace(/[_-]+/g, ' '))
  const at = (names: readonly string[]) => header.findIndex(name => names.includes(name))
  const places = { room: at(COLUMNS.room), rack: at(COLUMNS.rack), tub: at(COLUMNS.tub) }
  const hatchedAt = at(COLUMNS.hatchedOn)
  const kept = new Map<number, Kept>()
  if (hatchedAt < 0 && Object.values(places).every(place => place < 0)) return kept
  // Most rows of an animal say the same of it: they share one object, by which they are told apart from the rest.
  const sayings = new Map<string, Kept>()
  for (const { row, cells } of table.rows) {
    const cell = (place: number) => (place < 0 ? '' : (cells[place] ?? '').trim())
    const [room, rack, tub, hatchedText] = [
      cell(places.room),
      cell(places.rack),
      cell(places.tub),
      cell(hatchedAt),
    ]
    const saying = [room, rack, tub, hatchedText].join('\n')
    const known = sayings.get(saying)
    if (known !== undefined) {
      kept.set(row, known)
      continue
    }
    const made: Kept = {
      ...(room === '' ? {} : { room }),
      ...(rack === '' ? {} : { rack }),
      ...(tub === '' ? {} : { tub }),
      ...hatchedOf(hatchedText, row),
    }
    sayings.set(saying, made)
    kept.set(row, made)
  }
  return kept
}

/** A hatch date that means one day; one that may mean two is refused, because no other row settles it. */
function hatchedOf(text: string, row: number): Pick<Kept, 'hatchedOn' | 'faults'> {
  if (text === '') return { faults: [] }
  const read = readDate(text)
  const day = read?.kind === 'one' ? dayText(read.day) : undefined
  if (day !== undefined && calendarDay.safeParse(day).success) return { hatchedOn: day, faults: [] }
  const fault = { field: `row ${row}, hatched`, value: shown(text), accepted: 'a day such as 2025-06-30' }
  return { faults: [fault] }
}
