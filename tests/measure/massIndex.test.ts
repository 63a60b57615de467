import { describe, expect, it } from 'vitest'
import {
  againstOwnPastPercent,
  indexErrorPercent,
  massOverLength,
  scaledMassIndexGrams,
  scalingOf,
} from '../../src/measure/massIndex.ts'
import penguins from './fixtures/penguins.json' with { type: 'json' }

const masses = (rows: readonly (readonly number[])[]) => rows.map(([mass = Number.NaN]) => mass)
const lengths = (rows: readonly (readonly number[])[]) => rows.map(([, length = Number.NaN]) => length)

// Palmer Archipelago penguins (CC0); expected values computed twice, in R 4.2.2 and in JavaScript, with the
// formulas of Peig and Green 2009, Oikos 118:1883-1891. Fixture: tests/measure/fixtures/penguins.json.
const species = [
  {
    name: 'Adelie',
    rows: penguins.Adelie,
    count: 151,
    slope: 1.670832029,
    correlation: 0.4657328213,
    exponent: 3.587533351,
    length: 189.9536424,
    mean: 3710.488837,
    deviation: 477.5202104,
    first: [4459.2153, 4097.836, 2958.2316],
  },
  {
    name: 'Chinstrap',
    rows: penguins.Chinstrap,
    count: 68,
    slope: 1.773856,
    correlation: 0.62667657,
    exponent: 2.830576545,
    length: 195.8235294,
    mean: 3735.0689,
    deviation: 332.1850892,
    first: [3700.9064, 3890.0689, 3803.1803],
  },
  {
    name: 'Gentoo',
    rows: penguins.Gentoo,
    count: 123,
    slope: 2.361894885,
    correlation: 0.7026564053,
    exponent: 3.361379569,
    length: 217.1869919,
    mean: 5073.653036,
    deviation: 399.3644484,
    first: [4959.0945, 4701.0686, 4982.9318],
  },
] as const

describe('the scaled mass index', () => {
  it.each(species)('gives the figures of the $count $name penguins', ({ rows, count, ...expected }) => {
    expect(rows).toHaveLength(count)
    const scaling = scalingOf(masses(rows), lengths(rows))!
    expect(scaling.leastSquaresSlope).toBeCloseTo(expected.slope, 8)
    expect(scaling.correlation).toBeCloseTo(expected.correlation, 9)
    expect(scaling.exponent).toBeCloseTo(expected.exponent, 8)
    expect(scaling.referenceLengthMillimetres).toBeCloseTo(expected.length, 6)
    const indices = rows.map(([mass = 0, length = 0]) => scaledMassIndexGrams(mass, length, scaling))
    const mean = indices.reduce((sum, value) => sum + value, 0) / count
    const deviation = Math.sqrt(indices.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1))
    expect(mean).toBeCloseTo(expected.mean, 3)
    expect(deviation).toBeCloseTo(expected.deviation, 3)
    expect(indices.slice(0, 3)).toEqual(expected.first.map(value => expect.closeTo(value, 3)))
  })

  it('gives the exponent 2.708726916 for all 342 together', () => {
    const all = [...penguins.Adelie, ...penguins.Chinstrap, ...penguins.Gentoo]
    const scaling = scalingOf(masses(all), lengths(all))!
    expect(all).toHaveLength(342)
    expect(scaling.exponent).toBeCloseTo(2.708726916, 8)
    expect(scaling.correlation).toBeCloseTo(0.8588603654, 9)
  })

  it('gives the constructed gecko-like example (invented values)', () => {
    const length = [105, 110, 115, 120, 125, 130]
    const mass = [38, 46, 50, 62, 60, 78]
    const scaling = scalingOf(mass, length)!
    expect(scaling.exponent).toBeCloseTo(3.168680631, 8)
    expect(mass.map((grams, index) => scaledMassIndexGrams(grams, length[index]!, scaling))).toEqual(
      [54.2712, 56.6925, 53.5261, 57.9988, 49.3176, 56.6203].map(value => expect.closeTo(value, 3)),
    )
  })

  it('is the mass itself at the reference length', () => {
    expect(scaledMassIndexGrams(60, 120, { exponent: 3.2, referenceLengthMillimetres: 120 })).toBe(60)
  })

  it('shifts by about 8 % when 120 mm are measured 3 mm short, at an exponent of 3.2', () => {
    const scale = { exponent: 3.2, referenceLengthMillimetres: 120 }
    expect(indexErrorPercent(120, 3, scale)).toBeCloseTo(8.4, 1)
    expect(indexErrorPercent(120, -3, scale)).toBeCloseTo(-7.6, 1)
  })

  it('has no scaling from one animal or from animals of one length', () => {
    expect(scalingOf([60], [120])).toBeUndefined()
    expect(scalingOf([60, 62], [120, 120])).toBeUndefined()
  })
})

describe('mass over length', () => {
  it('is grams per millimetre, and refuses what is no measure', () => {
    expect(massOverLength(60, 120)).toBe(0.5)
    expect(() => massOverLength(60, 0)).toThrow('lengthMillimetres: 0')
    expect(() => massOverLength(-1, 120)).toThrow('massGrams: -1')
  })

  it("is compared with the animal's own past", () => {
    expect(againstOwnPastPercent(0.45, [0.5, 0.52, 0.48])).toBe(-10)
    expect(againstOwnPastPercent(0.45, [])).toBeUndefined()
  })
})
