import { describe, expect, test } from 'vitest'
import { type RecordEntry, recordEntrySchema } from '../../shared/record.ts'
import * as actions from '../../src/records/actions.ts'
import type { Writing } from '../../src/records/keeper-store.ts'
import { replay } from '../../src/records/replay.ts'
import { instantOf } from './entries.ts'

/** A keeper at work: every action comes a minute after the one before. */
function atWork() {
  const entries: RecordEntry[] = []
  let minute = 0
  let names = 0
  const writing = (): Writing => {
    minute += 1
    return {
      written: instantOf(minute),
      newId: () => {
        names += 1
        return `id-${names}`
      },
    }
  }
  return {
    entries,
    does: (make: (writing: Writing) => RecordEntry): RecordEntry => {
      const entry = make(writing())
      entries.push(entry)
      return entry
    },
    undoes: (done: RecordEntry) => entries.push(actions.undo(writing(), done, entries)),
    masses: () =>
      replay(entries).animals.map(({ animal, weighIns }) => [
        animal.name,
        ...weighIns.map(({ massGrams }) => massGrams),
      ]),
  }
}

function withOneWeighIn() {
  const keeper = atWork()
  const { animalId } = keeper.does(writing => actions.addAnimal(writing, { name: 'Dune' }))
  const saved = keeper.does(writing =>
    actions.saveWeighIn(writing, animalId, { at: instantOf(0), massGrams: 60 }),
  )
  const itemId = 'itemId' in saved ? (saved.itemId ?? '') : ''
  const changed = (massGrams: number) =>
    keeper.does(writing =>
      actions.change(writing, animalId, itemId, {
        kind: 'weigh-in',
        weighIn: { at: instantOf(0), massGrams },
      }),
    )
  return { keeper, animalId, itemId, saved, changed }
}

test('every action makes an entry that the schema takes', () => {
  const { keeper, animalId, itemId } = withOneWeighIn()
  const protocol = { species: 'newt', version: '1', hash: 'a' }
  keeper.does(writing => actions.saveEvent(writing, animalId, { at: instantOf(0), kind: 'meal' }))
  keeper.does(writing =>
    actions.saveReading(writing, animalId, { at: instantOf(0), what: 'air', value: 24, unit: 'celsius' }),
  )
  keeper.does(writing =>
    actions.keepAssessment(writing, animalId, {
      at: instantOf(0),
      zone: 'UTC',
      protocol,
      caseFile: { answers: {} },
      urgency: 'home',
    }),
  )
  keeper.does(writing => actions.changeAnimal(writing, animalId, { name: 'Dune', sex: 'female' }))
  keeper.does(writing => actions.remove(writing, animalId, itemId))
  keeper.does(writing => actions.restore(writing, animalId, itemId))
  keeper.does(writing => actions.remove(writing, animalId))
  for (const entry of keeper.entries)
    expect(recordEntrySchema.safeParse(entry)).toEqual({ success: true, data: entry })
  expect(new Set(keeper.entries.map(({ entryId }) => entryId)).size).toBe(9)
})

describe('undo', () => {
  test('of the first save takes the thing out again', () => {
    const { keeper, saved } = withOneWeighIn()
    keeper.undoes(saved)
    expect(keeper.masses()).toEqual([['Dune']])
  })

  test('of a change brings the value before it back', () => {
    const { keeper, changed } = withOneWeighIn()
    changed(61)
    keeper.undoes(changed(62))
    expect(keeper.masses()).toEqual([['Dune', 61]])
  })

  test('of a removal brings the last value back', () => {
    const { keeper, animalId, itemId, changed } = withOneWeighIn()
    changed(61)
    keeper.undoes(keeper.does(writing => actions.remove(writing, animalId, itemId)))
    expect(keeper.masses()).toEqual([['Dune', 61]])
  })

  test('of a change to something removed removes it again', () => {
    const { keeper, animalId, itemId, changed } = withOneWeighIn()
    keeper.does(writing => actions.remove(writing, animalId, itemId))
    keeper.undoes(changed(61))
    expect(keeper.masses()).toEqual([['Dune']])
  })

  test('of a restoration removes it again', () => {
    const { keeper, animalId, itemId } = withOneWeighIn()
    keeper.does(writing => actions.remove(writing, animalId, itemId))
    keeper.undoes(keeper.does(writing => actions.restore(writing, animalId, itemId)))
    expect(keeper.masses()).toEqual([['Dune']])
  })

  test('of a move brings it back to the animal it was with', () => {
    const { keeper, itemId } = withOneWeighIn()
    const reed = keeper.does(writing => actions.addAnimal(writing, { name: 'Reed' }))
    keeper.undoes(
      keeper.does(writing =>
        actions.change(writing, reed.animalId, itemId, {
          kind: 'weigh-in',
          weighIn: { at: instantOf(0), massGrams: 60 },
        }),
      ),
    )
    expect(keeper.masses()).toEqual([['Dune', 60], ['Reed']])
  })

  test('of a removed animal brings it back with all it has', () => {
    const { keeper, animalId } = withOneWeighIn()
    const removed = keeper.does(writing => actions.remove(writing, animalId))
    expect(keeper.masses()).toEqual([])
    keeper.undoes(removed)
    expect(keeper.masses()).toEqual([['Dune', 60]])
  })

  test('of a new name brings the old one back', () => {
    const { keeper, animalId } = withOneWeighIn()
    keeper.undoes(keeper.does(writing => actions.changeAnimal(writing, animalId, { name: 'Fern' })))
    expect(keeper.masses()).toEqual([['Dune', 60]])
  })
})
