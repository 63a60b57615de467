import { describe, expect, it } from 'vitest'
import { type GrowthData, growthBand, placeInBand } from '../../src/measure/growthBand.ts'

// Hatchlings 2 to 5 g (plausible band over data sets that contradict each other); two hatchlings of São Paulo
// Zoo 3 g, about 4 g after the first month (zooborns.com, July 2013); 0.11 and 0.16 g a day (Autumn and
// DeNardo 1995, doi:10.2307/1564552). Not beyond nine months, because growth slows.
const data: GrowthData = {
  starts: [
    { points: [{ ageDays: 0, massGrams: 2 }], source: 'lightest hatchling' },
    { points: [{ ageDays: 0, massGrams: 5 }], source: 'heaviest hatchling' },
    {
      points: [
        { ageDays: 0, massGrams: 3 },
        { ageDays: 30, massGrams: 4 },
      ],
      source: 'zoo record',
    },
  ],
  ratesGramsPerDay: [
    { gramsPerDay: 0.11, source: 'constant 25 °C' },
    { gramsPerDay: 0.16, source: 'free to warm up' },
  ],
  validToDays: 270,
}

describe('the growth band', () => {
  it('reaches from the lightest to the heaviest hatchling at the start', () => {
    expect(growthBand(0, data)).toEqual({ lowGrams: 2, highGrams: 5 })
  })

  it('keeps the slow first month of the zoo record inside', () => {
    expect(growthBand(30, data)).toEqual({ lowGrams: 4, highGrams: 9.8 })
    expect(growthBand(15, data)?.lowGrams).toBe(3.5)
    expect(placeInBand(4, growthBand(30, data))).toBe('within')
  })

  it('contains the straight lines from a 3.16 g hatchling at both published rates', () => {
    const straight = {
      30: [6.5, 8],
      60: [9.8, 12.8],
      90: [13.1, 17.6],
      120: [16.4, 22.4],
      180: [23, 32],
      270: [32.9, 46.4],
    }
    for (const [age, weights] of Object.entries(straight)) {
      for (const massGrams of weights)
        expect(placeInBand(massGrams, growthBand(Number(age), data))).toBe('within')
    }
  })

  it('never jumps and never narrows backwards', () => {
    for (let age = 1; age <= 270; age++) {
      const before = growthBand(age - 1, data)!
      const band = growthBand(age, data)!
      expect(band.lowGrams).toBeGreaterThanOrEqual(before.lowGrams)
      expect(band.lowGrams - before.lowGrams).toBeLessThan(0.2)
      expect(band.highGrams - before.highGrams).toBeLessThan(0.2)
    }
  })

  it('ends where the data end', () => {
    expect(growthBand(271, data)).toBeUndefined()
    expect(growthBand(-1, data)).toBeUndefined()
    expect(growthBand(10, { ...data, starts: [] })).toBeUndefined()
    expect(
      growthBand(10, { ...data, starts: [{ points: [{ ageDays: 20, massGrams: 4 }], source: 'later' }] }),
    ).toBeUndefined()
    expect(placeInBand(40, growthBand(400, data))).toBeUndefined()
  })

  it('says where a weight lies, and no more', () => {
    const band = growthBand(60, data)
    expect(placeInBand(3, band)).toBe('below')
    expect(placeInBand(10, band)).toBe('within')
    expect(placeInBand(30, band)).toBe('above')
  })
})
