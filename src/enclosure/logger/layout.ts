import type { LoggerContent } from '../../../shared/enclosure.ts'
import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import { failure, type Result, shown, success } from '../../../shared/result.ts'
import { cellsOf, numberIn } from './cells.ts'
import { type ColumnMeaning, columnNames, type LoggerColumn, type TemperatureUnit } from './columns.ts'
import { type DateReading, restAfterDate } from './dates.ts'

/** Asked where the file does not tell. `answer` names the field of the answers that settles it. */
export interface LoggerQuestion {
  readonly answer: keyof LoggerAnswers
  readonly ask: string
  readonly accepted: readonly string[]
  /** What the file shows there, so that a person can tell. */
  readonly seen: readonly string[]
}

export interface LoggerLayout {
  readonly delimiter: string
  /** The number of the header's line, counted from 1; 0 where there is none. */
  readonly headerLine: number
  readonly date: number
  /** A column of its own for the time of day. */
  readonly time: number | undefined
  readonly temperature: number | undefined
  readonly humidity: number | undefined
  readonly temperatureUnit: TemperatureUnit
  readonly decimalComma: boolean
  readonly names: readonly string[]
}

export type LaidOut =
  | { readonly kind: 'layout'; readonly layout: LoggerLayout }
  | { readonly kind: 'question'; readonly question: LoggerQuestion }

const DELIMITERS = [',', ';', '\t', '|'] as const
/** So many lines are looked at to find the table; loggers write their own name and settings above it. */
export const HEAD_LINES = 200

interface Header {
  readonly line: number
  readonly delimiter: string
  readonly names: readonly string[]
  readonly meanings: readonly (ColumnMeaning | undefined)[]
}

type Names = ReturnType<typeof columnNames>

function headerIn(lines: readonly string[], names: Names): Header | undefined {
  for (const [at, line] of lines.entries())
    for (const delimiter of DELIMITERS) {
      const cells = cellsOf(line, delimiter)?.map(cell => cell.trim())
      if (!cells || cells.length < 2) continue
      const meanings = cells.map(names.meaningOf)
      const has = (...wanted: LoggerColumn[]) => meanings.some(one => one && wanted.includes(one.column))
      if (has('date', 'time') && has('temperature', 'humidity'))
        return { line: at + 1, delimiter, names: cells, meanings }
    }
  return undefined
}

/** The first line that holds a date and a number, where no line names its columns. */
function tableIn(lines: readonly string[], dates: DateReading): Header | undefined {
  for (const [at, line] of lines.entries())
    for (const delimiter of DELIMITERS) {
      const cells = cellsOf(line, delimiter)
      if (!cells || cells.length < 2) continue
      const hasDate = cells.some(cell => restAfterDate(cell.trim(), dates) !== undefined)
      const hasNumber = cells.some(cell => !Number.isNaN(numberIn(cell, delimiter !== ',')))
      if (hasDate && hasNumber)
        return { line: at, delimiter, names: cells.map((_, column) => String(column + 1)), meanings: [] }
    }
  return undefined
}

/** The columns of one meaning: those named exactly, else those whose name holds the word. */
function columnsOf({ meanings }: Header, column: LoggerColumn): number[] {
  const all = meanings.flatMap((one, at) => (one?.column === column ? [at] : []))
  const exact = all.filter(at => meanings[at]?.exact)
  return exact.length > 0 ? exact : all
}

/** A column by what the file calls it; undefined where it calls none so. */
function namedColumn(header: Header, name: string): number | undefined {
  const at = header.names.findIndex(one => one.toLowerCase() === name.trim().toLowerCase())
  return at < 0 ? undefined : at
}

/**
 * Finds the table in the first lines of a logger's file: delimiter, columns, unit and decimal mark. Where the file
 * does not tell, the question is a value; what is no table at all is a fault.
 */
