import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { AnimalEvent } from '../../shared/case-file.ts'
import { compareWeights } from '../../src/measure/compareWeights.ts'
import { lossCell, lossCellAtWorst } from '../../src/measure/lossCell.ts'
import { day, event, grid, on, policy, weekly, weighed } from './fixtures/record.ts'

const compare = (
  masses: Readonly<Record<number, number>>,
  today: number,
  events: AnimalEvent[] = [],
  step = 0.1,
) => compareWeights(weighed(masses, step), events, policy, on(today))

describe('comparing the newest weight', () => {
  it('shows 14 % in a week for 60, 61, 60, 60.5, 52 g weekly (clinical must 2.3)', () => {
    const comparison = compareWeights(weekly([60, 61, 60, 60.5, 52], 1), [], policy, on(28))
    expect(comparison.lossPercent).toBeCloseTo(14, 0)
    expect(comparison.reference).toMatchObject({
      referenceGrams: 60.5,
      referenceAt: day(21),
      basis: 'medianOfThree',
    })
    expect(comparison.overDays).toBe(7)
    expect(lossCell(comparison, grid)).toBe('tenth-in-two-weeks')
    expect(comparison).toMatchObject({
      confidence: 'likely',
      certainSinceTwoReadings: false,
      weighAgainNow: true,
    })
  })

  it('shows 12 % in thirty days for 60 then 52.8 g (clinical must 2.3)', () => {
    const comparison = compare({ 0: 60, 30: 52.8 }, 30)
    expect(comparison).toMatchObject({ lossGrams: 7.2, lossPercent: 12, overDays: 30, confidence: 'likely' })
    expect(comparison.reference?.basis).toBe('singleReading')
    expect(lossCell(comparison, grid)).toBe('tenth')
  })

  it('is sure when a second weighing shows the loss as well', () => {
    const masses = { 0: 60, 7: 61, 14: 60, 21: 60.5, 28: 52 }
    expect(compare({ ...masses, 29: 52.3 }, 29)).toMatchObject({
      confidence: 'sure',
      certainSinceTwoReadings: true,
    })
    expect(compare({ ...masses, 28.1: 52.2 }, 29)).toMatchObject({ confidence: 'sure', weighAgainNow: false })
  })

  it('lets a second weighing of the same day say otherwise', () => {
    const comparison = compare({ 0: 60, 7: 61, 14: 60, 21: 60.5, 28: 52, 28.1: 60 }, 28.2)
    expect(comparison.beyondNoise).toBe(false)
    expect(lossCell(comparison, grid)).toBe('none')
  })

  it('does not lose a loss when low weighings follow: 60, then 53, 52 and 52 g', () => {
    for (const masses of [
      { 0: 60, 90: 53 },
      { 0: 60, 90: 53, 97: 52 },
      { 0: 60, 90: 53, 97: 52, 104: 52 },
    ]) {
      expect(compare(masses, 104).slow?.lossPercent).toBeGreaterThan(11)
    }
    expect(compare({ 0: 60, 7: 53, 14: 52 }, 14).lossPercent).toBeCloseTo(13.3, 1)
  })

  it('does not raise an alarm over one high reading that its neighbours contradict', () => {
    const comparison = compare({ 0: 60, 7: 60.5, 14: 66, 21: 60, 28: 60.5, 35: 60 }, 35)
    expect(comparison.lossPercent).toBeLessThan(1)
    expect(comparison.confidence).toBe('sure')
  })

  it('takes two readings 1 g apart on a 1 g scale for nothing, and says that it cannot tell', () => {
    for (const [before, after] of [
      [60, 59],
      [5, 4],
    ] as const) {
      const comparison = compare({ 0: before, 7: after }, 7, [], 1)
      expect(comparison).toMatchObject({ beyondNoise: false, losses: [], confidence: 'cantTellYet' })
      expect(lossCell(comparison, grid)).toBe('none')
    }
  })

  it('says that a 1 g scale is too coarse for a hatchling, and what could hide behind it', () => {
    const comparison = compare({ 0: 5, 7: 5 }, 7, [], 1)
    expect(comparison.scaleTooCoarse).toBe(true)
    expect(lossCellAtWorst(comparison, grid)).toBe('tenth-in-two-weeks')
    const adult = compare({ 0: 60, 7: 60 }, 7)
    expect(lossCellAtWorst(adult, grid)).toBe('none')
  })

  it('judges slow loss against the best of a year, where nothing recent is better', () => {
    const monthly = { 0: 62, 30: 61, 60: 60, 90: 58, 120: 57, 150: 55, 180: 54, 210: 52, 240: 50 }
    const comparison = compare(monthly, 240)
    expect(comparison.recent?.lossPercent).toBeLessThan(8)
    expect(comparison.slow?.lossPercent).toBeGreaterThan(18)
    expect(comparison.losses.length).toBeGreaterThan(2)
  })

  it('forgets weights of more than a year ago', () => {
    expect(compare({ 0: 90, 380: 60, 387: 60 }, 387).lossPercent).toBe(0)
  })

  it('finds a fast loss that a slower, larger one stands before', () => {
    const comparison = compare({ 0: 62, 20: 62, 40: 62.5, 60: 60, 67: 60, 74: 60, 78: 54 }, 78)
    expect(comparison.recent?.overDays).toBeGreaterThan(14)
    expect(lossCell(comparison, grid)).toBe('tenth-in-two-weeks')
  })

  it('says when the newest weight is too old to speak for today', () => {
    const comparison = compare({ 0: 60, 7: 60, 14: 60, 21: 60 }, 60)
    expect(comparison).toMatchObject({ newestIsFresh: false, confidence: 'cantTellYet' })
    expect(comparison.newest?.ageDays).toBe(39)
  })

  it('has nothing to say with no weight, and no reference with one', () => {
    const none = compare({}, 1)
    expect(none).toMatchObject({ newest: undefined, confidence: 'cantTellYet' })
    expect(lossCell(none, grid)).toBeUndefined()
    const one = compare({ 0: 60 }, 1)
    expect(one.newest).toEqual({ at: day(0), massGrams: 60, ageDays: 1 })
    expect(one.reference).toBeUndefined()
    expect(lossCell(one, grid)).toBeUndefined()
    expect(lossCellAtWorst(one, grid)).toBeUndefined()
  })
})

