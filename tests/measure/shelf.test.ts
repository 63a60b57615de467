import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Level } from '../../shared/urgency.ts'
import { rankOf } from '../../shared/urgency.ts'
import { type ShelfAnimal, type ShelfPolicy, shelf } from '../../src/measure/shelf.ts'
import type { WeightReport } from '../../src/measure/weightReport.ts'
import { day, event, grid, on, policy, weekly, weighed } from './fixtures/record.ts'

const shelfPolicy: ShelfPolicy = {
  weight: policy,
  grid,
  grownFromDays: 365,
  losingFromPercent: 5,
  endedBy: ['died'],
  signals: [
    {
      id: 'several',
      anyOf: ['losing', 'loose-droppings'],
      atLeastAnimals: 2,
      withinDays: 30,
      urgency: 'week',
    },
    { id: 'death', anyOf: ['died'], atLeastAnimals: 1, withinDays: 30, urgency: 'week' },
  ],
}

/** The levels of an invented protocol: a tenth in two weeks is a day, any other loss of a tenth a week. */
const levelOf = (_: ShelfAnimal, { comparison }: WeightReport): Level | undefined => {
  const worst = comparison.losses.at(-1)
  if (worst === undefined || worst.lossPercent < 10) return undefined
  return worst.overDays <= 14 ? { urgency: 'day', withinHours: 24 } : { urgency: 'week', withinHours: 72 }
}

const steady = weekly([60, 60.2, 60, 60.1, 60])
const fell = weekly([60, 61, 60, 60.5, 52])
const slid = weighed({ 0: 60, 28: 52 })
const gecko = (name: string, weighIns: ShelfAnimal['weighIns'], more: Partial<ShelfAnimal> = {}) => ({
  name,
  weighIns,
  events: [],
  ...more,
})
const run = (animals: ShelfAnimal[], today = 28) => shelf(animals, shelfPolicy, on(today), levelOf)
const names = (animals: ShelfAnimal[], today?: number) => run(animals, today).rows.map(row => row.animal.name)
const room = (name: string, rack?: string, tub?: string) => ({ place: { room: name, rack, tub } })

describe('the order of a shelf', () => {
  it('is by urgency first, then by percent lost, then by name', () => {
    const lost6 = weighed({ 0: 60, 28: 56.4 })
    const animals = [
      gecko('steady b', steady, room('1')),
      gecko('steady a', steady, room('2')),
      gecko('lost 6 percent', lost6, room('3')),
      gecko('slid', slid, room('4')),
      gecko('fell', fell, room('5')),
    ]
    expect(names(animals)).toEqual(['fell', 'slid', 'lost 6 percent', 'steady a', 'steady b'])
  })

  it('puts a smaller loss with the higher urgency before a larger one', () => {
    const slidFar = weighed({ 0: 60, 28: 45 })
    expect(names([gecko('far', slidFar, room('1')), gecko('fell', fell, room('2'))])).toEqual(['fell', 'far'])
  })

  it('does not depend on the order of the file, and every animal stands in it once', () => {
    const kinds = fc.constantFrom(steady, fell, slid, [])
    fc.assert(
      fc.property(fc.array(kinds, { maxLength: 8 }), series => {
        const animals = series.map((weighIns, index) => gecko(`g${index}`, weighIns, room(String(index % 3))))
        const there = run(animals)
        const back = run([...animals].reverse())
        expect(back.rows.map(row => row.animal.name)).toEqual(there.rows.map(row => row.animal.name))
        expect(there.rows).toHaveLength(series.length)
        const ranks = there.rows.map(({ atLeast }) => (atLeast ? rankOf(atLeast) : 0))
        expect(ranks).toEqual([...ranks].sort((one, other) => other - one))
      }),
    )
  })

  it('tells grown from young by the hatch date', () => {
    const [row] = run([gecko('young', weekly([20, 20, 20.1, 20.1]), { hatchedOn: '2025-11-01' })]).rows
    expect(row?.report.flags.youngNotGaining).toMatchObject({ holds: true })
  })
})

