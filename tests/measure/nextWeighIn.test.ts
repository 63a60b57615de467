import { describe, expect, it } from 'vitest'
import type { AnimalEvent } from '../../shared/case-file.ts'
import type { LifeStage } from '../../src/measure/flags.ts'
import { weightReport } from '../../src/measure/weightReport.ts'
import { day, event, on, policy, weighed } from './fixtures/record.ts'

const nextOf = (
  masses: Readonly<Record<number, number>>,
  today: number,
  events: AnimalEvent[] = [],
  life: LifeStage = 'grown',
) => weightReport(weighed(masses), events, life, policy, on(today)).next

describe('the next weighing', () => {
  it('is due now when nothing was weighed', () => {
    expect(nextOf({}, 5)).toMatchObject({ dueAt: day(5), because: 'nothingWeighed', lines: [] })
  })

  it('is due at once when the newest weight stands alone and low', () => {
    expect(nextOf({ 0: 60, 7: 61, 14: 60, 21: 60.5, 28: 52 }, 28)).toMatchObject({
      dueAt: day(28),
      because: 'confirmTheNewest',
      settles: expect.arrayContaining(['fastLoss']),
    })
  })

  it('comes on the third, seventh and fourteenth day after a tail was lost (clinical must 2.27)', () => {
    const lost = [event('tail-lost', 1)]
    expect(nextOf({ 0: 60 }, 1, lost)).toMatchObject({ dueAt: day(4), because: 'afterAnEvent' })
    expect(nextOf({ 0: 60, 4: 46 }, 4, lost)).toMatchObject({ dueAt: day(8), because: 'afterAnEvent' })
    expect(nextOf({ 0: 60, 4: 46, 8: 46 }, 9, lost)).toMatchObject({
      dueAt: day(15),
      because: 'afterAnEvent',
    })
    expect(nextOf({ 0: 60 }, 20, lost).dueAt).toBe(day(20))
  })

  it('comes weekly for a grown animal and sooner for one that may be young', () => {
    const steady = { 0: 60, 7: 60.5, 14: 60, 21: 60.2, 28: 60.3 }
    expect(nextOf(steady, 28)).toMatchObject({ dueAt: day(35), because: 'routine', settles: [] })
    expect(nextOf({ 0: 60, 7: 60 }, 7)).toMatchObject({ dueAt: day(14), because: 'stillOpen' })
    expect(nextOf({ 0: 20, 7: 22 }, 7, [], 'young').dueAt).toBe(day(11))
  })

  it('says which weight would mean a loss', () => {
    const steady = { 0: 60, 7: 60, 14: 60, 21: 60, 28: 60 }
    expect(nextOf(steady, 28).lines).toEqual([
      { flag: 'fastLoss', atOrBelowGrams: 54 },
      { flag: 'slowLoss', atOrBelowGrams: 48 },
    ])
  })

  it('ignores events that explain no weight, and those still to come', () => {
    const others = [event('shed', 6), event('tail-lost', 9)]
    expect(nextOf({ 0: 60, 7: 60 }, 7, others).because).toBe('stillOpen')
  })
})