describe('an event between two weights (clinical must 2.27)', () => {
  it('explains a lost tail: 60 g, then 46 g', () => {
    const comparison = compare({ 0: 60, 4: 46 }, 4, [event('tail-lost', 1)])
    expect(comparison).toMatchObject({ lossPercent: 0, beyondNoise: false, explainedGrams: 14 })
  })

  it('does not turn a lost tip into an amnesty', () => {
    const comparison = compare({ 0: 60, 4: 50 }, 4, [event('tail-lost', 1, { share: 0.1 })])
    expect(comparison.lossPercent).toBeCloseTo((100 * 8.2) / 58.2, 5)
    expect(lossCell(comparison, grid)).toBe('tenth-in-two-weeks')
  })

  it('makes 14 % after eggs that were seen nothing, and after eggs that were guessed a loss (row N8)', () => {
    const seen = compare({ 0: 55, 3: 47.3 }, 3, [event('eggs-laid', 1, { seen: true })])
    expect(lossCell(seen, grid)).toBe('none')
    const guessed = compare({ 0: 55, 3: 47.3 }, 3, [event('eggs-laid', 1)])
    expect(lossCell(guessed, grid)).toBe('tenth-in-two-weeks')
    expect(guessed.unexplaining).toHaveLength(1)
  })

  it('counts what was lost before the event', () => {
    const comparison = compare({ 0: 60, 7: 60, 14: 60, 21: 54, 26: 42 }, 26, [event('tail-lost', 22)])
    expect(comparison.lossGrams).toBeCloseTo(6, 6)
  })

  it('counts what is lost below the new baseline: 10 % of it', () => {
    const comparison = compare({ 0: 60, 4: 45, 14: 40.5 }, 14, [event('tail-lost', 1)])
    expect(comparison.lossPercent).toBeCloseTo(10, 6)
    expect(lossCell(comparison, grid)).toBe('tenth-in-two-weeks')
  })

  it('explains nothing when the next weighing came too late', () => {
    const comparison = compare({ 0: 60, 12: 46 }, 12, [event('tail-lost', 1)])
    expect(comparison.lossPercent).toBeCloseTo(23.3, 1)
    expect(comparison.unexplaining[0]?.why).toBe('weighedTooLate')
  })

  it('cannot hide a steady fall however many clutches are written down', () => {
    const laid = [1, 8, 15, 22, 29].map(days => event('eggs-laid', days, { seen: true }))
    const comparison = compare({ 0: 60, 7: 57, 14: 54, 21: 51, 28: 48, 35: 45 }, 35, laid)
    expect(comparison.lossPercent).toBeGreaterThan(15)
  })
})

