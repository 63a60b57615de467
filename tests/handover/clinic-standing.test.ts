import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { RAISED_TO } from '../../shared/clinic.ts'
import { atLeastAsUrgent, URGENCIES } from '../../shared/urgency.ts'
import { clinicStanding, raisedUrgency, telephoneAddress } from '../../src/handover/clinic-standing.ts'
import { INVENTED_CLINIC } from './invented-clinic.ts'

const NIGHT = { instant: '2026-11-25T02:10:00Z' }
const NOON = { instant: '2026-11-25T12:00:00Z' }
const CASE = { urgency: 'day', version: '0.1.0' } as const

describe('what a clinic raises', () => {
  it('raises a concern that it sees sooner', () => {
    expect(raisedUrgency(INVENTED_CLINIC, 'home', ['humming'])).toBe('day')
  })

  it('leaves other concerns, and what is more urgent already', () => {
    expect(raisedUrgency(INVENTED_CLINIC, 'home', ['fading'])).toBe('home')
    expect(raisedUrgency(INVENTED_CLINIC, 'now', ['humming'])).toBe('now')
  })

  it('never lowers an urgency, whatever it asks for', () => {
    const names = fc.constantFrom('humming', 'fading', 'other')
    const raised = fc.array(fc.record({ concern: names, to: fc.constantFrom(...RAISED_TO) }))
    fc.assert(
      fc.property(raised, fc.constantFrom(...URGENCIES), fc.array(names), (asks, urgency, concerns) => {
        const now = raisedUrgency({ ...INVENTED_CLINIC, raised: asks }, urgency, concerns)
        expect(atLeastAsUrgent(now, urgency)).toBe(true)
        for (const { concern, to } of asks)
          if (concerns.includes(concern)) expect(atLeastAsUrgent(now, to)).toBe(true)
      }),
    )
  })
})

describe('the numbers of an outcome', () => {
  it("begin with the clinic's own while it is open", () => {
    expect(clinicStanding(INVENTED_CLINIC, NOON, CASE).numbers.map(({ kind }) => kind)).toEqual([
      'clinic',
      'out-of-hours',
    ])
  })

  it('begin with the out-of-hours number while it is shut', () => {
    expect(clinicStanding(INVENTED_CLINIC, NIGHT, CASE).numbers.map(({ telephone }) => telephone)).toEqual([
      '+44 1632 960199',
      '01632 960123',
    ])
  })

  it('take the number that the clinic gives for an urgency', () => {
    const clinic = { ...INVENTED_CLINIC, telephoneFor: { day: '01632 960777' } }
    expect(clinicStanding(clinic, NOON, CASE).numbers[0]?.telephone).toBe('01632 960777')
    expect(clinicStanding(clinic, NOON, { ...CASE, urgency: 'week' }).numbers[0]?.telephone).toBe(
      '01632 960123',
    )
  })

  it('are never said to be checked unless the clinic says so of this version', () => {
    const checked = (checkedVersion: string | undefined) =>
      clinicStanding({ ...INVENTED_CLINIC, checkedVersion }, NOON, CASE).isChecked
    expect(checked(undefined)).toBe(false)
    expect(checked('0.0.9')).toBe(false)
    expect(checked('0.1.0')).toBe(true)
  })

  it('become addresses of digits alone', () => {
    expect(telephoneAddress('+1 (555) 555-0123')).toBe('tel:+15555550123')
    expect(telephoneAddress('01632 960123')).toBe('tel:01632960123')
  })
})
