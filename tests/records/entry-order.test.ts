import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mergeEntries, textOf } from '../../src/records/entry-order.ts'
import { animalEntry, someEntries, weighInEntry } from './entries.ts'

/** Three lists that share entries, and now and then hold different ones under one id. */
const lists = fc.tuple(someEntries, someEntries, someEntries)

describe('mergeEntries', () => {
  test('is the same from either side', () => {
    fc.assert(
      fc.property(lists, ([a, b]) => {
        expect(mergeEntries(a, b)).toEqual(mergeEntries(b, a))
      }),
    )
  })

  test('is the same in any grouping', () => {
    fc.assert(
      fc.property(lists, ([a, b, c]) => {
        expect(mergeEntries(mergeEntries(a, b), c)).toEqual(mergeEntries(a, mergeEntries(b, c)))
      }),
    )
  })

  test('adds nothing the second time', () => {
    fc.assert(
      fc.property(lists, ([a, b]) => {
        const merged = mergeEntries(a, b)
        expect(mergeEntries(merged, b)).toEqual(merged)
      }),
    )
  })

  test('has every id of both lists once', () => {
    fc.assert(
      fc.property(lists, ([a, b]) => {
        const ids = mergeEntries(a, b).map(({ entryId }) => entryId)
        expect(ids.length).toBe(new Set(ids).size)
        expect(new Set(ids)).toEqual(new Set([...a, ...b].map(({ entryId }) => entryId)))
      }),
    )
  })

  test('gives entries in the order they were written', () => {
    const [late, early] = [weighInEntry('w', 'dune', 'one', 5), animalEntry('z', 'dune', 1)]
    expect(mergeEntries([late], [early])).toEqual([early, late])
  })
})

test('textOf does not depend on the order of fields', () => {
  expect(textOf({ b: [{ d: 1, c: 2 }], a: undefined })).toBe(textOf({ b: [{ c: 2, d: 1 }] }))
})
