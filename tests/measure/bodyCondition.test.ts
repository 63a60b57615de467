import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bodyCondition,
  CONDITION_PARTS,
  CONDITION_STEPS,
  type ConditionSeen,
  tailOverNeck,
} from '../../src/measure/bodyCondition.ts'

const seen = (looks: ConditionSeen['looks'], more: Partial<ConditionSeen> = {}) =>
  bodyCondition({ looks, tail: 'original', gravid: false, ...more })

describe('body condition', () => {
  it('is sure when every look and both views say the same', () => {
    expect(seen({ tail: 3, hipsAndSpine: 3, flanksAndThighs: 3, forelegPads: 'saysNothing' })).toEqual({
      step: 3,
      tailView: 3,
      bodyView: 3,
      disagreementSteps: 0,
      notUsed: [],
      missing: [],
      certainty: 'sure',
    })
  })

  it('takes the thinner of the two views and shows how far they are apart', () => {
    expect(seen({ tail: 2, hipsAndSpine: 4 })).toMatchObject({
      step: 2,
      disagreementSteps: 2,
      certainty: 'likely',
    })
    expect(seen({ tail: 4, hipsAndSpine: 1 })).toMatchObject({ step: 1, disagreementSteps: 3 })
  })

  it('takes the thinnest look of the body', () => {
    expect(seen({ hipsAndSpine: 4, flanksAndThighs: 2, forelegPads: 4 })).toMatchObject({
      bodyView: 2,
      step: 2,
    })
  })

  it('does not use a regrown tail, which stores more fat than the first (Russell et al. 2015, doi:10.1016/j.zool.2014.12.003)', () => {
    expect(seen({ tail: 5, hipsAndSpine: 2 }, { tail: 'regrown' })).toMatchObject({
      step: 2,
      tailView: undefined,
      disagreementSteps: 0,
      notUsed: [{ part: 'tail', why: 'tailRegrown' }],
    })
    expect(seen({ tail: 1 }, { tail: 'lost' })).toMatchObject({ step: undefined, certainty: 'cantTellYet' })
  })

  it('does not use the flanks of a female that may carry eggs', () => {
    const gravid = seen({ tail: 3, hipsAndSpine: 3, flanksAndThighs: 1 }, { gravid: true })
    expect(gravid).toMatchObject({ step: 3, notUsed: [{ part: 'flanksAndThighs', why: 'gravid' }] })
  })

  it('names what nobody could tell, and is at most likely without it', () => {
    expect(seen({ tail: 3, hipsAndSpine: 'cantTell', flanksAndThighs: 3 })).toMatchObject({
      missing: ['hipsAndSpine', 'forelegPads'],
      certainty: 'likely',
    })
    expect(
      seen({ tail: 3, hipsAndSpine: 3, flanksAndThighs: 3, forelegPads: 'saysNothing' }, { tail: 'unknown' }),
    ).toMatchObject({ step: 3, certainty: 'likely' })
    expect(seen({})).toMatchObject({ step: undefined, certainty: 'cantTellYet' })
  })

  it('never gets fatter when a look turns thinner, or when another look is added', () => {
    const step = fc.constantFrom(...CONDITION_STEPS)
    const looks = fc.record(
      { tail: step, hipsAndSpine: step, flanksAndThighs: step, forelegPads: step },
      { requiredKeys: ['tail'] },
    )
    fc.assert(
      fc.property(looks, fc.constantFrom(...CONDITION_PARTS), step, (given, part, other) => {
        const before = seen(given).step ?? 5
        const thinner = { ...given, [part]: Math.min(given[part] ?? 5, other) }
        expect(seen(thinner as ConditionSeen['looks']).step).toBeLessThanOrEqual(before)
      }),
    )
  })

  it('puts tail width over neck width', () => {
    expect(tailOverNeck(12, 10)).toBe(1.2)
    expect(() => tailOverNeck(0, 10)).toThrow('tailMillimetres: 0')
    expect(() => tailOverNeck(12, -1)).toThrow('neckMillimetres: -1')
  })
})
