import fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { cellsOf, numberBetween, numberIn } from '../../src/enclosure/logger/cells.ts'
import { thinned } from '../../src/enclosure/logger/plot.ts'
import { loggerOutcome, loggerSummary } from './real.ts'

/** Rows of an invented logger: the clock in minutes after midnight of a day in May, and what it showed. */
function rowsOf(
  count: number,
  stepMinutes: number,
  line: (clock: Date, at: number) => string,
  from = '2026-05-04T00:00:00Z',
): string[] {
  return Array.from({ length: count }, (_, at) =>
    line(new Date(Date.parse(from) + at * stepMinutes * 60_000), at),
  )
}
const iso = (clock: Date) => clock.toISOString().slice(0, 19).replace('T', ' ')
const two = (number: number) => String(number).padStart(2, '0')

// Every file says the same: 48 readings, half an hour apart, 24.5 °C and 41 %, one of 30.5 °C at 06:00.
const warmthAt = (at: number) => (at === 12 ? 30.5 : 24.5)
const SHAPES: readonly (readonly [name: string, text: string])[] = [
  [
    'comma, ISO dates, units in brackets',
    [
      'Timestamp,Temperature(°C),Relative Humidity(%)',
      ...rowsOf(48, 30, (clock, at) => `${iso(clock)},${warmthAt(at)},41`),
    ].join('\n'),
  ],
  [
    'semicolon, decimal comma, German names, points in dates, CRLF',
    [
      'Datum;Uhrzeit;Temperatur [°C];Luftfeuchtigkeit [%]',
      ...rowsOf(
        48,
        30,
        (clock, at) =>
          `04.05.2026;${two(clock.getUTCHours())}:${two(clock.getUTCMinutes())};${String(warmthAt(at)).replace('.', ',')};41,0`,
      ),
    ].join('\r\n'),
  ],
  [
    'tabs, Fahrenheit, month first, am and pm, settings above the table',
    [
      'Device name\tSet 3',
      'Serial\t000000',
      '',
      'No.\tTime\tTemperature_Fahrenheit\tRelative_Humidity',
      ...rowsOf(48, 30, (clock, at) => {
        const hour = clock.getUTCHours()
        const half = hour < 12 ? 'AM' : 'PM'
        // The 13th settles that the month stands first.
        return `${at + 1}\t5/13/2026 ${hour % 12 || 12}:${two(clock.getUTCMinutes())}:00 ${half}\t${warmthAt(at) * 1.8 + 32}\t41`
      }),
    ].join('\n'),
  ],
  [
    'all cells quoted, newest first, instants with Z',
    [
      '"Date/Time","Temp (C)","RH (%)"',
      ...rowsOf(48, 30, (clock, at) => `"${clock.toISOString()}","${warmthAt(at)}","41.0"`).reverse(),
    ].join('\n'),
  ],
  [
    'units in the cells and none in the names, month names',
    [
      'Date, Temp, Humidity',
      ...rowsOf(
        48,
        30,
        (clock, at) =>
          `4 May 2026 ${two(clock.getUTCHours())}:${two(clock.getUTCMinutes())}, ${warmthAt(at)} °C, 41 %`,
      ),
    ].join('\n'),
  ],
  [
    'a mark of the coding first, and a degree sign that lost its coding',
    `\uFEFFDate,Time,Temperature (Â°C),Humidity (%RH)\n${rowsOf(48, 30, (clock, at) => `2026-05-04,${clock.toISOString().slice(11, 16)},${warmthAt(at)},41`).join('\n')}\n`,
  ],
]

describe('files of many loggers', () => {
  it.each(SHAPES)('%s', (_name, text) => {
    const { temperature, humidity, stepSeconds, readings, unreadable } = loggerSummary(text, {
      place: 'at-cool-end',
    })
    expect({ readings, stepSeconds, unreadable: unreadable.rows }).toEqual({
      readings: 48,
      stepSeconds: 1800,
      unreadable: 0,
    })
    // By day 24.5 lies within 20 to 27; by night all lies above 20.
    expect(temperature?.day).toMatchObject({ hours: 12, insidePercent: 100 })
    expect(temperature?.night?.highest).toMatchObject({ value: 30.5 })
    expect(temperature?.night?.highest.at).toMatch(/T06:00:00$/)
    expect(humidity?.day).toMatchObject({ insidePercent: 100, lowest: { value: 41 } })
  })

  it.each(SHAPES)('%s: the same in pieces of any length', (_name, text) => {
    const whole = loggerSummary(text, {}, text.length)
    for (const piece of [1, 7, 64]) expect(loggerSummary(text, {}, piece)).toEqual(whole)
  })
})

