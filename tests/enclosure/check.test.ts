import { describe, expect, it } from 'vitest'
import { type Answers, checked, checkedWith, realEnclosure } from './real.ts'

const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id)

describe('a home in order', () => {
  it('shows no fault and leaves nothing open but what only a meter tells', () => {
    const check = checkedWith({})
    expect(ids(check.faults)).toEqual([])
    expect(ids(check.open)).toEqual(['uv-too-strong', 'uv-above-zone', 'too-little-food'])
    expect(check.missing.map(({ item }) => item)).toEqual([
      'uv-index',
      'uv-distance',
      'uv-lamp-age',
      'last-change',
    ])
  })

  it('carries no urgency and no word that all is well', () => {
    expect(JSON.stringify(checkedWith({}))).not.toMatch(/urgency|"well"/)
  })
})

// The ten commonest faults, from readings as an owner gives them, each first for the concern it causes.
const TEN: readonly (readonly [name: string, changes: Answers, concern: string, fault: string])[] = [
  [
    'a cold warm spot',
    { 'warm-spot': { amount: 81, unit: 'fahrenheit' }, 'cool-side': 22 },
    'not-eating',
    'warm-spot-too-cold',
  ],
  ['no thermostat', { thermostat: 'none', 'probe-place': 'no-probe' }, 'wound', 'no-thermostat'],
  ['no damp hide', { 'damp-hide': 'none', humidity: 40 }, 'retained-shed', 'no-damp-hide'],
  ['dry air', { humidity: 22 }, 'retained-shed', 'air-too-dry'],
  ['wet air', { humidity: 78, 'wall-drops': 'most-days' }, 'breathing', 'air-too-wet'],
  [
    'UV too strong',
    { 'uv-lamp': 'uv-compact', 'uv-mesh': 'open-air', 'uv-index': 4.5, 'calcium-d3': 'some-feeds' },
    'eye',
    'uv-too-strong',
  ],
  ['no UV and no D3', { 'calcium-d3': 'never', 'calcium-plain': 'every-feed' }, 'legs', 'no-uv-no-d3'],
  [
    'UV and D3 both in excess',
    { 'uv-lamp': 'uv-tube', 'uv-mesh': 'mesh', 'uv-index': 1.2, 'calcium-d3': 'every-feed' },
    'routine-check',
    'uv-and-much-d3',
  ],
  [
    'a loose floor with poor heat',
    { 'floor-cover': 'sand', 'warm-spot': 27 },
    'droppings',
    'loose-floor-and-cold',
  ],
  ['company', { company: 'with-others' }, 'wound', 'kept-with-others'],
]

describe('the ten commonest faults', () => {
  it.each(TEN)('%s is found, first for what it causes', (_name, changes, concern, fault) => {
    const [first] = checkedWith(changes, concern).faults
    expect(first?.id).toBe(fault)
    expect(first?.causeRank).toBe(1)
  })

  it.each(TEN)('%s is not found in a home in order', (_name, _changes, concern, fault) => {
    expect(ids(checkedWith({}, concern).faults)).not.toContain(fault)
  })

  it.each(TEN)('%s has a fix with steps, cautions and a time to look again', (_name, changes, concern) => {
    const [first] = checkedWith(changes, concern).faults
    expect(first?.steps.length).toBeGreaterThan(0)
    expect(first?.cautions.length).toBeGreaterThan(0)
    expect(first?.recheck.hours).toBeGreaterThan(0)
    // A beginner can follow what begins with what to do, in sentences of at most 18 words.
    for (const { text } of first?.steps ?? []) expect(text).toMatch(/^[A-Z][a-z]/)
  })

  it('whoever changes heat is told of thermostat, burns, fire, and to measure again before the gecko goes back', () => {
    for (const fault of realEnclosure().faults)
      if (fault.steps.some(({ touches }) => touches.includes('heat')))
        expect(fault.cautions).toEqual(expect.arrayContaining(['thermostat', 'burns', 'fire', 'settle']))
  })
})

// Common practice, no source: what keepers and vets take for granted.
describe('common practice', () => {
  it('a mat held at 92 °F by a thermostat is inside the range of the warm spot', () => {
    const check = checkedWith({ 'warm-spot': { amount: 92, unit: 'fahrenheit' } })
    expect(check.readings.find(({ quantity }) => quantity === 'warm-surface')?.position).toBe('inside')
    expect(ids(check.faults)).toEqual([])
  })

  it.each([35, 45])(
    '%d percent with a damp hide is accepted, and without one flagged in a shed concern',
    humidity => {
      expect(ids(checkedWith({ humidity }, 'retained-shed').faults)).toEqual([])
      expect(checkedWith({ humidity, 'damp-hide': 'none' }, 'retained-shed').faults[0]?.id).toBe(
        'no-damp-hide',
      )
    },
  )

  it('a UV index of 1.8 is flagged with shade advice and not as too strong', () => {
    const check = checkedWith({
      'uv-lamp': 'uv-tube',
      'uv-mesh': 'mesh',
      'uv-index': 1.8,
      'calcium-d3': 'some-feeds',
    })
    expect(ids(check.faults)).toEqual(['uv-above-zone'])
    expect(check.faults[0]?.steps[0]?.text).toMatch(/shade/)
    expect(check.light).toMatchObject({ position: 'aboveZone', shade: true })
  })

  it('a floor of 36 x 18 in suits one adult', () => {
    const floor: Answers = {
      'floor-length': { amount: 36, unit: 'inches' },
      'floor-width': { amount: 18, unit: 'inches' },
    }
    expect(ids(checkedWith(floor).faults)).toEqual([])
  })

  it.each(['hatchling', 'juvenile'])('a tub of about 9 litres suits a %s', age => {
    const tub: Answers = { age, 'feed-rhythm': 'daily', 'floor-length': 32, 'floor-width': 20 }
    expect(ids(checkedWith(tub).faults)).toEqual([])
  })

  it('more than 2 ft is long for a subadult, and 2 ft is not', () => {
    const long = (inches: number): Answers => ({
      age: 'subadult',
      'floor-length': { amount: inches, unit: 'inches' },
    })
    expect(ids(checkedWith(long(24)).faults)).toEqual([])
    expect(ids(checkedWith(long(36)).faults)).toEqual(['home-too-large-for-young'])
  })

  it.each([
    ['water at the warm end', { 'water-place': 'warm-end' }, 'no-water'],
    ['a second gecko', { company: 'with-others' }, 'kept-with-others'],
    ['light at night', { 'night-light': 'coloured' }, 'light-at-night'],
  ] as const)('%s is a fault', (_name, changes, fault) => {
    expect(ids(checkedWith(changes).faults)).toContain(fault)
  })
})

