import type { LoggerPolicy } from '../../../shared/enclosure.ts'
import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import { type Fault, failure, type Result, shown, success } from '../../../shared/result.ts'
import { celsiusFromFahrenheit } from '../units.ts'
import { numberIn, pickCells } from './cells.ts'
import { cutAfter, type DateReading, partsBefore, restAfterDate } from './dates.ts'
import type { LoggerLayout, LoggerQuestion } from './layout.ts'

/** Readings in the order of time. Times are what the clock on the wall showed, as milliseconds that read like UTC. */
export interface LoggerSeries {
  readonly times: Float64Array
  /** NaN where a row has none. */
  readonly celsius: Float64Array
  readonly percent: Float64Array
  readonly unreadable: { readonly rows: number; readonly first: readonly Fault[] }
}

export type LoggerRead =
  | { readonly kind: 'series'; readonly series: LoggerSeries }
  | { readonly kind: 'question'; readonly question: LoggerQuestion }

/** So many faults are named; the others are counted. */
const NAMED_FAULTS = 20

/** Takes lines as they come, and in the end gives the series. */
export interface LoggerReader {
  /** One line of the file, header and what stands above it included, in order. */
  take(line: string): void
  end(): Result<LoggerRead>
}

/** Numbers of texts that come again and again: each text is read once, later rows only look it up. */
function textIndex(): { at(text: string): number; texts: string[] } {
  const known = new Map<string, number>()
  const texts: string[] = []
  let last = ''
  let lastAt = -1
  return {
    texts,
    at: text => {
      if (text === last && lastAt >= 0) return lastAt
      let at = known.get(text)
      if (at === undefined) {
        at = texts.length
        texts.push(text)
        known.set(text, at)
      }
      last = text
      lastAt = at
      return at
    },
  }
}

