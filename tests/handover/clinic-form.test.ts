import { describe, expect, it } from 'vitest'
import { readClinicForm } from '../../src/handover/clinic-form.ts'
import { sayOnTelephone } from '../../src/handover/say.ts'
import { fullestHistory } from './fullest.ts'

const FORM = { name: 'Invented Clinic', telephone: '01632 960123', zone: 'Europe/London' }

describe("the clinic's form", () => {
  it('takes the least that is needed', () => {
    expect(readClinicForm(FORM)).toEqual({
      ok: true,
      value: { ...FORM, weeklyHours: [], holidays: [], raised: [] },
    })
  })

  it('reads hours, holidays and raised concerns as they are typed', () => {
    const read = readClinicForm({
      ...FORM,
      monday: '9:00-12:30, 14:00 to 18:00',
      holidays: '2026-12-24 to 2026-12-26\n2026-12-28 10:00-12:00\n',
      'raised humming': 'day',
      telephoneNow: '01632 960999',
    })
    expect(read.ok && read.value).toMatchObject({
      weeklyHours: [
        { day: 'monday', from: '09:00', to: '12:30' },
        { day: 'monday', from: '14:00', to: '18:00' },
      ],
      holidays: [
        { from: '2026-12-24', to: '2026-12-26', spans: [] },
        { from: '2026-12-28', to: '2026-12-28', spans: [{ from: '10:00', to: '12:00' }] },
      ],
      raised: [{ concern: 'humming', to: 'day' }],
      telephoneFor: { now: '01632 960999' },
    })
  })

  it.each([
    [{ name: '' }, 'name', 'missing'],
    [{ telephone: 'none needed' }, 'telephone', 'none needed'],
    [{ monday: 'mornings' }, 'monday', 'mornings'],
    [{ holidays: 'Christmas' }, 'holidays', 'Christmas'],
    [{ webPage: 'http://clinic.example' }, 'webPage', 'http://clinic.example'],
    [{ zone: 'Nowhere' }, 'zone', 'Nowhere'],
  ])('names the field, the value and what is accepted: %j', (change, field, value) => {
    const read = readClinicForm({ ...FORM, ...change })
    expect(read.ok).toBe(false)
    if (!read.ok) expect(read.faults[0]).toMatchObject({ field, value })
  })
})

describe('what to say on the telephone', () => {
  it('stays under three quarters of a minute even of the fullest history, at 150 words a minute', () => {
    const words = sayOnTelephone(fullestHistory(), 'Can you see it now?').split(/\s+/).length
    expect(words).toBeLessThanOrEqual(110)
  })
})
