import { describe, expect, it } from 'vitest'
import { ageInDays, lifeStageOf } from '../../src/measure/lifeStage.ts'

describe('the age of an animal', () => {
  it('is counted in calendar days where it lives', () => {
    const eveningInLondon = { instant: '2026-01-01T23:30:00Z', zone: 'Europe/London' }
    expect(ageInDays('2026-01-01', eveningInLondon)).toBe(0)
    expect(ageInDays('2026-01-01', { ...eveningInLondon, zone: 'Europe/Berlin' })).toBe(1)
    expect(ageInDays('2026-01-03', eveningInLondon)).toBe(-2)
  })

  it('makes it young until the day content names, and is unknown without a hatch date', () => {
    const now = { instant: '2026-12-31T12:00:00Z', zone: 'UTC' }
    expect(lifeStageOf('2026-01-01', 365, now)).toBe('young')
    expect(lifeStageOf('2025-12-31', 365, now)).toBe('grown')
    expect(lifeStageOf(undefined, 365, now)).toBe('unknown')
  })

  it('refuses what is no date', () => {
    expect(() => ageInDays('soon', { instant: '2026-12-31T12:00:00Z', zone: 'UTC' })).toThrow('hatchedOn')
  })
})