describe('what is not known', () => {
  it('leaves every fault open, none found, and says how to find out in five minutes', () => {
    const check = checked({ answers: { 'warm-spot': 'not-known-yet' } })
    expect(check.faults).toEqual([])
    expect(check.open.find(({ id }) => id === 'warm-spot-too-cold')?.missing).toEqual(['warm-spot'])
    expect(check.missing).toHaveLength(realEnclosure().items.length)
    expect(check.missing.every(({ findOut }) => findOut.length > 20)).toBe(true)
  })

  it('humidity without its place leaves dry air open; inside the damp hide it is no air at all', () => {
    const { 'humidity-place': _place, ...answers } = { humidity: 22, 'humidity-place': '' }
    const open = checked({ answers })
    expect(ids(open.open)).toContain('air-too-dry')
    const inside = checkedWith({ humidity: 80, 'humidity-place': 'in-damp-hide' })
    expect(ids(inside.faults)).toEqual([])
    expect(inside.readings.map(({ quantity }) => quantity)).not.toContain('room-humidity')
  })
})

describe('instruments', () => {
  it('says that an infrared thermometer alone could explain 29.2 °C, and that it cannot explain 27', () => {
    const by = (amount: number) =>
      checkedWith({ 'warm-spot': { amount, instrument: 'infrared' } }).faults.find(
        ({ id }) => id === 'warm-spot-too-cold',
      )
    expect(by(29.2)?.instrumentDoubt).toBe(true)
    expect(by(27)?.instrumentDoubt).toBe(false)
  })

  it('says so where nobody states how far a kind may be off', () => {
    const reading = checkedWith({ 'warm-spot': 29.2, 'thermometer-kind': 'dial-gauge' }).readings.find(
      ({ quantity }) => quantity === 'warm-surface',
    )
    expect(reading?.instrument).toEqual({
      kind: 'dial-gauge',
      name: 'dial gauge',
      couldBeOtherSide: 'not-known',
    })
    expect(reading?.instrumentSays).toMatch(/not known/)
  })
})

it('counts the days since anything was changed', () => {
  expect(checked({ answers: { 'last-change': { began: '2026-11-20T12:00:00Z' } } }).daysSinceChange).toBe(4)
})

it('shows the same air elsewhere, the dew point and a wet wall', () => {
  const check = checkedWith({ humidity: 60, 'cool-side': 26, 'night-low': 17, 'humidity-place': 'cool-end' })
  expect(check.air?.readAt).toEqual({ place: 'cool-end', celsius: 26, percent: 60 })
  expect(check.air?.coolest).toMatchObject({ item: 'night-low', wet: true })
  expect(ids(check.faults)).toEqual(expect.arrayContaining(['water-on-walls', 'cold-nights']))
})

describe('what light means together with powders', () => {
  const UNDER_A_TUBE: Answers = {
    'uv-lamp': 'uv-tube',
    'uv-mesh': 'mesh',
    'calcium-d3': 'never',
    'calcium-plain': 'every-feed',
  }

  it('a tube and plain calcium fit', () => {
    expect(checkedWith(UNDER_A_TUBE).light.supplements).toMatchObject({ fit: 'uvPlain', wrong: false })
  })

  it('the same tube behind glass counts as no UV', () => {
    const check = checkedWith({ ...UNDER_A_TUBE, 'uv-mesh': 'glass-or-plastic' }, 'legs')
    expect(check.light.supplements).toMatchObject({ fit: 'noUvPlainOnly', wrong: true })
    expect(ids(check.faults)).toEqual(['uv-behind-glass', 'no-uv-no-d3'])
  })

  it('a meter that shows nothing counts for more than the print on the lamp', () => {
    expect(checkedWith({ ...UNDER_A_TUBE, 'uv-index': 0 }).light.supplements.fit).toBe('noUvPlainOnly')
  })

  it('names both wrong ways', () => {
    const both = checkedWith({ ...UNDER_A_TUBE, 'calcium-d3': 'every-feed' }).light.supplements
    const neither = checkedWith({ 'calcium-d3': 'never' }).light.supplements
    expect([both.fit, neither.fit]).toEqual(['uvAndD3', 'noUvNoD3'])
    expect([both.wrong, neither.wrong]).toEqual([true, true])
  })
})

it('a cool end below 20 °C is too cold, by day too', () => {
  expect(ids(checkedWith({ 'cool-side': 17 }, 'breathing').faults)).toEqual(['cold-nights'])
})
