import { describe, expect, it } from 'vitest'
import { noiseFloorGrams } from '../../src/measure/noiseFloor.ts'
import { policy } from './fixtures/record.ts'

const floor = (massGrams: number, stepGrams: number, daySwingPercent: number) =>
  noiseFloorGrams(massGrams, stepGrams, stepGrams, { ...policy, daySwingPercent })

describe('the noise floor', () => {
  // Minimal detectable change: MDC95 = 1.96 * sqrt(2) * SEM (Furlan and Sterr 2018), SEM of a scale step d = d / sqrt(12).
  it('is 2.8 % of body weight for a day-to-day swing of 1 %, and 5.5 % for 2 %', () => {
    expect(floor(60, 0.01, 1) / 60).toBeCloseTo(0.0277, 4)
    expect(floor(60, 0.01, 2) / 60).toBeCloseTo(0.0554, 4)
  })

  it('adds the rounding of both scales', () => {
    const steps = noiseFloorGrams(60, 1, 0.1, { ...policy, daySwingPercent: 1 })
    expect(steps).toBeCloseTo(1.959964 * Math.sqrt((1 + 0.01) / 12 + 2 * 0.36), 5)
  })

  it('is never under one step: two readings 1 g apart on a 1 g scale mean nothing, whatever the animal weighs', () => {
    expect(1.959964 * Math.sqrt(2 / 12)).toBeCloseTo(0.8, 2) // the rounding alone would allow it
    for (const massGrams of [3, 5, 60, 120]) expect(floor(massGrams, 1, 0)).toBeGreaterThanOrEqual(1)
  })
})