describe('what a file does not tell is asked', () => {
  const question = (text: string, answers = {}) => {
    const outcome = loggerOutcome(text, answers)
    return outcome.ok && outcome.value.kind === 'question' ? outcome.value.question : undefined
  }
  const NO_UNIT = 'Date,Temperature\n2026-05-04 10:00,75\n2026-05-04 11:00,77\n'

  it('the unit', () => {
    expect(question(NO_UNIT)).toMatchObject({
      answer: 'temperatureUnit',
      accepted: ['celsius', 'fahrenheit'],
      seen: ['Date: 2026-05-04 10:00', 'Temperature: 75'],
    })
    expect(loggerSummary(NO_UNIT, { temperatureUnit: 'fahrenheit' }).temperature?.day?.highest.value).toBe(25)
  })

  it('which of two temperatures, and takes the one that is named', () => {
    const text =
      'Date,Channel 1 Temperature (°C),Channel 2 Temperature (°C)\n2026-05-04 10:00,24,31\n2026-05-04 11:00,24,33\n'
    expect(question(text)?.answer).toBe('temperatureColumn')
    const { temperature } = loggerSummary(text, { temperatureColumn: 'Channel 2 Temperature (°C)' })
    expect(temperature?.day?.highest.value).toBe(33)
  })

  it('the column of a table without names', () => {
    const text = '2026-05-04 10:00,24.1,1013\n2026-05-04 11:00,24.3,1012\n'
    expect(question(text)).toMatchObject({ answer: 'temperatureColumn', accepted: ['2', '3'] })
    expect(question(text, { temperatureColumn: '2' })?.answer).toBe('temperatureUnit')
    const summary = loggerSummary(text, { temperatureColumn: '2', temperatureUnit: 'celsius' })
    expect(summary.temperature?.day?.highest.value).toBe(24.3)
  })

  it('whether day or month stands first, unless one row settles it', () => {
    const open = 'Date,Temp (°C)\n03/04/2026 10:00,24\n04/04/2026 10:00,25\n'
    expect(question(open)).toMatchObject({ answer: 'dateOrder', accepted: ['day-first', 'month-first'] })
    expect(loggerSummary(open, { dateOrder: 'day-first' }).to).toBe('2026-04-04T10:00:00')
    expect(loggerSummary(`${open}25/04/2026 10:00,25\n`).from).toBe('2026-04-03T10:00:00')
  })

  it('names exact words before names that only hold the word', () => {
    const text =
      'Date,Temperature (°C),Dew point temperature (°C)\n2026-05-04 10:00,24,8\n2026-05-04 11:00,25,9\n'
    expect(loggerSummary(text).temperature?.day?.highest.value).toBe(25)
  })
})

describe('faults', () => {
  it('are named by row and column, and the other rows are read', () => {
    const text = [
      'Date,Temp (°C),RH (%)',
      '2026-05-04 10:00,24,40',
      '2026-05-04 10:30,many,40',
      '2026-05-04 25:00,24,40',
      '2026-05-04 11:30,24,140',
      '2026-13-04 12:00,24,40',
      '2026-05-04 12:30,999,40',
      '2026-05-04 13:00',
      '2026-05-04 13:30,24,"40',
      '2026-05-04 14:00,,41',
      '2026-05-04 14:30,25,40',
    ].join('\n')
    const { readings, unreadable } = loggerSummary(text)
    expect(readings).toBe(3)
    expect(unreadable.rows).toBe(7)
    expect(unreadable.first.map(({ field, value }) => `${field}: ${value}`)).toEqual([
      'row 3, Temp (°C): many',
      'row 4, Date: 2026-05-04 25:00',
      'row 5, RH (%): 140',
      'row 7, Temp (°C): 999',
      'row 8: 2026-05-04 13:00',
      'row 9: 2026-05-04 13:30,24,"40',
      'row 6, Date: 2026-13-04',
    ])
  })

  it.each([
    ['an empty file', ''],
    ['a letter', 'Dear vet,\nmy gecko is cold.\n'],
    ['a header alone', 'Date,Temp (°C)\n'],
  ])('%s is refused with a sentence', (_name, text) => {
    const outcome = loggerOutcome(text)
    expect(outcome.ok).toBe(false)
    expect(outcome.ok ? '' : outcome.faults[0]?.accepted).not.toBe('')
  })

  it('a place that is none is refused', () => {
    const outcome = loggerOutcome(SHAPES[0]?.[1] ?? '', { place: 'on-the-roof' })
    expect(outcome).toMatchObject({ ok: false, faults: [{ field: 'logger.place', value: 'on-the-roof' }] })
  })
})

