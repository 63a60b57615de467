import fc from 'fast-check'
import { expect, test } from 'vitest'
import { instantIn, isZone } from '../../src/records/zone.ts'

const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/Los_Angeles',
  'Asia/Kolkata',
  'Australia/Lord_Howe',
  'Pacific/Apia',
]

// The other way round is asked of the engine itself: ECMA-402, Intl.DateTimeFormat with a timeZone.
test.each(ZONES)('the clocks of %s show what was meant, all year round', zone => {
  const format = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zone,
    dateStyle: 'short',
    timeStyle: 'medium',
  })
  const toInstant = instantIn(zone)
  // At noon no clock is changed, so that every time exists once.
  const noons = fc.integer({ min: 0, max: 30 * 365 }).map(day => Date.UTC(2000, 0, 1 + day, 12))
  fc.assert(
    fc.property(noons, wallMs => {
      const shown = format.format(toInstant(wallMs)).replace(' ', 'T')
      expect(shown).toBe(new Date(wallMs).toISOString().slice(0, 19))
    }),
  )
})

test('a time that a clock change skips becomes the one after it', () => {
  // In Berlin clocks went from 02:00 to 03:00 on 30 March 2025, at 01:00 UTC (IANA time zone database).
  const toInstant = instantIn('Europe/Berlin')
  expect(new Date(toInstant(Date.UTC(2025, 2, 30, 2, 30))).toISOString()).toBe('2025-03-30T01:30:00.000Z')
  expect(new Date(toInstant(Date.UTC(2025, 2, 30, 1, 59))).toISOString()).toBe('2025-03-30T00:59:00.000Z')
  expect(new Date(toInstant(Date.UTC(2025, 2, 30, 3, 0))).toISOString()).toBe('2025-03-30T01:00:00.000Z')
})

test('zones are told from other words', () => {
  expect(isZone('Europe/Berlin')).toBe(true)
  expect(isZone('Middle/Earth')).toBe(false)
})
