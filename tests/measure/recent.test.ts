import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { AnimalEvent } from '../../shared/case-file.ts'
import { recentWeighIns } from '../../src/measure/recent.ts'
import { type WeightReport, weightReport } from '../../src/measure/weightReport.ts'
import { day, event, on, policy, weekly } from './fixtures/record.ts'

const DAYS = 2000

/** Weighings at odd gaps over some years, with slow waves, odd ones and falls. */
const record = fc
  .array(
    fc.record({
      gap: fc.constantFrom(0, 0.3, 1, 1, 1, 3, 7, 7, 30, 90),
      change: fc.constantFrom(-1, -0.5, -0.2, 0, 0, 0.2, 0.5, 1, -9, 9),
    }),
    { minLength: 45, maxLength: 400 },
  )
  .map(steps => {
    let days = DAYS - steps.reduce((sum, { gap }) => sum + gap, 0)
    let massGrams = 60
    return steps.map(({ gap, change }) => {
      days += gap
      massGrams = Math.min(90, Math.max(30, massGrams + change))
      return { at: day(days), massGrams: Math.round(10 * massGrams) / 10, scaleStepGrams: 0.1 }
    })
  })

const events: fc.Arbitrary<AnimalEvent[]> = fc
  .array(
    fc.record({
      kind: fc.constantFrom<AnimalEvent['kind']>('tail-lost', 'eggs-laid', 'shed'),
      days: fc.integer({ min: 0, max: DAYS }),
      seen: fc.boolean(),
    }),
    { maxLength: 12 },
  )
  .map(all => all.map(({ kind, days, seen }) => event(kind, days, { seen })))

/** What a report says of today: explained steps of long ago belong to the past. */
function today({ comparison, trends, flags, next }: WeightReport) {
  const { explained: _explained, explainedGrams: _grams, unexplaining: _not, ...compared } = comparison
  return { compared, trends, flags, next }
}

describe('the recent part of a long record', () => {
  it('says the same of today as the whole record', () => {
    fc.assert(
      fc.property(record, events, (weighIns, happened) => {
        const now = on(DAYS + 1)
        const recent = recentWeighIns(weighIns, happened, policy, now.instant)
        const whole = weightReport(weighIns, happened, 'unknown', policy, now)
        expect(today(weightReport(recent, happened, 'unknown', policy, now))).toEqual(today(whole))
      }),
      { numRuns: 300 },
    )
  })

  it('is much shorter than ten years of days', () => {
    const daily = Array.from({ length: 3650 }, (_, at) => ({ at: day(at), massGrams: 60 }))
    const recent = recentWeighIns(daily, [], policy, on(3650).instant)
    expect(recent.length).toBeLessThan(500)
    expect(recent.at(-1)).toBe(daily.at(-1))
  })

  it('keeps a short record whole', () => {
    const few = weekly([60, 61, 60])
    expect(recentWeighIns(few, [], policy, on(5000).instant)).toBe(few)
  })
})
