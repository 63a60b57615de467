import { describe, expect, it } from 'vitest'
import type { FlagName, LifeStage } from '../../src/measure/flags.ts'
import { weightReport } from '../../src/measure/weightReport.ts'
import { on, policy, weekly, weighed } from './fixtures/record.ts'

const OPEN = { certainty: 'cantTellYet' }
const yes = (certainty: string) => ({ holds: true, certainty })
const no = (certainty: string) => ({ holds: false, certainty })

function flagOf(
  name: FlagName,
  masses: Readonly<Record<number, number>>,
  { life = 'grown' as LifeStage, today = Math.max(0, ...Object.keys(masses).map(Number)), step = 0.1 } = {},
) {
  return weightReport(weighed(masses, step), [], life, policy, on(today)).flags[name]
}

const steadyMonth = { 0: 60, 7: 60.5, 14: 60, 21: 60.2, 28: 60.3 }

describe('fast loss', () => {
  it('is likely from two readings, and sure once two show it against a median', () => {
    expect(flagOf('fastLoss', { 0: 60, 10: 53 })).toEqual(yes('likely'))
    expect(flagOf('fastLoss', { 0: 60, 7: 60, 14: 60, 20: 53, 21: 53 })).toEqual(yes('sure'))
  })
  it('is not there when the same loss took longer, or when the weight held', () => {
    expect(flagOf('fastLoss', { 0: 60, 30: 52.8 })).toEqual(no('likely'))
    expect(flagOf('fastLoss', steadyMonth)).toEqual(no('sure'))
  })
  it('is open with one weight, and behind a scale too coarse to show it', () => {
    expect(flagOf('fastLoss', { 0: 60 })).toEqual(OPEN)
    expect(flagOf('fastLoss', { 0: 5, 7: 4 }, { step: 1 })).toEqual(OPEN)
  })
  it('stays likely when the readings grow old, and is open again when they showed none', () => {
    expect(flagOf('fastLoss', { 0: 60, 10: 53 }, { today: 60 })).toEqual(yes('likely'))
    expect(flagOf('fastLoss', steadyMonth, { today: 90 })).toEqual(OPEN)
  })
})

describe('slow loss', () => {
  it('is a fifth over any time', () => {
    expect(flagOf('slowLoss', { 0: 60, 60: 57, 120: 54, 180: 50, 240: 47.5 })).toMatchObject({ holds: true })
    expect(flagOf('slowLoss', { 0: 60, 30: 52.8 })).toEqual(no('likely'))
  })
})

describe('downward on three readings', () => {
  it('is likely from three falling readings and sure from a run that chance does not make', () => {
    expect(flagOf('downwardOnThree', { 0: 60, 7: 58, 14: 56 })).toEqual(yes('likely'))
    expect(flagOf('downwardOnThree', { 0: 60, 7: 59, 14: 58, 21: 57, 28: 56 })).toEqual(yes('sure'))
  })
  it('is not there when the newest reading did not fall', () => {
    expect(flagOf('downwardOnThree', { 0: 60, 7: 58, 14: 58 })).toEqual(no('sure'))
    expect(flagOf('downwardOnThree', { 0: 58, 7: 60, 14: 59.9 })).toEqual(no('sure'))
  })
  it('is open from two readings, or when the fall is within the noise', () => {
    expect(flagOf('downwardOnThree', { 0: 60, 7: 58 })).toEqual(OPEN)
    expect(flagOf('downwardOnThree', { 0: 60, 7: 59.8, 14: 59.6 })).toEqual(OPEN)
    expect(flagOf('downwardOnThree', {})).toEqual(OPEN)
  })
})

describe('a young one not gaining', () => {
  const young = { life: 'young' as const }
  it('shows over three weeks without a gain', () => {
    expect(flagOf('youngNotGaining', { 0: 20, 7: 20, 14: 20.1, 21: 20.1 }, young)).toEqual(yes('sure'))
    expect(flagOf('youngNotGaining', { 0: 20, 21: 20 }, young)).toEqual(yes('likely'))
  })
  it('is not there when it gained, or is grown', () => {
    expect(flagOf('youngNotGaining', { 0: 20, 21: 24 }, young)).toEqual(no('sure'))
    expect(flagOf('youngNotGaining', { 14: 20, 21: 24 }, young)).toEqual(no('likely'))
    expect(flagOf('youngNotGaining', steadyMonth)).toEqual(no('sure'))
  })
  it('is open over less time, and when nobody knows whether it still grows', () => {
    expect(flagOf('youngNotGaining', { 0: 20, 7: 20 }, young)).toEqual(OPEN)
    expect(flagOf('youngNotGaining', { 0: 20, 21: 20 }, { life: 'unknown' })).toEqual(OPEN)
    expect(flagOf('youngNotGaining', {}, young)).toEqual(OPEN)
  })
})

describe('fast gain', () => {
  it('shows in a grown animal, surely on two readings', () => {
    expect(flagOf('fastGain', { 0: 50, 14: 56 })).toEqual(yes('likely'))
    expect(flagOf('fastGain', { 0: 50, 14: 56, 18: 57 })).toEqual(yes('sure'))
  })
  it('is growth in a young one, and open when the age is unknown', () => {
    expect(flagOf('fastGain', { 0: 10, 14: 14 }, { life: 'young' })).toEqual(no('sure'))
    expect(flagOf('fastGain', { 0: 50, 14: 56 }, { life: 'unknown' })).toEqual(OPEN)
  })
  it('is not there in a steady animal, and open without a second weight near', () => {
    expect(flagOf('fastGain', steadyMonth)).toEqual(no('sure'))
    expect(flagOf('fastGain', { 0: 50, 60: 56 })).toEqual(OPEN)
  })
})

describe('steady', () => {
  it('takes enough readings within a small band', () => {
    expect(flagOf('steady', steadyMonth)).toEqual(yes('sure'))
    expect(flagOf('steady', { 0: 60, 7: 60 })).toEqual(OPEN)
    expect(flagOf('steady', {})).toEqual(OPEN)
  })
  it('is not there when a reading strays, or when all fall in order', () => {
    expect(flagOf('steady', { ...steadyMonth, 28: 55 })).toEqual(no('sure'))
    expect(flagOf('steady', { 0: 60.6, 7: 60.4, 14: 60.2, 21: 60, 28: 59.8 })).toMatchObject({ holds: false })
  })
})

describe('too few readings', () => {
  it('holds back small changes only: a large loss shows in spite of it', () => {
    const { flags } = weightReport(weighed({ 0: 60, 7: 51 }), [], 'grown', policy, on(7))
    expect(flags.tooFewReadings).toEqual(yes('sure'))
    expect(flags.fastLoss).toEqual(yes('likely'))
  })
  it('ends with enough of them', () => {
    expect(flagOf('tooFewReadings', steadyMonth)).toEqual(no('sure'))
  })
})

it('the five weekly readings of clinical must 2.3 raise fast loss', () => {
  const { flags } = weightReport(weekly([60, 61, 60, 60.5, 52], 1), [], 'unknown', policy, on(28))
  expect(flags.fastLoss).toEqual(yes('likely'))
  expect(flags.steady).toEqual(no('sure'))
})
