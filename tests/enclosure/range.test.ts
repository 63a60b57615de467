import { describe, expect, it } from 'vitest'
import type { InstrumentKind, Quantity } from '../../shared/enclosure.ts'
import { judgeRange, positionIn } from '../../src/enclosure/range.ts'

const QUANTITY: Quantity = {
  id: 'sand',
  name: 'Sand',
  of: 'sand',
  unit: 'celsius',
  places: 1,
  rows: [
    { source: 'a', low: 30, high: 30, note: 'about 30' },
    { source: 'b', high: 35, note: 'up to 35' },
    { source: 'c', note: 'a few degrees lower' },
  ],
  used: { low: 30, high: 35, basis: 'project-judgement' },
  evidence: [],
}
const STICK: InstrumentKind = {
  id: 'stick',
  name: 'stick',
  accuracy: [{ unit: 'celsius', plusMinus: 1, source: 'maker', note: 'dry' }],
}

describe('a reading against its range', () => {
  it.each([
    [29.9, 'below', 0.1],
    [30, 'inside', 0],
    [35, 'inside', 0],
    [36.5, 'above', 1.5],
  ])('%d is %s by %d, both ends included', (value, position, outBy) => {
    expect(judgeRange(value, QUANTITY, undefined)).toMatchObject({ position, outBy })
  })

  it('stands to every published row of its own', () => {
    const rows = judgeRange(33, QUANTITY, undefined).rows.map(({ position }) => position)
    expect(rows).toEqual(['above', 'inside', 'no-range'])
  })

  it('has no position where there is no range', () => {
    expect(positionIn(5, {})).toBe('no-range')
  })
})

describe('whether the instrument alone could explain it', () => {
  it.each([
    [28.9, 'no'],
    [29, 'yes'],
    [30.5, 'yes'],
    [32, 'no'],
    [34, 'yes'],
    [36.1, 'no'],
  ] as const)('a stick that may be off by 1 and shows %d: %s', (value, could) => {
    expect(judgeRange(value, QUANTITY, STICK).instrument.couldBeOtherSide).toBe(could)
  })

  it('is not known for a kind without a stated width, or for another unit', () => {
    expect(judgeRange(29.9, QUANTITY, { ...STICK, accuracy: [] }).instrument.couldBeOtherSide).toBe(
      'not-known',
    )
    const damp = { ...QUANTITY, unit: 'percent' }
    expect(judgeRange(29.9, damp, STICK).instrument.couldBeOtherSide).toBe('not-known')
  })
})
