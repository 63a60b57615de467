import fc from 'fast-check'
import { expect, test } from 'vitest'
import { recordEntrySchema } from '../../shared/record.ts'
import { isPlainWeighIn } from '../../src/records/plain-weigh-in.ts'
import { readEntries } from '../../src/records/read-entries.ts'
import { animalEntry, dailyWeighIns, weighInEntry } from './entries.ts'

const weighIn = weighInEntry('w1', 'dune', 'one', 1)

test('a damaged entry is skipped and each of its faults is named with its place', () => {
  const damaged = { ...weighIn, entryId: 'w2', weighIn: { at: 'yesterday', massGrams: 6000 } }
  const { entries, faults } = readEntries([weighIn, damaged])
  expect(entries).toEqual([weighIn])
  expect(faults).toEqual([
    {
      field: 'entries.w2.weighIn.at',
      value: 'yesterday',
      accepted: 'an instant such as 2026-11-25T02:10:00Z',
    },
    { field: 'entries.w2.weighIn.massGrams', value: '6000', accepted: 'at most 500' },
  ])
})

test.each([[null], [7], ['text'], [{ entryId: 5 }], [{ entryId: 'x', kind: 'danced' }], [[]]])(
  'a row that is no entry at all is named: %j',
  row => {
    const { entries, faults } = readEntries([row])
    expect(entries).toEqual([])
    expect(faults.length).toBeGreaterThan(0)
    expect(faults[0]?.field).toMatch(/^entries\./)
  },
)

test('every entry of ten years of daily weighing on an everyday instant takes the short way', () => {
  const weighIns = dailyWeighIns(3650).slice(1)
  expect(weighIns.filter(isPlainWeighIn).length).toBeGreaterThan(3650 * 0.9)
  expect(readEntries(weighIns)).toEqual({ entries: weighIns, faults: [] })
})

test('the short way takes only what the schema takes, as it is', () => {
  const odd = <Value>(usual: fc.Arbitrary<Value>) => fc.oneof({ arbitrary: usual, weight: 29 }, fc.anything())
  const pad = (number: number) => String(number).padStart(2, '0')
  const part = (min: number, max: number) =>
    fc
      .oneof(
        { arbitrary: fc.integer({ min, max }), weight: 19 },
        fc.constantFrom(min - 1, max + 1).map(Math.abs),
      )
      .map(pad)
  const instant = fc
    .tuple(
      fc.integer({ min: 1000, max: 2999 }),
      part(1, 12),
      part(1, 31),
      part(0, 23),
      part(0, 59),
      part(0, 59),
    )
    .map(
      ([year, month, day, hour, minute, second]) =>
        `${year}-${month}-${day}T${hour}:${minute}:${second}.000Z`,
    )
  const id = fc.oneof({ arbitrary: fc.string({ minLength: 1, maxLength: 64 }), weight: 29 }, fc.string())
  const number = (max: number) => odd(fc.double({ min: 0, max, noNaN: true }))
  const seldom = fc.integer({ min: 0, max: 19 }).map(drawn => drawn === 0)
  const weighInFields = fc.record(
    { at: odd(instant), massGrams: number(501), scaleStepGrams: number(51) },
    { requiredKeys: ['at', 'massGrams'], noNullPrototype: true },
  )
  const row = fc
    .tuple(
      fc.record(
        {
          entryId: odd(id),
          written: odd(instant),
          animalId: odd(id),
          kind: odd(fc.constant('weigh-in')),
          itemId: odd(id),
          weighIn: odd(weighInFields),
        },
        { noNullPrototype: true },
      ),
      seldom,
    )
    .map(([fields, hasMore]) => (hasMore ? { ...fields, note: 'more' } : fields))
  let taken = 0
  fc.assert(
    fc.property(row, value => {
      if (!isPlainWeighIn(value)) return
      taken += 1
      expect(recordEntrySchema.safeParse(value)).toEqual({ success: true, data: value })
    }),
    { numRuns: 5000 },
  )
  expect(taken).toBeGreaterThan(50)
})

test('what is not a plain weigh-in goes through the schema and gets in all the same', () => {
  const noted = {
    ...weighIn,
    entryId: 'w3',
    weighIn: { ...(weighIn.kind === 'weigh-in' && weighIn.weighIn), note: 'after a shed' },
  }
  const entries = [animalEntry('a', 'dune', 0), noted]
  expect(readEntries(entries)).toEqual({ entries, faults: [] })
})
