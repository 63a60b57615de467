import { describe, expect, it } from 'vitest'
import { type FastingData, fastingLoss, restingFatGramsPerDay } from '../../src/measure/fastingLoss.ts'

// Resting oxygen of geckos, microlitres per hour = 14.5 M^0.833 10^(0.0398 T) (Withers, Aplin and Werner);
// 39.3 kJ per g fat and 20.1 J per mL oxygen as in tests of public biophysics code (second-hand, unverified).
const data: FastingData = {
  oxygen: { factor: 14.5, exponent: 0.833, perCelsius: 0.0398 },
  joulesPerMillilitreOxygen: 20.1,
  kilojoulesPerGramFat: 39.3,
  upToTimesResting: 2,
}

describe('the loss that a fast explains', () => {
  it.each([
    [30, 25, 0.03, 0.7],
    [30, 30, 0.047, 1.1],
    [60, 25, 0.053, 0.62],
    [60, 30, 0.084, 0.98],
  ])(
    'of a %d g gecko resting at %d °C is %d g of fat a day',
    (massGrams, celsius, gramsPerDay, percentPerWeek) => {
      const grams = restingFatGramsPerDay(massGrams, celsius, data)
      expect(grams).toBeCloseTo(gramsPerDay, 3)
      expect((700 * grams) / massGrams).toBeCloseTo(percentPerWeek, 2)
    },
  )

  it('leaves the rest of a loss unexplained: 6 g in 14 days is not a fast', () => {
    const loss = fastingLoss(60, 6, 14, 30, data)
    expect(loss.restingGrams).toBeCloseTo(1.18, 2)
    expect(loss.upToGrams).toBeCloseTo(2.36, 2)
    expect(loss.unexplainedGrams).toBeCloseTo(3.64, 2)
  })

  it('explains a loss of one gram in two weeks altogether', () => {
    expect(fastingLoss(60, 1, 14, 30, data).unexplainedGrams).toBe(0)
  })

  it('explains more in the warmth than in the cold', () => {
    expect(restingFatGramsPerDay(60, 30, data)).toBeGreaterThan(restingFatGramsPerDay(60, 20, data))
  })
})
