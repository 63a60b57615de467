import type { KeptWeighIn } from '../../../shared/record.ts'
import { type Fault, type Result, shown, success } from '../../../shared/result.ts'
import { type GivenFile, readText } from '../file-text.ts'
import { decimalMarkOf, readNumber } from '../numbers.ts'
import { shortenFaults } from '../shorten-faults.ts'
import { instantIn } from '../zone.ts'
import { type Columns, columnsOf, type Place } from './columns.ts'
import { type DateQuestion, readDates } from './date-column.ts'
import { type DateOrder, type DayText, readTime } from './dates.ts'
import { EXAMPLES, type MassUnit, mealNamed, unitNamed } from './file-words.ts'
import { GRAMS_IN, type MassText, partMass, readGrams } from './masses.ts'
import { type Row, readTable, type Table } from './table.ts'

/** What a file leaves open and the keeper must say, once for the whole file. */
export type FileQuestion =
  | DateQuestion
  /** Nothing says in which unit the weights are; `text` is the first of them. */
  | { readonly kind: 'unit'; readonly row: number; readonly text: string }

export interface ReadOptions {
  /** The IANA time zone in which times without one are meant. */
  readonly zone: string
  /** Answers to the questions of an earlier try. What the file itself settles goes first. */
  readonly dateOrder?: DateOrder
  readonly unit?: MassUnit
}

/** One weight of a file. */
export interface WeightRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly row: number
  /** The animal as the file names it; absent in a file without such a column. */
  readonly animal?: string
  /** The animal's name within the record, in files written by `writeWeights`. */
  readonly animalId?: string
  readonly weighIn: KeptWeighIn
}

export type WeightsRead =
  | {
      readonly kind: 'read'
      readonly rows: readonly WeightRow[]
      /** Whether the file says which animal each weight is of. */
      readonly namesAnimals: boolean
      /** Numbers of rows that hold no weight: they were passed over. */
      readonly withoutWeight: readonly number[]
    }
  | { readonly kind: 'asks'; readonly questions: readonly FileQuestion[] }
  | { readonly kind: 'refused'; readonly faults: readonly Fault[] }

/** Without a time of day a weight is taken to be of noon, as far as can be from the days before and after. */
const NOON_MS = 12 * 3_600_000

const ACCEPTED_FILE = 'a table of weights in which every row can be read; nothing was taken'

/**
 * Reads a file of weights whole, or asks, or says what is wrong with it, by row and field. Nothing is written here:
 * `planWeights` compares it with the record.
 */
export async function readWeights(file: GivenFile, options: ReadOptions): Promise<WeightsRead> {
  const text = await readText(file, { orWindows: true })
  return text.ok ? parseWeights(text.value, options) : { kind: 'refused', faults: text.faults }
}

/** Reads the text of a file of weights; as `readWeights`. */
export function parseWeights(text: string, options: ReadOptions): WeightsRead {
  const table = readTable(text)
  return table.ok ? weightsOf(table.value, options) : refused(table.faults)
}

/** Reads a table that is cut into cells already; as `readWeights`. */
export function weightsOf(table: Table, options: ReadOptions): WeightsRead {
  const found = columnsOf(table.header.cells, table.header.row)
  if (!found.ok) return refused(found.faults)
  const columns = found.value
  const isEmpty = (row: Row) => cell(row, columns.weight).trim() === ''
  const rows = table.rows.filter(row => !isEmpty(row))
  const dates = readDates(rows, columns.date.at, columns.date.name, options.dateOrder)
  const masses = readMasses(rows, columns, options.unit)
  const faults: Fault[] = [...dates.faults, ...masses.faults]
  const toInstant = instantIn(options.zone)
  const read: WeightRow[] = []
  for (const row of rows) {
    const more = readMore(row, columns)
    const day = dates.days.get(row.row)
    const at = day && readInstant(row, columns, day, toInstant)
    if (!more.ok) faults.push(...more.faults)
    if (at && !at.ok) faults.push(...at.faults)
    const massGrams = masses.grams.get(row.row)
    if (!more.ok || !at?.ok || massGrams === undefined) continue
    const { animal, animalId, ...rest } = more.value
    read.push({
      row: row.row,
      ...(animal === undefined ? {} : { animal }),
      ...(animalId === undefined ? {} : { animalId }),
      weighIn: { at: at.value, massGrams, ...rest },
    })
  }
  if (faults.length > 0) return refused(faults)
  const questions = [dates.question, masses.question].filter(question => question !== undefined)
  if (questions.length > 0) return { kind: 'asks', questions }
  const withoutWeight = table.rows.filter(isEmpty).map(({ row }) => row)
  if (read.length === 0)
    return refused([{ field: 'file', value: 'no weights', accepted: 'at least one row with a weight' }])
  return { kind: 'read', rows: read, namesAnimals: columns.animal !== undefined, withoutWeight }
}

function refused(faults: readonly Fault[]): WeightsRead {
  return { kind: 'refused', faults: shortenFaults(inOrderOfRows(faults), ACCEPTED_FILE) }
}

function inOrderOfRows(faults: readonly Fault[]): readonly Fault[] {
  const rowOf = ({ field }: Fault) => Number(field.match(/^row (\d+)/)?.[1] ?? 0)
  return [...faults].sort((one, other) => rowOf(one) - rowOf(other))
}

const cell = (row: Row, place: Place | undefined) => (place && row.cells[place.at]) ?? ''
const fieldOf = (row: Row, place: Place) => `row ${row.row}, ${place.name}`

