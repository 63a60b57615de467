import { describe, expect, it } from 'vitest'
import { type Draft, NO_LINE, readDraft, readDrafts } from '../../../src/app/enclosure/drafts.ts'
import {
  caseOfAnswers,
  draftsOfCase,
  draftsOfRecord,
  readingsOf,
} from '../../../src/app/enclosure/prefill.ts'
import { numbersFor, rangeWords } from '../../../src/app/enclosure/words.ts'
import { NOW_MS, realEnclosure } from '../../enclosure/real.ts'

const enclosure = realEnclosure()
const item = (id: string) => {
  const found = enclosure.items.find(one => one.id === id)
  if (!found) throw new Error(`no item ${id}`)
  return found
}
const read = (id: string, draft: Draft) => readDraft(item(id), draft, NOW_MS)
const given = '2026-11-25T02:00:00Z'

describe('what stands in the fields is read', () => {
  it('takes a point or a comma, and °F and inches turned into the unit of the item', () => {
    expect(read('warm-spot', { text: '31.5' })).toEqual({ kind: 'amount', amount: 31.5 })
    expect(read('warm-spot', { text: ' 31,5 ' })).toEqual({ kind: 'amount', amount: 31.5 })
    // 86 °F is 30 °C exactly, 92 °F is 33.33 °C; 36 inches are 91.44 cm (UCUM [degF], [in_i]).
    expect(read('warm-spot', { text: '86', unit: 'fahrenheit' })).toEqual({ kind: 'amount', amount: 30 })
    expect(read('warm-spot', { text: '92', unit: 'fahrenheit' })).toEqual({ kind: 'amount', amount: 33.333 })
    expect(read('floor-length', { text: '36', unit: 'inches' })).toEqual({ kind: 'amount', amount: 91.44 })
    expect(read('night-low', { text: '-2' })).toEqual({ kind: 'amount', amount: -2 })
  })

  it('leaves what is empty unknown, whatever its kind', () => {
    for (const id of ['warm-spot', 'thermostat', 'heat-source', 'last-change'])
      expect(read(id, { text: ' ', picked: '', ticked: [] })).toBeUndefined()
  })

  it.each([
    ['warm-spot', 'hot', undefined, 'a number from 0 to 70 °C'],
    ['warm-spot', '90', undefined, 'a number from 0 to 70 °C'],
    ['warm-spot', '200', 'fahrenheit', 'a number from 32 to 158 °F'],
    ['humidity', '120', undefined, 'a number from 0 to 100 %'],
    ['humidity', '1e1', undefined, 'a number from 0 to 100 %'],
    ['floor-width', '3', undefined, 'a number from 5 to 400 cm'],
    ['light-hours', '25', undefined, 'a number from 0 to 24 hours'],
    ['uv-index', '-1', undefined, 'a number from 0 to 30'],
  ] as const)('%s does not take %s', (id, text, unit, accepted) => {
    expect(read(id, { text, ...(unit ? { unit } : {}) })).toBe(
      `This reading cannot be “${text}”. Accepted: ${accepted}.`,
    )
  })

  it('tells none of these from nothing ticked', () => {
    expect(read('heat-source', { ticked: [NO_LINE] })).toEqual({ kind: 'several', chosen: [] })
    expect(read('heat-source', { ticked: ['heat-mat'] })).toEqual({ kind: 'several', chosen: ['heat-mat'] })
  })

  it('takes no option that the item does not have', () => {
    expect(read('thermostat', { picked: 'perhaps' })).toBeUndefined()
  })

  it('keeps a fault apart and goes on with the rest', () => {
    const { given: told, faults } = readDrafts(
      enclosure,
      { 'warm-spot': { text: 'x' }, 'cool-side': { text: '24' } },
      NOW_MS,
    )
    expect([...told.answers.keys()]).toEqual(['cool-side'])
    expect(Object.keys(faults)).toEqual(['warm-spot'])
  })
})

