import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readDates } from '../../../src/records/csv/date-column.ts'
import { dayText, readDate, readTime } from '../../../src/records/csv/dates.ts'

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August']
const THE_REST = ['September', 'October', 'November', 'December']
const NAMES = [...MONTHS, ...THE_REST]

const meaning = (text: string): unknown => {
  const date = readDate(text)
  if (date?.kind === 'one') return dayText(date.day)
  return date && [date.dayFirst && dayText(date.dayFirst), date.monthFirst && dayText(date.monthFirst)]
}

describe('readDate', () => {
  test('reads any day in every style that can mean one day only', () => {
    const day = fc.date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
    fc.assert(
      fc.property(day, date => {
        const iso = date.toISOString().slice(0, 10)
        const [year = '', month = '', dayOfMonth = ''] = iso.split('-')
        const name = NAMES[Number(month) - 1] ?? ''
        const [m, d] = [Number(month), Number(dayOfMonth)]
        const styles = [
          iso,
          `${year}/${month}/${dayOfMonth}`,
          `${dayOfMonth}.${month}.${year}`,
          `${d}.${m}.${year.slice(2)}`,
          `${d}. ${m}. ${year}`,
          `${d} ${name} ${year}`,
          `${d}-${name.slice(0, 3)}-${year.slice(2)}`,
          `${name} ${d}, ${year}`,
          `${name.slice(0, 3).toUpperCase()}. ${d} ${year}`,
          `${d}th ${name} ${year}`,
          `Monday, ${d} ${name} ${year}`,
        ]
        expect(styles.map(meaning)).toEqual(styles.map(() => iso))
      }),
    )
  })

  test.each([
    ['03/04/2025', ['2025-04-03', '2025-03-04']],
    ['3-4-25', ['2025-04-03', '2025-03-04']],
    ['25/4/2025', ['2025-04-25', undefined]],
    ['4/25/2025', [undefined, '2025-04-25']],
    ['5/5/2025', '2025-05-05'],
  ])('%s is %j', (text, days) => {
    expect(meaning(text)).toEqual(days)
  })

  test.each([
    '',
    'yesterday',
    '2025-02-30',
    '31.4.2025',
    '13/13/2025',
    '3/4',
    '2025',
    '45750',
    '3 Foo 2025',
    '29 Feb 2025',
    '1-2/2025',
  ])('%j is no date', text => {
    expect(readDate(text)).toBeUndefined()
  })

  test('what stands behind the day is left for the time', () => {
    expect(readDate('2025-04-03T18:30:00+02:00')).toMatchObject({ day: { rest: '18:30:00+02:00' } })
    expect(readDate('3.4.2025, 18:30')).toMatchObject({ day: { rest: '18:30' } })
    expect(readDate('4/25/25 6:30 PM')).toMatchObject({ monthFirst: { rest: '6:30 PM' } })
  })
})

describe('readTime', () => {
  const HOUR = 3_600_000
  test.each([
    ['18:30', 18.5 * HOUR, undefined],
    ['06.30', 6.5 * HOUR, undefined],
    ['18h30', 18.5 * HOUR, undefined],
    ['6:30 pm', 18.5 * HOUR, undefined],
    ['6 p.m.', 18 * HOUR, undefined],
    ['12 am', 0, undefined],
    ['12:15 PM', 12.25 * HOUR, undefined],
    ['18:30:05.250', 18.5 * HOUR + 5250, undefined],
    ['18:30Z', 18.5 * HOUR, 0],
    ['18:30:00+05:30', 18.5 * HOUR, 330],
    ['18:30-0800', 18.5 * HOUR, -480],
  ])('%s', (text, ms, offsetMinutes) => {
    expect(readTime(text)).toEqual({ ms, offsetMinutes })
  })

  test.each(['24:00', '18:60', '13 pm', '0 am', '18', 'evening', '18:3'])('%j is no time', text => {
    expect(readTime(text)).toBeUndefined()
  })
})

describe('the dates of one column', () => {
  const column = (...texts: readonly string[]) => texts.map((text, at) => ({ row: at + 2, cells: [text] }))
  const daysOf = (texts: readonly string[], answer?: 'day-first' | 'month-first') =>
    [...readDates(column(...texts), 0, 'date', answer).days.values()].map(dayText)

  test('one row settles the order for all', () => {
    expect(daysOf(['03/04/2025', '25/04/2025'])).toEqual(['2025-04-03', '2025-04-25'])
    expect(daysOf(['03/04/2025', '04/25/2025'])).toEqual(['2025-03-04', '2025-04-25'])
  })

  test('where none settles it, it is asked once with both meanings', () => {
    const { question, faults } = readDates(
      column('2025-01-09', '03/04/2025', '05/06/2025'),
      0,
      'date',
      undefined,
    )
    expect(faults).toEqual([])
    expect(question).toEqual({
      kind: 'date-order',
      row: 3,
      text: '03/04/2025',
      dayFirst: '2025-04-03',
      monthFirst: '2025-03-04',
    })
  })

  test('the answer is taken, and what the file settles goes before it', () => {
    expect(daysOf(['03/04/2025'], 'day-first')).toEqual(['2025-04-03'])
    expect(daysOf(['03/04/2025'], 'month-first')).toEqual(['2025-03-04'])
    expect(daysOf(['03/04/2025', '25/04/2025'], 'month-first')).toEqual(['2025-04-03', '2025-04-25'])
  })

  test('rows that settle it differently are both named', () => {
    const { faults } = readDates(column('25/04/2025', '04/25/2025'), 0, 'date', undefined)
    expect(faults).toEqual([
      {
        field: 'row 3, date',
        value: '04/25/2025',
        accepted: 'one order in all rows; 25/04/2025 in row 2 has the day first',
      },
    ])
  })

  test('what is no date is named with its row and field', () => {
    expect(readDates(column('2025-01-09', 'spring'), 0, 'Weighed', undefined).faults).toEqual([
      {
        field: 'row 3, Weighed',
        value: 'spring',
        accepted: 'a date such as 2025-04-03, 3.4.2025 or 3 April 2025',
      },
    ])
  })
})