/** The weights of all rows in grams. The unit of a cell goes first, then its column of units, then the header, then the answer. */
function readMasses(rows: readonly Row[], columns: Columns, answer: MassUnit | undefined) {
  const { weight } = columns
  const grams = new Map<number, number>()
  const faults: Fault[] = []
  const parted: { row: Row; mass: MassText; stated: MassUnit | undefined }[] = []
  for (const row of rows) {
    const mass = partMass(cell(row, weight), fieldOf(row, weight))
    const stated = statedUnit(row, columns)
    if (!mass.ok) faults.push(...mass.faults)
    if (!stated.ok) faults.push(...stated.faults)
    if (mass.ok && stated.ok) parted.push({ row, mass: mass.value, stated: stated.value })
  }
  const mark = decimalMarkOf(parted.map(({ mass }) => mass.number))
  let question: FileQuestion | undefined
  for (const { row, mass, stated } of parted) {
    const field = fieldOf(row, weight)
    const beside = stated ?? weight.unit
    const unit = mass.unit ?? beside ?? answer
    if (mass.unit && beside && mass.unit !== beside) {
      faults.push({
        field,
        value: shown(cell(row, weight)),
        accepted: `a weight in ${beside}, as the table says`,
      })
    } else if (unit === undefined) {
      question ??= { kind: 'unit', row: row.row, text: cell(row, weight).trim() }
      // Said now: a cell that is no number at all stays wrong whatever the unit.
      const number = readNumber(mass.number, field, mark)
      if (!number.ok) faults.push(...number.faults)
    } else {
      const read = readGrams(mass.number, unit, field, mark)
      if (read.ok) grams.set(row.row, read.value)
      else faults.push(...read.faults)
    }
  }
  return { grams, faults, question }
}

function statedUnit(row: Row, { unit }: Columns): Result<MassUnit | undefined> {
  const text = cell(row, unit).trim()
  if (!unit || text === '') return success(undefined)
  const named = unitNamed(text)
  if (named) return success(named)
  return { ok: false, faults: [{ field: fieldOf(row, unit), value: shown(text), accepted: EXAMPLES.units }] }
}

function readInstant(
  row: Row,
  columns: Columns,
  { year, month, day, rest }: DayText,
  toInstant: (wallMs: number) => number,
): Result<string> {
  const own = cell(row, columns.time).trim()
  const text = rest || own
  const time = text === '' ? { ms: NOON_MS, offsetMinutes: undefined } : readTime(text)
  if (!time) {
    const place = rest === '' && columns.time ? columns.time : columns.date
    const fault = {
      field: fieldOf(row, place),
      value: shown(text),
      accepted: 'a time such as 18:30 or 6:30 pm',
    }
    return { ok: false, faults: [fault] }
  }
  const wallMs = Date.UTC(year, month - 1, day) + time.ms
  const ms = time.offsetMinutes === undefined ? toInstant(wallMs) : wallMs - time.offsetMinutes * 60_000
  return success(new Date(ms).toISOString())
}

interface More {
  readonly animal?: string
  readonly animalId?: string
  readonly scaleStepGrams?: number
  readonly meal?: 'before' | 'after'
  readonly note?: string
}

/** What a row holds beside date and weight. */
function readMore(row: Row, columns: Columns): Result<More> {
  const faults: Fault[] = []
  const animal = cell(row, columns.animal).trim()
  const animalId = cell(row, columns.animalId).trim()
  if (columns.animal && (animal === '' || animal.length > 60))
    faults.push({
      field: fieldOf(row, columns.animal),
      value: shown(animal || 'empty'),
      accepted: 'the name of the animal, up to 60 letters',
    })
  const scaleStep = cell(row, columns.scaleStep).trim()
  let scaleStepGrams: number | undefined
  if (columns.scaleStep && scaleStep !== '') {
    const read = readScaleStep(scaleStep, fieldOf(row, columns.scaleStep), columns.scaleStep.unit)
    if (read.ok) scaleStepGrams = read.value
    else faults.push(...read.faults)
  }
  const mealText = cell(row, columns.meal).trim()
  const meal = mealText === '' ? undefined : mealNamed(mealText)
  if (columns.meal && mealText !== '' && !meal)
    faults.push({ field: fieldOf(row, columns.meal), value: shown(mealText), accepted: EXAMPLES.meals })
  const note = cell(row, columns.note)
  if (columns.note && note.length > 2000)
    faults.push({ field: fieldOf(row, columns.note), value: shown(note), accepted: 'up to 2000 letters' })
  if (faults.length > 0) return { ok: false, faults }
  return success({
    ...(animal === '' ? {} : { animal }),
    ...(animalId === '' ? {} : { animalId }),
    ...(scaleStepGrams === undefined ? {} : { scaleStepGrams }),
    ...(meal === undefined ? {} : { meal }),
    ...(note === '' ? {} : { note }),
  })
}

function readScaleStep(text: string, field: string, headerUnit: MassUnit | undefined): Result<number> {
  const parted = partMass(text, field)
  if (!parted.ok) return parted
  const read = readNumber(parted.value.number, field)
  if (!read.ok) return read
  const grams = read.value * GRAMS_IN[parted.value.unit ?? headerUnit ?? 'g']
  if (grams > 0 && grams <= 50) return success(grams)
  return { ok: false, faults: [{ field, value: shown(text), accepted: 'a step above 0 g and up to 50 g' }] }
}
