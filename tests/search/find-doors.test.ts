import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { findDoors } from '../../src/search/find-doors.ts'
import { protocol, vocabulary } from './vocabulary.ts'

const doorsOf = (text: string) => findDoors(vocabulary, text).doors.map(({ id }) => id)
const screens = protocol.frame.doors.map(({ screen }) => screen)

test.each([
  ['butt thing hanging out', 'look-under'],
  ['goo in eye', 'eye'],
  ['wont poop', 'droppings'],
  ["won't poop", 'droppings'],
  ['leo not eating 2 wks', 'not-eating'],
  ['tail like a pencil', 'weight-loss'],
  ['stuk shed on toess', 'retained-shed'],
  ['brething noise', 'breathing'],
])('"%s" leads to %s first', (text, door) => {
  expect(doorsOf(text)[0]).toBe(door)
})

describe('words of danger put their danger screen first', () => {
  test.each([
    ['hanging out', 'look-under'],
    ['his tail is bleeding', 'look-blood'],
    ['not breathing', 'look-breathing'],
    ['she ate a firefly', 'look-harm'],
    ['she ate a fierfly', 'look-harm'],
    ['not eating, cold, and hes not breathing i think', 'look-breathing'],
    ['my cat got him', 'look-harm'],
    ['left in a hot car', 'look-accident'],
  ])('"%s": %s', (text, screen) => {
    expect(findDoors(vocabulary, text).doors[0]).toEqual({ kind: 'screen', id: screen, isDanger: true })
  })

  test('only where the words of the phrase stand together', () => {
    expect(doorsOf('not eating much, but she is breathing just as she always did before')[0]).toBe(
      'not-eating',
    )
  })

  test('and a word that only looks like one does not', () => {
    expect(doorsOf('head tilt')[0]).toBe('balance')
  })
})

test('two worries in one sentence lead to both doors', () => {
  expect(doorsOf('wont eat and one eye shut').slice(0, 2).sort()).toEqual(['eye', 'not-eating'])
})

test('what fits nothing leads to every danger screen, then to the door that takes everything', () => {
  for (const text of ['', '   ', 'xqzzk', 'the', '…', '42'])
    expect(findDoors(vocabulary, text)).toEqual({
      isFound: false,
      doors: [
        ...screens.map(id => ({ kind: 'screen', id, isDanger: false })),
        { kind: 'concern', id: vocabulary.nothingFound, isDanger: false },
      ],
    })
})

test('the first letters of a word find its door already', () => {
  expect(doorsOf('swoll')).toContain('lump')
})

test('whatever is typed, the doors are known, no door comes twice, and dangers stand before all others', () => {
  const words = vocabulary.concerns.flatMap(({ phrases }) => phrases)
  const typed = fc.oneof(
    fc.string(),
    fc.array(fc.constantFrom(...words, ...vocabulary.smallWords)).map(list => list.join(' ')),
  )
  fc.assert(
    fc.property(typed, text => {
      const { doors } = findDoors(vocabulary, text)
      const ids = doors.map(({ id }) => id)
      expect(ids.length).toBeGreaterThan(0)
      expect(new Set(ids).size).toBe(ids.length)
      for (const { id, kind } of doors)
        expect(kind === 'screen' ? screens : protocol.logic.concerns).toContain(id)
      const dangers = doors.map(({ isDanger }) => isDanger)
      expect(dangers).toEqual([...dangers].sort((a, b) => Number(b) - Number(a)))
    }),
    { numRuns: 200 },
  )
})
