import { ucum } from '@atomic-ehr/ucum'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { GRAMS_IN, readGrams } from '../../src/records/csv/masses.ts'

// Units of mass against a library of the Unified Code for Units of Measure (UCUM) that others wrote, and against the
// exact international pound: 453.59237 g, sixteen ounces.
const CODES = { g: 'g', kg: 'kg', oz: '[oz_av]', lb: '[lb_av]' } as const

describe('units of mass', () => {
  it.each(['g', 'kg', 'oz', 'lb'] as const)('hold as many grams in one %s as UCUM says', unit => {
    expect(GRAMS_IN[unit]).toBeCloseTo(ucum.convert(1, CODES[unit], 'g'), 12)
  })

  it('are all the units that files may be in', () => {
    expect(Object.keys(GRAMS_IN).sort()).toEqual(Object.keys(CODES).sort())
  })

  it('take one ounce as 28.349523125 g and sixteen as a pound', () => {
    expect(GRAMS_IN.oz).toBe(28.349523125)
    expect(16 * GRAMS_IN.oz).toBe(GRAMS_IN.lb)
  })

  it('turn any weight of a file into the grams of UCUM, to a thousandth', () => {
    const units = fc.constantFrom('kg' as const, 'oz' as const, 'lb' as const)
    fc.assert(
      fc.property(units, fc.integer({ min: 5, max: 400 }), (unit, grams) => {
        const written = (grams / GRAMS_IN[unit]).toFixed(4)
        const read = readGrams(written, unit, 'weight', undefined)
        const theirs = ucum.convert(Number(written), CODES[unit], 'g')
        expect(read).toMatchObject({ ok: true })
        expect(Math.abs((read.ok ? read.value : Number.NaN) - theirs)).toBeLessThanOrEqual(0.000501)
      }),
    )
  })
})
