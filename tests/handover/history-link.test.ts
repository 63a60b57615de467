import { describe, expect, it } from 'vitest'
import { packHistory, unpackHistory } from '../../src/handover/history-packing.ts'
import { decodeLink, encodeLink } from '../../src/handover/link/codec.ts'
import { HISTORY_LINK } from '../../src/handover/links.ts'
import { fullestHistory, NOW } from './fullest.ts'

describe('a history in a link', () => {
  const fullest = fullestHistory()

  it('comes back as it went in, to the last fact', async () => {
    const data = await encodeLink(HISTORY_LINK, fullest)
    expect(await decodeLink(HISTORY_LINK, data)).toEqual({ ok: true, value: fullest })
  })

  it('holds every answer, twenty reasons and three years of weekly weights in 8,000 characters', async () => {
    expect(fullest.weights.weighIns).toHaveLength(157)
    expect(fullest.answers.length).toBeGreaterThan(80)
    expect(fullest.guide.reasons.length).toBeGreaterThanOrEqual(20)
    const data = await encodeLink(HISTORY_LINK, fullest)
    expect(`#history/${data}`.length).toBeLessThanOrEqual(8_000)
  })

  it('keeps scales that changed, weights in hundredths and facts without a time', () => {
    const history = {
      ...fullest,
      weights: {
        weighIns: [
          { at: '2026-01-01T00:00:00Z', massGrams: 3.25, scaleStepGrams: 0.01 },
          { at: '2026-02-01T00:00:00Z', massGrams: 4, scaleStepGrams: 1 },
          { at: '2026-02-02T00:00:00Z', massGrams: 4.1 },
        ],
      },
      underVet: [{ label: 'said', value: 'without a time', tag: 'told' as const }],
    }
    expect(unpackHistory(packHistory(history))).toEqual(history)
  })

  const packed = packHistory(fullest)
  it.each([
    ['times beyond every life', { minutes: packed.minutes.map(() => 99_999_999) }],
    ['a zone that is none', { made: { instant: NOW.instant, zone: 'Nowhere/Never' } }],
    ['a year in which no days are counted', { made: { instant: '0001-01-01T00:00:00Z', zone: 'UTC' } }],
    ['places that are not there', { answers: [[1999, 300]] as [number, number][] }],
    ['one list of everything many times', { answers: Array(300).fill([0, 300]) }],
    ['columns that do not match', { values: packed.values.slice(1) }],
    ['tags that are none', { tags: packed.tags.replace('0', '9') }],
    ['weights without a mass', { weights: { ...packed.weights, masses: [] } }],
    ['steps without end', { weights: { ...packed.weights, steps: Array(20_000).fill([4000, null]) } }],
    ['text of two lines', { readAloud: 'one\ntwo' }],
  ])('is no history with %s', (_, change) => {
    const read = unpackHistory({ ...packed, ...change })
    // Places beyond the list name nothing; everything else is refused.
    if (_ === 'places that are not there') expect(read?.answers).toEqual([])
    else expect(read).toBeUndefined()
  })
})
