import { describe, expect, test } from 'vitest'
import { dayAfter, readCount, readDay, readGrams, stepFor } from '../../../src/app/record/read-fields.ts'

const now = { instant: '2026-11-25T02:10:00Z', zone: 'America/New_York' }

describe('a weight', () => {
  test.each([
    ['58', 58],
    ['58.4', 58.4],
    ['58,4', 58.4],
    [' 58 g ', 58],
  ])('is read from “%s”', (text, value) => {
    expect(readGrams(text)).toEqual({ value })
  })

  test.each(['0', '-5', '6000', 'heavy', '58 kg'])(
    'is refused as “%s”, with the field, the value and what is accepted',
    text => {
      expect(readGrams(text)).toEqual({
        fault: `Weight cannot be “${text}”. Accepted: a weight above 0 g and up to 500 g, such as 58 or 58.4.`,
      })
    },
  )

  test('that is empty is called empty', () => {
    expect(readGrams(' ')).toEqual({
      fault: 'Weight is empty. Accepted: a weight above 0 g and up to 500 g, such as 58 or 58.4.',
    })
  })
})

describe('a day', () => {
  test('of today in the keeper’s zone is now', () => {
    expect(readDay('2026-11-24', now)).toEqual({ value: now.instant })
  })

  test('gone by is its noon in that zone', () => {
    expect(readDay('2026-11-20', now)).toEqual({ value: '2026-11-20T17:00:00.000Z' })
  })

  test.each(['2026-11-25', '2030-01-01', '2026-02-31', 'yesterday'])('“%s” is refused', day => {
    expect(readDay(day, now)).toEqual({ fault: `Day cannot be “${day}”. Accepted: a day up to today.` })
  })
})

test('a count is a whole number in its range, or nothing', () => {
  expect(readCount('Eaten', '', 0, 500)).toEqual({ value: undefined })
  expect(readCount('Eaten', '7', 0, 500)).toEqual({ value: 7 })
  expect(readCount('Eaten', '7.5', 0, 500)).toEqual({
    fault: 'Eaten cannot be “7.5”. Accepted: a whole number from 0 to 500.',
  })
})

test('the next line of a notebook is so many days later, over the end of a month', () => {
  expect(dayAfter('2026-02-25', 7)).toBe('2026-03-04')
})

test('a number with decimals makes the scale step finer, and never coarser', () => {
  expect(stepFor(58, 1)).toBe(1)
  expect(stepFor(58.4, 1)).toBe(0.1)
  expect(stepFor(58.45, 0.1)).toBe(0.01)
  expect(stepFor(58, 0.1)).toBe(0.1)
  expect(stepFor(57, 2)).toBe(1)
})
