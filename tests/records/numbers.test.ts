import { describe, expect, test } from 'vitest'
import { decimalMarkOf, readNumber } from '../../src/records/numbers.ts'

describe('readNumber', () => {
  test.each([
    ['52', 52],
    [' 52.5 ', 52.5],
    ['52,5', 52.5],
    ['52,50', 52.5],
    ['0,125', 0.125],
    ['1,234.5', 1234.5],
    ['1,234,567', 1234567],
    ['-3', -3],
    ['0', 0],
  ])('reads %j', (text, value) => {
    expect(readNumber(text, 'weight')).toEqual({ ok: true, value })
  })

  test('a comma before three digits may mean two numbers and is refused with both', () => {
    expect(readNumber('1,234', 'weight')).toEqual({
      ok: false,
      faults: [
        { field: 'weight', value: '1,234', accepted: 'a number that means one thing, such as 1.234 or 1234' },
      ],
    })
  })

  test.each([
    [',', 1.234],
    ['.', 1234],
  ] as const)('unless other numbers of its column have shown that %j is the decimal mark', (mark, value) => {
    expect(readNumber('1,234', 'weight', mark)).toEqual({ ok: true, value })
  })

  test.each(['', '52g', '5 2', '1e3', '0x10', '5,2,1', '52.', '.', 'NaN', 'Infinity'])('refuses %j', text => {
    expect(readNumber(text, 'weight')).toMatchObject({
      ok: false,
      faults: [{ field: 'weight', value: text }],
    })
  })
})

test.each([
  [['52,5', '1,234'], ','],
  [['52.5', '1,234'], '.'],
  [['52', '1,234'], undefined],
  [['52,5', '52.5'], undefined],
  [['1,234.5'], '.'],
])('the decimal mark of %j is %j', (texts, mark) => {
  expect(decimalMarkOf(texts)).toBe(mark)
})