describe('whatever the record holds', () => {
  const masses = fc.array(
    fc.integer({ min: 200, max: 900 }).map(tenths => tenths / 10),
    { minLength: 1, maxLength: 20 },
  )

  it('a lower newest weight never lands in a milder cell', () => {
    const kinds = fc.constantFrom('tail-lost' as const, 'eggs-laid' as const)
    const happened = fc.array(fc.tuple(fc.nat({ max: 140 }), kinds), { maxLength: 2 })
    fc.assert(
      fc.property(
        masses,
        happened,
        fc.constantFrom(1, 3, 7, 20, 40),
        fc.integer({ min: 1, max: 150 }),
        (...drawn) => {
          const [series, events, gapDays, tenths] = drawn
          const newest = series.at(-1)!
          const before = Object.fromEntries(series.slice(0, -1).map((mass, index) => [gapDays * index, mass]))
          const last = gapDays * (series.length - 1)
          const laid = events.map(([days, kind]) => event(kind, days, { seen: true }))
          const cellOf = (massGrams: number) =>
            lossCell(compare({ ...before, [last]: massGrams }, last, laid), grid)
          expect(place(cellOf(Math.max(0.1, newest - tenths / 10)))).toBeLessThanOrEqual(
            place(cellOf(newest)),
          )
        },
      ),
      { numRuns: 400 },
    )
  })

  it('what an event explains is never more than the step, nor than its size', () => {
    fc.assert(
      fc.property(
        masses,
        fc.nat({ max: 140 }),
        fc.constantFrom('tail-lost', 'eggs-laid'),
        (series, onDay, kind) => {
          const today = on(7 * series.length)
          const { explained } = compareWeights(
            weekly(series),
            [event(kind, onDay, { seen: true })],
            policy,
            today,
          )
          for (const step of explained) {
            expect(step.explainedGrams).toBeGreaterThanOrEqual(0)
            expect(step.explainedGrams).toBeLessThanOrEqual(Math.max(0, step.stepGrams))
            expect(step.explainedGrams).toBeLessThanOrEqual(step.upToGrams)
          }
        },
      ),
    )
  })

  it('the order in which weighings are listed does not matter', () => {
    fc.assert(
      fc.property(masses, fc.infiniteStream(fc.nat()), (series, keys) => {
        const inOrder = weekly(series)
        const shuffled = inOrder
          .map(weighIn => ({ weighIn, key: keys.next().value as number }))
          .sort((one, other) => one.key - other.key)
          .map(({ weighIn }) => weighIn)
        const today = on(7 * series.length)
        expect(compareWeights(shuffled, [], policy, today)).toEqual(
          compareWeights(inOrder, [], policy, today),
        )
      }),
    )
  })

  it('percent do not depend on the unit: twice the weight on twice the step is the same loss', () => {
    fc.assert(
      fc.property(masses, series => {
        const today = on(7 * series.length)
        const once = compareWeights(weekly(series, 0.1), [], policy, today)
        const twice = compareWeights(
          weekly(
            series.map(mass => 2 * mass),
            0.2,
          ),
          [],
          policy,
          today,
        )
        expect(twice.lossPercent ?? 0).toBeCloseTo(once.lossPercent ?? 0, 5)
        expect(twice.beyondNoise).toBe(once.beyondNoise)
      }),
    )
  })

  it('all losses on the staircase grow with the days and lie beyond the noise', () => {
    fc.assert(
      fc.property(masses, series => {
        const { losses } = compareWeights(weekly(series), [], policy, on(7 * series.length))
        losses.slice(1).forEach((loss, index) => {
          expect(loss.overDays).toBeGreaterThan(losses[index]!.overDays)
          expect(loss.lossPercent).toBeGreaterThan(losses[index]!.lossPercent)
        })
        for (const { lossGrams } of losses) expect(lossGrams).toBeGreaterThan(0.1)
      }),
    )
  })
})

function place(cell: string | undefined): number {
  const index = grid.findIndex(({ id }) => id === cell)
  return index === -1 ? grid.length - 1 : index
}
