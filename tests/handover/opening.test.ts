import { TZDate } from '@date-fns/tz'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isOpen, openingAt } from '../../src/handover/opening.ts'
import { wallClock } from '../../src/handover/wall-clock.ts'
import { INVENTED_CLINIC } from './invented-clinic.ts'

const at = (instant: string) => openingAt(INVENTED_CLINIC, { instant })
const inZone = (zone: string) => ({ ...INVENTED_CLINIC, zone })

describe('whether a clinic is open', () => {
  it.each([
    // Winter time in London is UTC; 2026-11-23 is a Monday.
    ['before it opens', '2026-11-23T08:59:00Z', false],
    ['the minute it opens', '2026-11-23T09:00:00Z', true],
    ['the minute before it shuts', '2026-11-23T18:29:59Z', true],
    ['the minute it shuts', '2026-11-23T18:30:00Z', false],
    ['in its lunch break', '2026-11-24T13:30:00Z', false],
    ['after its lunch break', '2026-11-24T14:00:00Z', true],
    ['on a day without hours', '2026-11-26T12:00:00Z', false],
    ['late on a night that runs past midnight', '2026-11-27T23:30:00Z', true],
    ['on a day that is open all day', '2026-11-28T23:59:00Z', true],
    ['after a day that is open all day', '2026-11-29T00:00:00Z', false],
    ['on a holiday', '2026-12-26T12:00:00Z', false],
    ['on a holiday with hours of its own', '2026-12-28T11:00:00Z', true],
    ['outside the hours of its own of a holiday', '2026-12-28T13:00:00Z', false],
  ])('%s', (_, instant, expected) => {
    expect(at(instant).isOpen).toBe(expected)
  })

  it('counts by the clock on its own wall: in summer an hour earlier in UTC', () => {
    expect(isOpen(INVENTED_CLINIC, { instant: '2026-06-01T08:00:00Z' })).toBe(true)
    expect(isOpen(INVENTED_CLINIC, { instant: '2026-06-01T17:30:00Z' })).toBe(false)
  })

  it('counts in its zone, wherever the owner is', () => {
    // Monday 09:00 in Auckland, which is Sunday 20:00 in UTC.
    expect(isOpen(inZone('Pacific/Auckland'), { instant: '2026-11-22T20:00:00Z' })).toBe(true)
    expect(isOpen(inZone('America/Phoenix'), { instant: '2026-11-22T20:00:00Z' })).toBe(false)
  })

  it('stays open through the hour that a clock change takes or gives', () => {
    // London, Sunday 2026-10-25: 02:00 becomes 01:00. Saturday night runs to Sunday 02:00.
    const night = {
      ...INVENTED_CLINIC,
      weeklyHours: [{ day: 'saturday' as const, from: '22:00', to: '02:00' }],
    }
    expect(isOpen(night, { instant: '2026-10-25T00:30:00Z' })).toBe(true)
    expect(isOpen(night, { instant: '2026-10-25T01:30:00Z' })).toBe(true)
    expect(isOpen(night, { instant: '2026-10-25T02:00:00Z' })).toBe(false)
    // London, Sunday 2026-03-29: 01:00 becomes 02:00, so the night ends an hour sooner.
    expect(isOpen(night, { instant: '2026-03-29T00:59:00Z' })).toBe(true)
    expect(isOpen(night, { instant: '2026-03-29T01:00:00Z' })).toBe(false)
  })

  it('says until when, or when it opens next', () => {
    expect(at('2026-11-24T09:30:00Z')).toEqual({ isOpen: true, until: '13:00' })
    expect(at('2026-11-24T13:10:00Z')).toEqual({
      isOpen: false,
      opensNext: { day: '2026-11-24', from: '14:00' },
    })
    expect(at('2026-11-25T19:00:00Z').opensNext).toEqual({ day: '2026-11-27', from: '20:00' })
    // Christmas: shut from Thursday to Saturday, Sunday has no hours, Monday has its own.
    expect(at('2026-12-24T08:00:00Z').opensNext).toEqual({ day: '2026-12-28', from: '10:00' })
  })

  it('says nothing of opening where it never opens', () => {
    expect(openingAt({ ...INVENTED_CLINIC, weeklyHours: [] }, { instant: '2026-11-24T09:30:00Z' })).toEqual({
      isOpen: false,
    })
  })

  it('reads the wall as an independent library does', () => {
    const zones = [
      'Europe/London',
      'America/St_Johns',
      'Australia/Lord_Howe',
      'Asia/Kathmandu',
      'Africa/Cairo',
    ]
    const instants = fc.date({
      min: new Date('2020-01-01T00:00:00Z'),
      max: new Date('2030-01-01T00:00:00Z'),
      noInvalidDate: true,
    })
    fc.assert(
      fc.property(instants, fc.constantFrom(...zones), (date, zone) => {
        const { day, time } = wallClock(date.toISOString(), zone)
        const wall = new TZDate(date.getTime(), zone)
        const two = (value: number) => String(value).padStart(2, '0')
        expect(`${day} ${time}`).toBe(
          `${wall.getFullYear()}-${two(wall.getMonth() + 1)}-${two(wall.getDate())} ${two(wall.getHours())}:${two(wall.getMinutes())}`,
        )
      }),
    )
  })
})