/** Reads the rows of a file that was laid out. */
export function loggerReader(
  layout: LoggerLayout,
  policy: LoggerPolicy,
  dates: DateReading,
  answers: LoggerAnswers,
): LoggerReader {
  const wanted = [layout.date, layout.time, layout.temperature, layout.humidity]
  const columns = [...new Set(wanted.flatMap(at => at ?? []))].sort((one, other) => one - other)
  const place = (at: number | undefined) => (at === undefined ? -1 : columns.indexOf(at))
  const dateAt = place(layout.date)
  const timeAt = place(layout.time)
  const temperatureAt = place(layout.temperature)
  const humidityAt = place(layout.humidity)
  const cells: string[] = []
  const days = textIndex()
  const dayRows: number[] = []
  const clocks = textIndex()
  const clockMs: number[] = []
  const rowDays: number[] = []
  const rowClocks: number[] = []
  const celsius: number[] = []
  const percent: number[] = []
  const first: Fault[] = []
  let badRows = 0
  let row = 0
  let cuts = -1
  const { coldestPlausibleCelsius: coldest, hottestPlausibleCelsius: hottest } = policy

  const refuse = (column: number, value: string, accepted: string) => {
    badRows += 1
    if (first.length < NAMED_FAULTS)
      first.push({
        field: `row ${row}${column < 0 ? '' : `, ${layout.names[column] ?? column + 1}`}`,
        value: shown(value.trim() === '' ? 'empty' : value),
        accepted,
      })
  }
  /** The number in a cell; undefined where the cell is empty, NaN where it is no number that can be. */
  const reading = (at: number, low: number, high: number, fahrenheit: boolean): number | undefined => {
    const text = cells[at] ?? ''
    const number = numberIn(text, layout.decimalComma)
    if (Number.isNaN(number)) return text.trim() === '' ? undefined : Number.NaN
    const value = fahrenheit ? celsiusFromFahrenheit(number) : number
    return value >= low && value <= high ? value : Number.NaN
  }

  return {
    take: line => {
      row += 1
      if (row <= layout.headerLine || line.trim() === '') return
      if (!pickCells(line, layout.delimiter, columns, cells))
        return refuse(-1, line, `a row with ${layout.names.length} cells, every quotation mark closed`)
      let dateText = cells[dateAt] ?? ''
      let clockText = timeAt < 0 ? '' : (cells[timeAt] ?? '')
      if (timeAt < 0) {
        if (cuts < 0) {
          const trimmed = dateText.trim()
          const rest = restAfterDate(trimmed, dates)
          if (rest) cuts = partsBefore(trimmed, rest)
        }
        const whole = dateText.trim()
        const cut = cutAfter(whole, Math.max(cuts, 1))
        clockText = whole.slice(cut + 1)
        dateText = whole.slice(0, cut)
      }
      const clock = clocks.at(clockText)
      let ms = clockMs[clock]
      if (ms === undefined) {
        ms = dates.readTime(clockText)?.ms ?? Number.NaN
        clockMs[clock] = ms
      }
      if (Number.isNaN(ms))
        return refuse(
          layout.time ?? layout.date,
          cells[timeAt < 0 ? dateAt : timeAt] ?? '',
          'a time such as 18:30',
        )
      const warmth =
        temperatureAt < 0
          ? undefined
          : reading(temperatureAt, coldest, hottest, layout.temperatureUnit === 'fahrenheit')
      if (warmth !== undefined && Number.isNaN(warmth))
        return refuse(
          layout.temperature ?? 0,
          cells[temperatureAt] ?? '',
          `a temperature from ${coldest} to ${hottest} °C`,
        )
      const damp = humidityAt < 0 ? undefined : reading(humidityAt, 0, 100, false)
      if (damp !== undefined && Number.isNaN(damp))
        return refuse(layout.humidity ?? 0, cells[humidityAt] ?? '', 'a humidity from 0 to 100 percent')
      const day = days.at(dateText)
      dayRows[day] ??= row
      rowDays.push(day)
      rowClocks.push(clock)
      celsius.push(warmth ?? Number.NaN)
      percent.push(damp ?? Number.NaN)
    },

    end: () => {
      const name = layout.names[layout.date] ?? 'date'
      const texts = days.texts.map((text, at) => ({ row: dayRows[at] ?? 0, cells: [text] }))
      const read = dates.readDates(texts, 0, name, answers.dateOrder)
      if (read.question) {
        const { text, dayFirst, monthFirst } = read.question
        return success({
          kind: 'question',
          question: {
            answer: 'dateOrder',
            ask: `Is ${text} the day ${dayFirst} or ${monthFirst}?`,
            accepted: ['day-first', 'month-first'],
            seen: [text],
          },
        })
      }
      const midnights = texts.map(({ row: at }) => {
        const day = read.days.get(at)
        return day ? Date.UTC(day.year, day.month - 1, day.day) : Number.NaN
      })
      const kept: number[] = []
      const at = new Float64Array(rowDays.length)
      for (let index = 0; index < rowDays.length; index += 1) {
        at[index] =
          (midnights[rowDays[index] ?? 0] ?? Number.NaN) + (clockMs[rowClocks[index] ?? 0] ?? Number.NaN)
        if (Number.isNaN(at[index])) badRows += 1
        else kept.push(index)
      }
      for (const fault of read.faults) if (first.length < NAMED_FAULTS) first.push(fault)
      if (kept.length < 2)
        return failure(
          first.length > 0
            ? first
            : [{ field: 'logger file', value: `${kept.length} readings`, accepted: 'at least two readings' }],
        )
      // Many loggers write the newest first, and a clock set back writes an hour twice.
      let rises = true
      for (let index = 1; index < kept.length && rises; index += 1)
        rises = (at[kept[index] ?? 0] ?? 0) >= (at[kept[index - 1] ?? 0] ?? 0)
      if (!rises) kept.reverse().sort((one, other) => (at[one] ?? 0) - (at[other] ?? 0))
      return success({
        kind: 'series',
        series: {
          times: Float64Array.from(kept, index => at[index] ?? 0),
          celsius: Float64Array.from(kept, index => celsius[index] ?? Number.NaN),
          percent: Float64Array.from(kept, index => percent[index] ?? Number.NaN),
          unreadable: { rows: badRows, first },
        },
      })
    },
  }
}
