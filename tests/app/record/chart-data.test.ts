import { describe, expect, test } from 'vitest'
import { chartData, shownTrend } from '../../../src/app/record/chart/chart-data.ts'
import { spreadApart } from '../../../src/app/record/chart/WeightChart.tsx'
import { weightReport } from '../../../src/measure/weightReport.ts'
import { day, event, on, policy, weekly } from '../../measure/fixtures/record.ts'

const steady = [60, 61, 60, 60.5, 60, 61, 60, 60.5, 60, 61]
const report = (masses: readonly number[], now = on(7 * (masses.length - 1))) =>
  weightReport(weekly(masses), [], 'grown', policy, now)
const draw = (masses: readonly number[], more = {}) =>
  chartData({
    report: report(masses),
    events: [],
    now: on(7 * (masses.length - 1)),
    lossPercents: [5, 10, 20],
    isYoung: false,
    ...more,
  })

describe('what the chart draws', () => {
  test('is nothing where nothing was weighed', () => {
    expect(draw([])).toBeUndefined()
  })

  test('has its lines so many percent under the reference weight', () => {
    const data = draw(steady)
    expect(data?.referenceGrams).toBe(60.5)
    expect(data?.lossLines.map(({ massGrams }) => Math.round(massGrams * 100) / 100)).toEqual([
      57.47, 54.45, 48.4,
    ])
  })

  test('goes on to today, so that an old weight looks old, but is never mostly empty', () => {
    const data = chartData({
      report: report([60, 61], on(300)),
      events: [],
      now: on(300),
      lossPercents: [],
      isYoung: false,
    })
    expect(data?.toMs).toBe(Date.parse(day(10.5)))
  })

  test('holds only the span asked for', () => {
    expect(draw(steady, { spanDays: 21 })?.readings).toHaveLength(4)
  })

  test('marks what changes a weight, in order, and not every meal', () => {
    const events = [event('new-home', 20), event('meal', 10), event('eggs-laid', 5)]
    expect(draw(steady, { events })?.events.map(({ kind }) => kind)).toEqual(['eggs-laid', 'new-home'])
  })

  test('draws Sen’s limits through the middle of the fitted line, on either side of it', () => {
    const { fit } = draw(steady) ?? {}
    const [low, high] = fit?.limits ?? []
    expect(low?.[1]?.massGrams).toBeCloseTo(high?.[1]?.massGrams ?? 0, 6)
    expect(low?.[2]?.massGrams).toBeLessThanOrEqual(fit?.line.at(-1)?.massGrams ?? 0)
    expect(high?.[2]?.massGrams).toBeGreaterThanOrEqual(fit?.line.at(-1)?.massGrams ?? 0)
  })

  test('draws published growth for a young one with a hatch day, and for no other', () => {
    const growth = {
      starts: [{ points: [{ ageDays: 0, massGrams: 2 }], source: 'invented' }],
      ratesGramsPerDay: [
        { gramsPerDay: 0.1, source: 'invented' },
        { gramsPerDay: 0.2, source: 'invented' },
      ],
      validToDays: 30,
    }
    const more = { growth, hatchedOn: day(0).slice(0, 10) }
    const band = draw(steady, { ...more, isYoung: true })?.band ?? []
    expect(band.at(-1)?.lowGrams).toBeCloseTo(5, 1)
    expect(band.at(-1)?.highGrams).toBeCloseTo(8, 1)
    expect(draw(steady, more)?.band).toEqual([])
  })
})

test('a grown animal is told by its longest window, a young one by the shortest that has limits', () => {
  const { trends } = report(steady)
  expect(shownTrend(trends, false)?.windowDays).toBe(90)
  expect(shownTrend(trends, true)?.windowDays).toBe(28)
})

test('labels keep their distance and stay inside', () => {
  expect(spreadApart([10, 12, 14, 100], 19, 100)).toEqual([10, 29, 48, 100])
  expect(spreadApart([90, 95, 99], 19, 100)).toEqual([62, 81, 100])
})
