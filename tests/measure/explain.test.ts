import { describe, expect, it } from 'vitest'
import { weightSeries } from '../../src/measure/series.ts'
import { day, event, on, policy, weighed } from './fixtures/record.ts'

const explained = (...args: Parameters<typeof seriesOf>) =>
  seriesOf(...args).explained.map(({ explainedGrams }) => Math.round(explainedGrams * 100) / 100)

function seriesOf(masses: Readonly<Record<number, number>>, events: ReturnType<typeof event>[]) {
  return weightSeries(weighed(masses), events, policy, on(400))
}

describe('an event explains a step', () => {
  // The most a lost tail takes: up to 30 % of body mass (University of California, Riverside, 7 September
  // 2017, on Jagnandan and Higham 2017, doi:10.1038/s41598-017-11484-7). A clutch of two eggs of 3.755 g is
  // 9 to 17 % of 80 to 45 g (Myhrvold et al. 2015, Ecology 96:3109).
  it('no further than the step itself', () => {
    expect(explained({ 0: 60, 5: 48 }, [event('tail-lost', 1)])).toEqual([12])
    expect(explained({ 0: 60, 5: 61 }, [event('tail-lost', 1)])).toEqual([0])
  })

  it('no further than its size', () => {
    expect(explained({ 0: 60, 5: 36 }, [event('tail-lost', 1)])).toEqual([18])
    expect(explained({ 0: 60, 5: 45 }, [event('eggs-laid', 1, { seen: true })])).toEqual([12])
  })

  it('in proportion to the part of the tail that came off', () => {
    expect(explained({ 0: 60, 5: 48 }, [event('tail-lost', 1, { share: 0.1 })])).toEqual([1.8])
  })

  it('only if the eggs were seen', () => {
    const series = seriesOf({ 0: 60, 5: 50 }, [event('eggs-laid', 1)])
    expect(series.explained).toEqual([])
    expect(series.unexplaining).toEqual([{ at: day(1), kind: 'eggs-laid', why: 'notSeen' }])
  })

  it('only if the animal was weighed within seven days after it', () => {
    const late = seriesOf({ 0: 60, 9: 48 }, [event('tail-lost', 1)])
    expect(late.explained).toEqual([])
    expect(late.unexplaining).toEqual([{ at: day(1), kind: 'tail-lost', why: 'weighedTooLate' }])
    const never = seriesOf({ 0: 60 }, [event('tail-lost', 1)])
    expect(never.unexplaining).toEqual([{ at: day(1), kind: 'tail-lost', why: 'notWeighedSince' }])
  })

  it('up to the new baseline, the first weighing from the third day on', () => {
    const series = seriesOf({ 0: 60, 2: 46, 5: 47, 12: 46 }, [event('tail-lost', 1)])
    expect(series.explained[0]).toMatchObject({ beforeIndex: 0, baselineIndex: 2, explainedGrams: 13 })
    expect(series.readings.map(({ settling }) => settling)).toEqual([false, true, false, false])
    expect(series.presentFrom).toBe(2)
  })

  it('once, when two events share it', () => {
    const both = [event('eggs-laid', 1, { seen: true }), event('tail-lost', 2)]
    expect(explained({ 0: 60, 5: 45 }, both)).toEqual([15])
    const twoEggs = [event('eggs-laid', 1, { seen: true }), event('eggs-laid', 1.5, { seen: true })]
    expect(explained({ 0: 60, 5: 45 }, twoEggs)).toEqual([12])
  })

  it('and counts two parts of one tail as one tail at most', () => {
    const parts = [event('tail-lost', 1, { share: 0.4 }), event('tail-lost', 2, { share: 0.9 })]
    expect(explained({ 0: 60, 5: 30 }, parts)).toEqual([18])
  })

  it('and leaves other kinds of events alone', () => {
    expect(seriesOf({ 0: 60, 5: 50 }, [event('shed', 1)])).toMatchObject({ explained: [], unexplaining: [] })
  })

  it('and takes off only the largest clutch from a weight before several, because she regained in between', () => {
    const laid = (days: number) => event('eggs-laid', days, { seen: true })
    const series = seriesOf({ 0: 60, 10: 60, 15: 52, 40: 59, 45: 51 }, [laid(11), laid(41)])
    expect(series.readings.map(({ footingGrams }) => footingGrams)).toEqual([52, 52, 52 - 8, 51, 51])
  })

  it('and nothing when it lies before the first weighing', () => {
    expect(seriesOf({ 2: 60, 5: 60 }, [event('tail-lost', 1)]).presentFrom).toBe(0)
  })
})

describe('a weight record made ready', () => {
  it('leaves out and counts weighings dated after now', () => {
    const series = weightSeries(weighed({ 0: 60, 10: 50 }), [], policy, on(5))
    expect(series.readings.map(({ massGrams }) => massGrams)).toEqual([60])
    expect(series.notYet).toBe(1)
  })

  it('marks outliers within the stretches between events, not across them', () => {
    const masses = { 0: 60, 2: 60.5, 4: 60, 6: 60.2, 9: 46, 12: 46.4, 15: 46.2, 18: 46 }
    const series = seriesOf(masses, [event('tail-lost', 7)])
    expect(series.readings.some(({ outlier }) => outlier)).toBe(false)
  })
})
