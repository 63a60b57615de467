import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { RecordEntry } from '../../shared/record.ts'
import { replay, startReplay } from '../../src/records/replay.ts'
import { animalEntry, dailyWeighIns, instantOf, markEntry, someEntries, weighInEntry } from './entries.ts'

const dune = animalEntry('a1', 'dune', 0)
const first = weighInEntry('w1', 'dune', 'one', 1, 50)
const masses = (entries: readonly RecordEntry[]) =>
  replay(entries).animals.map(({ animalId, weighIns }) => [animalId, ...weighIns.map(one => one.massGrams)])

describe('replay', () => {
  test('the last written stands', () => {
    expect(masses([dune, first, weighInEntry('w2', 'dune', 'one', 2, 51)])).toEqual([['dune', 51]])
    expect(masses([dune, weighInEntry('w2', 'dune', 'one', 2, 51), first])).toEqual([['dune', 51]])
  })

  test('of two written at the same instant the greater entryId stands, however the instant is written', () => {
    const other = { ...weighInEntry('w2', 'dune', 'one', 1, 51), written: '2026-11-01T10:01:00+02:00' }
    expect(Date.parse(other.written)).toBe(Date.parse(first.written))
    expect(masses([dune, other, first])).toEqual([['dune', 51]])
  })

  test('what was removed is gone, and comes back with its last value', () => {
    const removed = markEntry('removed', 'r1', 'dune', 2, 'one')
    expect(masses([dune, first, removed])).toEqual([['dune']])
    expect(masses([dune, first, removed, markEntry('restored', 'r2', 'dune', 3, 'one')])).toEqual([
      ['dune', 50],
    ])
  })

  test('what was changed after it was removed stands: nothing a keeper wrote last is hidden', () => {
    const removed = markEntry('removed', 'r1', 'dune', 2, 'one')
    expect(masses([dune, first, removed, weighInEntry('w2', 'dune', 'one', 3, 52)])).toEqual([['dune', 52]])
  })

  test('a removed animal is gone with all it has, and comes back with it', () => {
    const removed = markEntry('removed', 'r1', 'dune', 2)
    expect(masses([dune, first, removed])).toEqual([])
    expect(masses([dune, first, removed, markEntry('restored', 'r2', 'dune', 3)])).toEqual([['dune', 50]])
  })

  test('a thing written under another animal has moved there', () => {
    const reed = animalEntry('a2', 'reed', 1)
    const moved = weighInEntry('w2', 'reed', 'one', 2, 50)
    expect(masses([dune, reed, first, moved])).toEqual([['dune'], ['reed', 50]])
    expect(masses([moved, first, reed, dune])).toEqual([['dune'], ['reed', 50]])
  })

  test('a thing that changes its kind leaves its old list', () => {
    const event: RecordEntry = {
      entryId: 'e1',
      written: instantOf(2),
      animalId: 'dune',
      kind: 'event',
      itemId: 'one',
      event: { at: instantOf(2), kind: 'meal' },
    }
    const [animal] = replay([dune, first, event]).animals
    expect(animal?.weighIns).toEqual([])
    expect(animal?.events).toEqual([{ ...event.event, itemId: 'one' }])
  })

  test('lists are in order of time, not of writing', () => {
    const late = weighInEntry('w2', 'dune', 'two', 2, 49, instantOf(0))
    expect(masses([dune, first, late])).toEqual([['dune', 49, 50]])
  })

  test('animals stand in the order they were added, renamed or not', () => {
    const entries = [animalEntry('a2', 'reed', 1), dune, animalEntry('a3', 'dune', 5, 'Zz')]
    expect(replay(entries).animals.map(({ animalId }) => animalId)).toEqual(['dune', 'reed'])
  })

  test('what is kept of an animal that nothing describes waits for it', () => {
    expect(masses([first])).toEqual([])
    expect(masses([first, dune])).toEqual([['dune', 50]])
  })

  test('the order in which entries come changes nothing, nor does taking some twice', () => {
    const shuffled = someEntries.chain(entries =>
      fc.tuple(
        fc.constant(entries),
        fc.shuffledSubarray(entries, { minLength: entries.length }),
        fc.subarray(entries),
      ),
    )
    fc.assert(
      fc.property(shuffled, ([entries, inOtherOrder, again]) => {
        expect(replay([...inOtherOrder, ...again])).toEqual(replay(entries))
      }),
    )
  })
})

describe('a record that grows', () => {
  test('comes to the same as all entries at once, in whatever pieces they come', () => {
    const pieces = fc.tuple(someEntries, fc.integer({ min: 1, max: 5 }))
    fc.assert(
      fc.property(pieces, ([entries, size]) => {
        const growing = startReplay()
        for (let at = 0; at < entries.length; at += size) growing.add(entries.slice(at, at + size))
        expect(growing.record()).toEqual(replay(entries))
      }),
    )
  })

  test('what did not change keeps its identity', () => {
    const growing = startReplay()
    const before = growing.add([dune, animalEntry('a2', 'reed', 1), first])
    const after = growing.add([weighInEntry('w2', 'reed', 'two', 3)])
    expect(after.animals[0]).toBe(before.animals[0])
    expect(after.animals[1]?.events).toBe(before.animals[1]?.events)
    expect(after.animals[1]).not.toBe(before.animals[1])
    expect(growing.add([first])).toBe(after)
  })

  test('one more weigh-in leaves ten years of them as they are', () => {
    const growing = startReplay()
    const before = growing.add(dailyWeighIns(3650))
    const after = growing.add([weighInEntry('w1', 'dune', 'new', 0, 53)])
    expect(after.animals[0]?.weighIns).toHaveLength(3651)
    expect(after.animals[0]?.weighIns[9]).toBe(before.animals[0]?.weighIns[9])
  })
})
