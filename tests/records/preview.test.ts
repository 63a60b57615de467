import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mergeEntries } from '../../src/records/entry-order.ts'
import { previewEntries } from '../../src/records/preview.ts'
import { replay } from '../../src/records/replay.ts'
import { animalEntry, markEntry, someEntries, weighInEntry } from './entries.ts'

const dune = animalEntry('a1', 'dune', 0, 'Dune')
const first = weighInEntry('w1', 'dune', 'one', 1, 50)
const second = weighInEntry('w2', 'dune', 'two', 2, 51)
const nothing = { isNew: false, isRemoved: false, new: 0, changed: 0, removed: 0, known: 0 }
const ofDune = { animalId: 'dune', name: 'Dune', ...nothing }

describe('the preview of a file', () => {
  test('counts what is new, changed, removed and known for each animal', () => {
    const third = weighInEntry('w3', 'dune', 'three', 3)
    const file = [
      dune,
      first,
      weighInEntry('w4', 'dune', 'two', 4, 52),
      markEntry('removed', 'r1', 'dune', 5, 'three'),
      weighInEntry('w5', 'dune', 'four', 5),
    ]
    expect(previewEntries([dune, first, second, third], file).animals).toEqual([
      { ...ofDune, new: 1, changed: 1, removed: 1, known: 1 },
    ])
  })

  test('says that an animal is new, or would go', () => {
    expect(previewEntries([], [dune, first]).animals).toEqual([{ ...ofDune, isNew: true, new: 1 }])
    expect(previewEntries([dune, first], [markEntry('removed', 'r1', 'dune', 5)]).animals).toEqual([
      { ...ofDune, isRemoved: true, removed: 1 },
    ])
  })

  test('says nothing of animals that the file does not name', () => {
    expect(previewEntries([dune, first], [animalEntry('a2', 'reed', 3, 'Reed')]).animals).toEqual([
      { ...ofDune, animalId: 'reed', name: 'Reed', isNew: true },
    ])
  })

  test('an older word of the file changes nothing', () => {
    const newer = weighInEntry('w4', 'dune', 'one', 9, 60)
    expect(previewEntries([dune, newer], [dune, first]).animals).toEqual([{ ...ofDune, known: 1 }])
  })

  test('the same file a second time has no entry to write', () => {
    expect(previewEntries([dune, first], [first, dune, first]).entries).toEqual([])
  })

  test('appending its entries comes to the merged record', () => {
    fc.assert(
      fc.property(someEntries, someEntries, (current, drawn) => {
        // Ids are the store's own; two files never give one id to two entries.
        const file = drawn.map((entry, at) => ({
          ...entry,
          entryId: at % 3 ? `file-${entry.entryId}` : entry.entryId,
        }))
        const honest = file.map(entry => current.find(({ entryId }) => entryId === entry.entryId) ?? entry)
        const { entries } = previewEntries(current, honest)
        expect(replay([...current, ...entries])).toEqual(replay(mergeEntries(current, honest)))
      }),
    )
  })
})
