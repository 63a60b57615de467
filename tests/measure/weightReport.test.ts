import { describe, expect, it } from 'vitest'
import { weightReport } from '../../src/measure/weightReport.ts'
import { day, on, policy, weekly } from './fixtures/record.ts'

describe('the report on a weight record', () => {
  it('names the highest and the lowest reading that is not marked', () => {
    const report = weightReport(weekly([60, 61, 60, 85, 60.5, 60, 61.5, 58]), [], 'grown', policy, on(49))
    expect(report.highest?.massGrams).toBe(61.5)
    expect(report.lowest?.massGrams).toBe(58)
    expect(report.series.readings).toHaveLength(8)
  })

  it('is the same for the same record and the same now', () => {
    const report = () => JSON.stringify(weightReport(weekly([60, 58, 57, 59]), [], 'unknown', policy, on(21)))
    expect(report()).toBe(report())
  })

  it('changes nothing in what it was given', () => {
    const weighIns = Object.freeze(weekly([60, 52, 61]).reverse().map(Object.freeze)) as ReturnType<
      typeof weekly
    >
    expect(() => weightReport(weighIns, [], 'grown', policy, on(21))).not.toThrow()
    expect(weighIns[0]?.at).toBe(day(14))
  })

  it('takes five times as long, or little more, for five times as many weighings', () => {
    // The measured figure belongs to the bench; this only notices when the work grows with the square.
    const daily = Array.from({ length: 3650 }, (_, index) => ({
      at: day(index),
      massGrams: 60 + Math.round(20 * Math.sin(index / 40)) / 10 + ((index * 7919) % 11) / 10,
      scaleStepGrams: 0.1,
    }))
    const quickest = (weighIns: typeof daily) => {
      const times = Array.from({ length: 12 }, () => {
        const start = performance.now()
        weightReport(weighIns, [], 'grown', policy, on(3650))
        return performance.now() - start
      })
      return Math.min(...times)
    }
    const short = quickest(daily.slice(0, 730))
    expect(quickest(daily) / short).toBeLessThan(15)
  })
})