export function layOut(
  head: readonly string[],
  content: LoggerContent,
  dates: DateReading,
  answers: LoggerAnswers,
): Result<LaidOut> {
  const names = columnNames(content.words)
  const header = headerIn(head, names) ?? tableIn(head, dates)
  if (!header)
    return failure([
      {
        field: 'logger file',
        value: shown(head.find(line => line.trim() !== '') ?? 'nothing'),
        accepted: 'a table with a date or time, and a temperature or humidity, in each row',
      },
    ])
  const samples = head
    .slice(header.line)
    .flatMap(line => (line.trim() === '' ? [] : [cellsOf(line, header.delimiter) ?? []]))
  if (samples.length === 0)
    return failure([
      { field: 'logger file', value: 'no rows', accepted: 'names of columns and a row for each reading' },
    ])
  const sampleOf = (at: number) => samples[0]?.[at]?.trim() ?? ''
  const seen = header.names.map((name, at) => `${name}: ${sampleOf(at)}`)
  const ask = (answer: keyof LoggerAnswers, text: string, accepted: readonly string[]): Result<LaidOut> =>
    success({ kind: 'question', question: { answer, ask: text, accepted, seen } })

  const chosen = new Map<LoggerColumn, number>()
  for (const [column, answer] of [
    ['date', 'timeColumn'],
    ['temperature', 'temperatureColumn'],
    ['humidity', 'humidityColumn'],
  ] as const) {
    const name = answers[answer]
    if (name === undefined) continue
    const at = namedColumn(header, name)
    if (at === undefined)
      return failure([{ field: `logger.${answer}`, value: name, accepted: header.names.join(', ') }])
    chosen.set(column, at)
  }

  const dateColumns = columnsOf(header, 'date')
  const timeColumns = columnsOf(header, 'time')
  const beginsWithDate = (at: number) => restAfterDate(sampleOf(at), dates) !== undefined
  const date =
    chosen.get('date') ??
    [...dateColumns, ...timeColumns].find(beginsWithDate) ??
    header.names.findIndex((_, at) => beginsWithDate(at))
  if (date < 0) return ask('timeColumn', 'Which column holds date and time?', header.names)
  const hasOwnTime = restAfterDate(sampleOf(date), dates) !== ''
  const time = hasOwnTime
    ? undefined
    : [...timeColumns, ...dateColumns].find(at => at !== date && dates.readTime(sampleOf(at)) !== undefined)

  const free = header.names.filter((_, at) => at !== date && at !== time)
  const temperatures = columnsOf(header, 'temperature').filter(at => at !== date)
  const humidities = columnsOf(header, 'humidity').filter(at => at !== date)
  const temperature = chosen.get('temperature') ?? (temperatures.length === 1 ? temperatures[0] : undefined)
  const humidity = chosen.get('humidity') ?? (humidities.length === 1 ? humidities[0] : undefined)
  if (temperature === undefined && (temperatures.length > 1 || humidity === undefined))
    return ask('temperatureColumn', 'Which column holds the temperature?', free)
  if (humidity === undefined && humidities.length > 1)
    return ask('humidityColumn', 'Which column holds the humidity?', free)

  const inCell = temperature === undefined ? '' : sampleOf(temperature).replace(/^[-+\d.,\s]*/, '')
  const temperatureUnit =
    temperature === undefined
      ? 'celsius'
      : (answers.temperatureUnit ?? header.meanings[temperature]?.unit ?? names.unitOf(inCell))
  if (!temperatureUnit)
    return ask('temperatureUnit', 'Is the temperature in degrees Celsius or Fahrenheit?', [
      'celsius',
      'fahrenheit',
    ])
  const numbers = [temperature, humidity].flatMap(at =>
    at === undefined ? [] : samples.map(cells => cells[at] ?? ''),
  )
  return success({
    kind: 'layout',
    layout: {
      delimiter: header.delimiter,
      headerLine: header.line,
      date,
      time,
      temperature,
      humidity,
      temperatureUnit,
      decimalComma: numbers.some(text => /^\s*[-+]?\d+,\d+/.test(text)),
      names: header.names,
    },
  })
}