describe('what is known already is filled in', () => {
  const reading = { itemId: 'one', at: given, unit: 'celsius' }

  it('takes the newest reading of the record, with what and where it was measured', () => {
    const drafts = draftsOfRecord(
      enclosure,
      {
        readings: [
          { ...reading, what: 'warm-spot', value: 33, measuredWith: 'infrared' },
          { ...reading, at: '2026-11-01T02:00:00Z', what: 'warm-spot', value: 27, measuredWith: 'probe' },
          { ...reading, what: 'humidity', value: 40, unit: 'percent', measuredWhere: 'cool-end' },
        ],
      },
      at => at.slice(0, 10),
    )
    expect(drafts['warm-spot']).toEqual({ text: '33', from: 'From the record, 2026-11-25.', isKept: true })
    expect(drafts['thermometer-kind']?.picked).toBe('infrared')
    expect(drafts['humidity-place']?.picked).toBe('cool-end')
  })

  it('takes a reading in °F, and leaves out one of another kind of unit or thing', () => {
    const drafts = draftsOfRecord(
      enclosure,
      {
        readings: [
          { ...reading, what: 'warm-spot', value: 86, unit: 'fahrenheit' },
          { ...reading, what: 'cool-side', value: 50, unit: 'percent' },
          { ...reading, what: 'moonlight', value: 1 },
        ],
      },
      () => '',
    )
    expect(Object.keys(drafts)).toEqual(['warm-spot'])
    expect(drafts['warm-spot']?.text).toBe('30')
  })

  it('takes what a case shares with it, and nothing that could not be told', () => {
    const answers = {
      'warm-spot': { kind: 'amount', amount: 27, given },
      company: { kind: 'choice', choice: 'with-others', given },
      age: { kind: 'cannot-tell', given },
      breathing: { kind: 'choice', choice: 'open-mouth', given },
    } as const
    expect(Object.keys(draftsOfCase(enclosure, answers, NOW_MS)).sort()).toEqual(['company', 'warm-spot'])
    expect([...caseOfAnswers(enclosure, answers, NOW_MS).answers.values()]).toEqual([
      { kind: 'amount', amount: 27 },
      { kind: 'choice', choice: 'with-others' },
    ])
  })

  it('writes for the record what was typed, and not what the record gave', () => {
    const drafts = {
      'warm-spot': { text: '90', unit: 'fahrenheit' },
      'cool-side': { text: '24', isKept: true },
      'thermometer-kind': { picked: 'probe' },
      humidity: { text: '45' },
      'humidity-place': { picked: 'cool-end' },
    } as const
    const { given: told } = readDrafts(enclosure, drafts, NOW_MS)
    expect(readingsOf(enclosure, told, drafts, given)).toEqual([
      { at: given, what: 'warm-spot', value: 32.222, unit: 'celsius', measuredWith: 'probe' },
      { at: given, what: 'humidity', value: 45, unit: 'percent', measuredWhere: 'cool-end' },
    ])
  })
})

describe('numbers are written', () => {
  const plain = numbersFor('en-GB', {})
  const inFahrenheit = numbersFor('en-GB', { 'warm-spot': { text: '90', unit: 'fahrenheit' } })

  it('in °C, and in °F beside it for whoever types °F', () => {
    expect(plain.of(32.2, 'celsius')).toBe('32.2 °C')
    expect(inFahrenheit.of(30, 'celsius')).toBe('30 °C (86 °F)')
    // A difference has no 32 in it: 5 °C apart are 9 °F apart.
    expect(inFahrenheit.apart(5, 'celsius')).toBe('5 °C (9 °F)')
    expect(inFahrenheit.of(40, 'percent')).toBe('40 %')
  })

  it('as ranges with the unit said once', () => {
    expect(rangeWords({ low: 30, high: 35 }, 'celsius', plain)).toBe('30 to 35 °C')
    expect(rangeWords({ low: 30, high: 35 }, 'celsius', inFahrenheit)).toBe('30 °C (86 °F) to 35 °C (95 °F)')
    expect(rangeWords({ low: 20 }, 'celsius', plain)).toBe('20 °C or more')
    expect(rangeWords({ high: 1.4 }, 'uv-index', plain)).toBe('up to 1.4')
    expect(rangeWords({}, 'percent', plain)).toBe('no number')
  })
})
