import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readTable, tableText } from '../../../src/records/csv/table.ts'

const cellsOf = (text: string) => {
  const read = readTable(text)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return [read.value.header, ...read.value.rows].map(({ cells }) => cells)
}

// RFC 4180 (Shafranovich, October 2005), section 2: the examples of its seven rules.
describe('RFC 4180, section 2', () => {
  test.each([
    ['1: each record on a line of its own', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n', 'zzz,yyy,xxx'],
    ['2: the last line may lack its end', 'aaa,bbb,ccc\r\nzzz,yyy,xxx', 'zzz,yyy,xxx'],
    ['3: a header of the same form', 'field_name,field_name,field_name\r\naaa,bbb,ccc\r\n', 'aaa,bbb,ccc'],
    ['5: fields in quotation marks', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx', 'zzz,yyy,xxx'],
  ])('%s', (_rule, text, second) => {
    expect(cellsOf(text)[1]).toEqual(second.split(','))
  })

  test('4: spaces are part of a field', () => {
    expect(cellsOf(' aaa ,bbb\r\n1, 2')).toEqual([
      [' aaa ', 'bbb'],
      ['1', ' 2'],
    ])
  })

  test('5: quotation marks around every field', () => {
    expect(cellsOf('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')[0]).toEqual(['aaa', 'bbb', 'ccc'])
  })

  test('6: line breaks and commas inside quotation marks', () => {
    expect(cellsOf('"aaa","b\r\nbb","c,cc"\r\nzzz,yyy,xxx')[0]).toEqual(['aaa', 'b\r\nbb', 'c,cc'])
  })

  test('7: a quotation mark inside is written twice', () => {
    expect(cellsOf('"aaa","b""bb","ccc"\r\nzzz,yyy,xxx')[0]).toEqual(['aaa', 'b"bb', 'ccc'])
  })

  test('what is written keeps to them: CRLF, and quotation marks where they are needed', () => {
    expect(
      tableText([
        ['aaa', 'b"b', 'c,c'],
        ['a\r\na', 'b', ''],
      ]),
    ).toBe('aaa,"b""b","c,c"\r\n"a\r\na",b,\r\n')
  })
})

test('the separator is the one under which the header makes sense', () => {
  expect(cellsOf('date;weight\n2025-04-03;52,5')).toEqual([
    ['date', 'weight'],
    ['2025-04-03', '52,5'],
  ])
  expect(cellsOf('date\tweight, about\n2025-04-03\t52,5')[1]).toEqual(['2025-04-03', '52,5'])
})

test('rows are numbered as a spreadsheet does, empty ones and line breaks inside cells counted so', () => {
  const read = readTable('\n"da\nte",weight\n\n1,2\n,\n3,4\n')
  expect(read.ok && [read.value.header, ...read.value.rows].map(({ row }) => row)).toEqual([2, 4, 6])
})

test('a quotation mark that is never closed is named with its row', () => {
  expect(readTable('date,weight,note\n2025-04-03,52,"shed wh')).toEqual({
    ok: false,
    faults: [
      {
        field: 'row 2',
        value: '2025-04-03,52,shed wh',
        accepted: 'every quotation mark closed again; where the file breaks off, copy it again',
      },
    ],
  })
})

test('names without a row below them are no table', () => {
  expect(readTable('date,weight\n\n')).toMatchObject({ ok: false, faults: [{ field: 'file' }] })
})

describe('no cell that a spreadsheet would run', () => {
  // Which cells: common practice, as OWASP's page on CSV injection lists them (from memory).
  test.each(['=1+1', '+1', '-1', '@a', '\tx', '\rx'])('%j is marked on the way out', cell => {
    expect(
      tableText([
        [cell, 'b'],
        ['c', 'd'],
      ]),
    ).not.toMatch(/(^|[,\n"])[=+\-@\t\r]/)
  })

  test('and every cell comes back as it was', () => {
    const cell = fc
      .oneof(
        fc.string(),
        fc.string({ unit: fc.constantFrom(...`'"=+-@,;\t\r\n a`) }),
        fc.string({ unit: 'grapheme' }),
      )
      // Control characters are written as spaces: no text holds them.
      .filter(text => ![...text].some(letter => letter < ' ' && !'\t\n\v\f\r'.includes(letter)))
    const rows = fc
      .integer({ min: 2, max: 4 })
      .chain(width =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 2, maxLength: 4 }),
      )
      // A comma is chosen where no header tells; the first column says so here.
      .map(drawn => drawn.map((cells, at) => [at === 0 ? 'weight' : 'x', ...cells]))
    fc.assert(
      fc.property(rows, drawn => {
        expect(cellsOf(tableText(drawn))).toEqual(drawn)
      }),
      { numRuns: 500 },
    )
  })
})