describe('the signals of a group', () => {
  it('are up when two in one room lose, and give every contact at least a week', () => {
    const { signals, rows } = run([
      gecko('one', fell, room('east', 'A', '1')),
      gecko('two', slid, room('east', 'A', '2')),
      gecko('contact', steady, room('east', 'B', '1')),
      gecko('elsewhere', steady, room('west', 'A', '1')),
    ])
    expect(signals).toHaveLength(1)
    expect(signals[0]).toMatchObject({ id: 'several', room: 'east', racks: ['A'] })
    expect(signals[0]?.showing.map(({ name, place }) => [name, place?.tub])).toEqual([
      ['one', '1'],
      ['two', '2'],
    ])
    expect(signals[0]?.contacts).toEqual(['one', 'two', 'contact'])
    const levels = Object.fromEntries(rows.map(row => [row.animal.name, row.atLeast?.urgency]))
    expect(levels).toEqual({ one: 'day', two: 'week', contact: 'week', elsewhere: undefined })
    expect(rows.find(row => row.animal.name === 'one')?.bySignals).toEqual(['several'])
  })

  it('stay down with one that loses, or with two in two rooms', () => {
    expect(run([gecko('one', fell, room('east')), gecko('two', steady, room('east'))]).signals).toEqual([])
    expect(run([gecko('one', fell, room('east')), gecko('two', fell, room('west'))]).signals).toEqual([])
  })

  it('count a loss together with loose droppings that were seen', () => {
    const loose = { ...room('east'), seen: [{ at: day(20), kind: 'loose-droppings' }] }
    expect(run([gecko('one', fell, room('east')), gecko('two', steady, loose)]).signals).toMatchObject([
      { id: 'several', racks: [] },
    ])
  })

  it('do not count what an event explains, nor what was last weighed long ago', () => {
    const tailed = (name: string) =>
      gecko(name, weighed({ 0: 60, 4: 46 }), { events: [event('tail-lost', 1)], ...room('east') })
    expect(run([tailed('one'), tailed('two')], 5).signals).toEqual([])
    expect(run([gecko('one', fell, room('east')), gecko('two', fell, room('east'))], 60).signals).toEqual([])
  })

  it('treat animals without a room as standing together', () => {
    expect(run([gecko('one', fell), gecko('two', slid)]).signals[0]).toMatchObject({
      room: undefined,
      contacts: ['one', 'two'],
    })
  })

  it('are up after one death, for the others of that room; the dead one is last and not due', () => {
    const dead = { ...room('east'), seen: [{ at: day(25), kind: 'died' }] }
    const { signals, rows, due } = run([
      gecko('dead', fell, dead),
      gecko('mate', steady, room('east')),
      gecko('far', steady, room('west')),
    ])
    expect(signals.map(({ id }) => id)).toEqual(['death'])
    expect(rows.map(row => row.animal.name)).toEqual(['mate', 'far', 'dead'])
    expect(rows.at(-1)).toMatchObject({ ended: { at: day(25), kind: 'died' }, atLeast: undefined })
    expect(due.map(({ name }) => name)).not.toContain('dead')
  })

  it('forget a death of long ago, and one that is dated ahead', () => {
    for (const at of [day(-10), day(40)]) {
      const dead = { ...room('east'), seen: [{ at, kind: 'died' }] }
      expect(run([gecko('dead', steady, dead), gecko('mate', steady, room('east'))]).signals).toEqual([])
    }
  })
})

describe('the list of who is due', () => {
  it('is in the order of time, and says whose time has come and where', () => {
    const { due } = run([
      gecko('later', weekly([60, 60, 60, 60, 60]), { ...room('1'), hatchedOn: '2020-06-01' }),
      gecko('never weighed', [], room('2')),
      gecko('long ago', weighed({ 0: 60 }), room('3', 'A', '7')),
    ])
    expect(due.map(({ name, isDue }) => [name, isDue])).toEqual([
      ['long ago', true],
      ['never weighed', true],
      ['later', false],
    ])
    expect(due[0]?.place).toEqual({ room: '3', rack: 'A', tub: '7' })
    expect(due[2]?.next.dueAt).toBe(day(35))
  })
})
