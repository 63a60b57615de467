import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  type Beginning,
  dayOfPlan,
  planDayOf,
  timetableOf,
  weighInsBetween,
} from '../../src/followup/schedule.ts'
import { INVENTED_PLAN, realProtocol } from './invented.ts'

const DAY = 86_400_000
const beginnings = fc.record({
  atMs: fc
    .date({ min: new Date('2024-01-01'), max: new Date('2030-01-01'), noInvalidDate: true })
    .map(Number),
  zone: fc.constantFrom(
    'Europe/London',
    'America/New_York',
    'Pacific/Auckland',
    'Pacific/Apia',
    'Asia/Kathmandu',
  ),
  sinceMs: fc.constant({}),
  limits: fc.constant([]),
}) satisfies fc.Arbitrary<Beginning>
const plans = fc.constantFrom(INVENTED_PLAN, ...Object.values(realProtocol().followUps.plans))
const zones = fc.constantFrom('Europe/London', 'America/New_York', 'Pacific/Auckland')

test('the looks that have come are those whose time has come, counted one by one', () => {
  fc.assert(
    fc.property(plans, beginnings, fc.integer({ min: 0, max: 400 * 24 }), (plan, beginning, hours) => {
      const timetable = timetableOf(plan, beginning)
      const nowMs = beginning.atMs + hours * 3_600_000
      let counted = 0
      while (timetable.at(counted, beginning.zone).atMs <= nowMs) counted += 1
      expect(timetable.comeBy(nowMs, beginning.zone)).toBe(counted)
    }),
    { numRuns: 300 },
  )
})

test('in the zone of the beginning no look comes before the one before it, and none before the plan', () => {
  fc.assert(
    fc.property(plans, beginnings, (plan, beginning) => {
      const timetable = timetableOf(plan, beginning)
      let before = beginning.atMs
      for (let rank = 0; rank < 30; rank += 1) {
        const { atMs } = timetable.at(rank, beginning.zone)
        expect(atMs).toBeGreaterThanOrEqual(before)
        before = atMs
      }
    }),
    { numRuns: 300 },
  )
})

test('a day of the plan is found again from its evening, in the zone of the beginning and in another', () => {
  fc.assert(
    fc.property(beginnings, zones, fc.integer({ min: 0, max: 60 }), (beginning, zone, day) => {
      for (const where of [beginning.zone, zone])
        expect(planDayOf(beginning, dayOfPlan(beginning, day, 20, where), where)).toBe(day)
    }),
    { numRuns: 300 },
  )
})

test('weigh-ins go on in their rhythm however far ahead one asks', () => {
  fc.assert(
    fc.property(
      plans,
      beginnings,
      fc.integer({ min: 0, max: 900 }),
      fc.integer({ min: 1, max: 90 }),
      (plan, beginning, from, days) => {
        const afterMs = beginning.atMs + from * DAY
        const untilMs = afterMs + days * DAY
        const every = plan.thenWeighEveryDays
        const lastDay = plan.weighDays.at(-1) ?? 0
        const expected: number[] = []
        for (let day = 0; day < 1100; day += 1) {
          const due =
            plan.weighDays.includes(day) ||
            (every !== undefined && day > lastDay && (day - lastDay) % every === 0)
          const atMs = dayOfPlan(beginning, day, 20, beginning.zone)
          if (due && atMs > afterMs && atMs <= untilMs) expected.push(atMs)
        }
        expect(weighInsBetween(plan, beginning, afterMs, untilMs, beginning.zone)).toEqual(expected)
      },
    ),
    { numRuns: 100 },
  )
})