describe('what a year of readings says', () => {
  const file = (rows: readonly string[]) => ['Date,Temp (°C)', ...rows].join('\n')

  it('shares of time, lows, highs and the longest cold spell', () => {
    // Two days at the warm spot: 32 °C, but 28 °C from 10:00 to 13:00 on the first and to 15:00 on the second.
    const cold = (clock: Date) =>
      clock.getUTCHours() >= 10 && clock.getUTCHours() < (clock.getUTCDate() === 4 ? 13 : 15)
    const { temperature, longestCold } = loggerSummary(
      file(rowsOf(96, 30, clock => `${iso(clock)},${cold(clock) ? 28 : 32}`)),
      { place: 'at-warm-spot' },
    )
    // 8 of 24 hours of day are cold.
    expect(temperature?.day).toMatchObject({
      hours: 24,
      insidePercent: 66.7,
      belowPercent: 33.3,
      abovePercent: 0,
    })
    expect(temperature?.night).toMatchObject({ insidePercent: 100 })
    expect(longestCold).toEqual({
      from: '2026-05-05T10:00:00',
      to: '2026-05-05T15:00:00',
      hours: 5,
      lowest: 28,
    })
  })

  it('a reading stands for the time until the next, and for one step before a gap', () => {
    const rows = [
      ...rowsOf(6, 10, clock => `${iso(clock)},19`),
      '2026-05-04 12:00:00,25',
      '2026-05-04 12:10:00,25',
    ]
    const { gaps, temperature, longestCold } = loggerSummary(file(rows), { place: 'at-warm-spot' })
    expect(gaps).toEqual({
      count: 1,
      hours: 11.17,
      longest: { from: '2026-05-04T00:50:00', to: '2026-05-04T12:00:00', hours: 11.17 },
    })
    expect(temperature?.night).toMatchObject({ hours: 1, belowPercent: 100 })
    expect(longestCold).toMatchObject({ from: '2026-05-04T00:00:00', to: '2026-05-04T01:00:00', hours: 1 })
  })

  it('swing and overshoot of a thermostat that cuts in at 31 and out at 33, running over by 0.5', () => {
    // Up half a degree a minute to 33.5, down to 30.5, again and again.
    const wave = (at: number) => 30.5 + 3 - Math.abs((at % 12) * 0.5 - 3)
    const { thermostat } = loggerSummary(file(rowsOf(600, 1, (clock, at) => `${iso(clock)},${wave(at)}`)), {
      place: 'at-warm-spot',
      setCelsius: 33,
    })
    expect(thermostat).toMatchObject({
      typicalCelsius: 3,
      largestCelsius: 3,
      overshoot: { typicalCelsius: 0.5, largestCelsius: 0.5 },
    })
  })

  it('day and night are no swing of the thermostat', () => {
    const slow = (at: number) => 27 + 5 * Math.sin((at / 144) * 2 * Math.PI)
    const summary = loggerSummary(
      file(rowsOf(1440, 10, (clock, at) => `${iso(clock)},${slow(at).toFixed(2)}`)),
    )
    expect(summary.thermostat).toBeUndefined()
  })

  it('an hour that the clock shows twice is read in order of time', () => {
    const rows = [
      '2026-10-25 01:30:00,20',
      '2026-10-25 02:30:00,21',
      '2026-10-25 02:00:00,22',
      '2026-10-25 03:00:00,23',
    ]
    expect(loggerSummary(file(rows))).toMatchObject({
      readings: 4,
      from: '2026-10-25T01:30:00',
      to: '2026-10-25T03:00:00',
    })
  })
})

describe('the plot', () => {
  it('keeps lowest and highest, stays in order, and has at most two points a bucket', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -20, max: 60, noNaN: true }), { minLength: 2, maxLength: 3000 }),
        fc.integer({ min: 10, max: 100 }),
        (list, buckets) => {
          const values = Float64Array.from(list)
          const points = thinned(
            Float64Array.from(list, (_, at) => at * 60_000),
            values,
            buckets,
          )
          expect(points.length).toBeLessThanOrEqual(2 * buckets)
          const shown = points.map(({ value }) => value)
          expect(Math.min(...shown)).toBe(Math.min(...list))
          expect(Math.max(...shown)).toBe(Math.max(...list))
          const times = points.map(({ at }) => at)
          expect(times).toEqual([...times].sort((one, other) => one - other))
        },
      ),
      { numRuns: 200 },
    )
  })
})

describe('cells', () => {
  it('are those that Papa Parse finds in the same line (RFC 4180)', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '1', '.', '"', ',', ' ', '°'), maxLength: 6 })
    fc.assert(
      fc.property(
        fc.array(cell, { minLength: 2, maxLength: 6 }),
        fc.constantFrom(',', ';', '\t'),
        (cells, delimiter) => {
          const line = Papa.unparse([cells], { delimiter, quotes: cells.some(one => /^\s|\s$/.test(one)) })
          expect(cellsOf(line, delimiter)).toEqual(Papa.parse<string[]>(line, { delimiter }).data[0])
        },
      ),
      { numRuns: 1000 },
    )
  })

  it('a number between two places is the number of that text', () => {
    const letter = fc.constantFrom('0', '1', '9', '.', ',', '-', '+', ' ', 'e', '°', 'C', '%')
    fc.assert(
      fc.property(fc.string({ unit: letter, maxLength: 8 }), fc.boolean(), (text, comma) => {
        expect(numberBetween(`7${text}7`, 1, 1 + text.length, comma)).toBe(numberIn(text, comma))
      }),
      { numRuns: 3000 },
    )
  })

  it.each([
    ['23.5', false, 23.5],
    ['23,5', true, 23.5],
    [' -1.5 °C', false, -1.5],
    ['74.3 °F', false, 74.3],
    ['41 %RH', false, 41],
    ['41%', false, 41],
    ['', false, Number.NaN],
    ['--', false, Number.NaN],
    ['warm', false, Number.NaN],
  ])('"%s" is the number %d', (text, comma, number) => {
    expect(numberIn(text, comma)).toBe(number)
  })
})
