import type { LoggerPolicy } from '../../../shared/enclosure.ts'
import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import { type Fault, failure, type Result, shown, success } from '../../../shared/result.ts'
import { celsiusFromFahrenheit } from '../units.ts'
import { numberBetween, pickCells } from './cells.ts'
import { clockReader } from './clock.ts'
import { cutAfter, type DateReading, isParting, partsBefore, restAfterDate } from './dates.ts'
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

/** A list of numbers that grows, without the cost of a boxed list. */
class Column {
  private values = new Float64Array(4096)
  length = 0

  push(value: number): void {
    if (this.length === this.values.length) {
      const wider = new Float64Array(2 * this.length)
      wider.set(this.values)
      this.values = wider
    }
    this.values[this.length] = value
    this.length += 1
  }

  at(index: number): number {
    return this.values[index] ?? Number.NaN
  }
}

/** The dates of a file: each text once, with the row in which it first stood. */
function dateTexts() {
  const known = new Map<string, number>()
  const rows: { readonly row: number; readonly cells: readonly string[] }[] = []
  return {
    rows,
    indexOf: (text: string, row: number): number => {
      const at = known.get(text)
      if (at !== undefined) return at
      known.set(text, rows.length)
      return rows.push({ row, cells: [text] }) - 1
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
  const bounds = new Int32Array(2 * columns.length)
  const clock = clockReader(dates)
  const texts = dateTexts()
  const [days, clocks, celsius, percent] = [new Column(), new Column(), new Column(), new Column()]
  const first: Fault[] = []
  let badRows = 0
  let row = 0
  let cuts = 0
  let lastDate = ''
  let lastDay = -1
  const { coldestPlausibleCelsius: coldest, hottestPlausibleCelsius: hottest } = policy
  const isFahrenheit = layout.temperatureUnit === 'fahrenheit'

  const refuse = (column: number, value: string, accepted: string) => {
    badRows += 1
    if (first.length < NAMED_FAULTS)
      first.push({
        field: `row ${row}${column < 0 ? '' : `, ${layout.names[column] ?? column + 1}`}`,
        value: shown(value.trim() === '' ? 'empty' : value),
        accepted,
      })
  }
  const cell = (text: string, at: number) => text.slice(bounds[2 * at], bounds[2 * at + 1])
  const numberAt = (text: string, at: number): number =>
    numberBetween(text, bounds[2 * at] ?? 0, bounds[2 * at + 1] ?? 0, layout.decimalComma)

  /** Reads date and time of the row; the time in milliseconds, NaN where it is none. */
  const readClock = (text: string): number => {
    const from = bounds[2 * dateAt] ?? 0
    const to = bounds[2 * dateAt + 1] ?? 0
    if (timeAt >= 0) {
      if (!(to - from === lastDate.length && text.startsWith(lastDate, from))) {
        lastDate = text.slice(from, to)
        lastDay = texts.indexOf(lastDate, row)
      }
      const begin = bounds[2 * timeAt] ?? 0
      return clock(text, begin + (text.charCodeAt(begin) === 32 ? 1 : 0), bounds[2 * timeAt + 1] ?? 0)
    }
    // Most rows begin with the same date as the row before them.
    const end = from + lastDate.length
    if (lastDate !== '' && end < to && text.startsWith(lastDate, from) && isParting(text, end))
      return clock(text, end + 1, to)
    const own = text.slice(from, to).trim()
    if (cuts === 0) cuts = partsBefore(own, restAfterDate(own, dates) ?? '')
    const cut = cutAfter(own, Math.max(cuts, 1))
    lastDate = own.slice(0, cut)
    lastDay = texts.indexOf(lastDate, row)
    return clock(own, cut + 1, own.length)
  }

  return {
    take: line => {
      row += 1
      if (row <= layout.headerLine || line.trim() === '') return
      const text = pickCells(line, layout.delimiter, columns, bounds)
      if (text === undefined)
        return refuse(-1, line, `a row with ${layout.names.length} cells, every quotation mark closed`)
      const ms = readClock(text)
      if (Number.isNaN(ms)) {
        const at = timeAt < 0 ? dateAt : timeAt
        return refuse(layout.time ?? layout.date, cell(text, at), 'a time such as 18:30')
      }
      let warmth = Number.NaN
      if (temperatureAt >= 0) {
        const read = numberAt(text, temperatureAt)
        warmth = isFahrenheit ? celsiusFromFahrenheit(read) : read
        // An empty cell is a reading that was not taken, not a fault.
        if (!(warmth >= coldest && warmth <= hottest) && cell(text, temperatureAt).trim() !== '') {
          const accepted = `a temperature from ${coldest} to ${hottest} °C`
          return refuse(layout.temperature ?? 0, cell(text, temperatureAt), accepted)
        }
      }
      let damp = Number.NaN
      if (humidityAt >= 0) {
        damp = numberAt(text, humidityAt)
        if (!(damp >= 0 && damp <= 100) && cell(text, humidityAt).trim() !== '')
          return refuse(layout.humidity ?? 0, cell(text, humidityAt), 'a humidity from 0 to 100 percent')
      }
      days.push(lastDay)
      clocks.push(ms)
      celsius.push(warmth)
      percent.push(damp)
    },

    end: () => {
      const read = dates.readDates(texts.rows, 0, layout.names[layout.date] ?? 'date', answers.dateOrder)
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
      const midnights = texts.rows.map(({ row: at }) => {
        const day = read.days.get(at)
        return day ? Date.UTC(day.year, day.month - 1, day.day) : Number.NaN
      })
      const kept = new Uint32Array(days.length)
      const at = new Float64Array(days.length)
      let count = 0
      let rises = true
      for (let index = 0; index < days.length; index += 1) {
        const time = (midnights[days.at(index)] ?? Number.NaN) + clocks.at(index)
        at[index] = time
        if (Number.isNaN(time)) {
          badRows += 1
          continue
        }
        if (count > 0 && time < (at[kept[count - 1] ?? 0] ?? 0)) rises = false
        kept[count] = index
        count += 1
      }
      for (const fault of read.faults) if (first.length < NAMED_FAULTS) first.push(fault)
      if (count < 2)
        return failure(
          first.length > 0
            ? first
            : [{ field: 'logger file', value: `${count} readings`, accepted: 'at least two readings' }],
        )
      const order = kept.subarray(0, count)
      // Many loggers write the newest first, and a clock set back shows an hour twice.
      if (!rises) order.reverse().sort((one, other) => (at[one] ?? 0) - (at[other] ?? 0))
      const series = {
        times: new Float64Array(count),
        celsius: new Float64Array(count),
        percent: new Float64Array(count),
      }
      for (let index = 0; index < count; index += 1) {
        const from = order[index] ?? 0
        series.times[index] = at[from] ?? 0
        series.celsius[index] = celsius.at(from)
        series.percent[index] = percent.at(from)
      }
      return success({
        kind: 'series',
        series: { ...series, unreadable: { rows: badRows, first } },
      })
    },
  }
}
