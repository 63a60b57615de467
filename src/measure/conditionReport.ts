import { type BodyCondition, bodyCondition, type ConditionSeen, tailOverNeck } from './bodyCondition.ts'
import {
  againstOwnPastPercent,
  type IndexScale,
  indexErrorPercent,
  massOverLength,
  scaledMassIndexGrams,
} from './massIndex.ts'
import { instantMilliseconds } from './time.ts'

/** Mass and snout-vent length of one animal at one time. */
export interface Measured {
  readonly at: string
  readonly massGrams: number
  readonly lengthMillimetres: number
}

/** All that can be said of one animal's condition at one time; every part may be missing. */
export interface ConditionInput {
  readonly seen?: ConditionSeen | undefined
  readonly tailMillimetres?: number | undefined
  readonly neckMillimetres?: number | undefined
  readonly measured: readonly Measured[]
  /** When the tail was last lost: an index from before it is not compared with one from after it. */
  readonly tailLostAt?: string | undefined
  /** By how much the length may be misread, in millimetres. */
  readonly lengthErrorMillimetres?: number | undefined
}

export interface IndexAt extends Measured {
  readonly massOverLength: number
  readonly scaledMassIndexGrams: number
  /** Whether it is compared: of the same tail as the newest. */
  readonly isCompared: boolean
}

export interface ConditionReport {
  readonly look: BodyCondition | undefined
  readonly tailOverNeck: number | undefined
  /** In order of time. */
  readonly indices: readonly IndexAt[]
  /** The exponent and the length at which the scaled index is taken. */
  readonly scale: IndexScale
  /** The newest against the median of the animal's own earlier ones, in percent; undefined without earlier ones. */
  readonly againstOwnPast:
    | {
        readonly massOverLengthPercent: number
        readonly scaledMassIndexPercent: number
        /** How far the scaled index alone moves when the length is read too short, or too long, by the stated error. */
        readonly lengthErrorPercent: { readonly short: number; readonly long: number } | undefined
      }
    | undefined
  /** Why the newest is not compared although there are earlier ones. */
  readonly notCompared: 'gravid' | 'tailLostSince' | undefined
}

/**
 * The look from four observations, the tail against the neck, and the measured indices against the animal's own past.
 * With eggs inside nothing is compared, because they weigh and are no fat; across a lost tail nothing is compared.
 */
export function conditionReport(input: ConditionInput, scale: IndexScale): ConditionReport {
  const { seen, tailMillimetres, neckMillimetres, lengthErrorMillimetres } = input
  const lostMilliseconds =
    input.tailLostAt === undefined
      ? Number.NEGATIVE_INFINITY
      : instantMilliseconds(input.tailLostAt, 'tailLostAt')
  const indices = input.measured
    .map((measured, index) => ({
      measured,
      atMilliseconds: instantMilliseconds(measured.at, `measured.${index}.at`),
    }))
    .sort((one, other) => one.atMilliseconds - other.atMilliseconds)
    .map(({ measured, atMilliseconds }) => ({
      ...measured,
      massOverLength: massOverLength(measured.massGrams, measured.lengthMillimetres),
      scaledMassIndexGrams: scaledMassIndexGrams(measured.massGrams, measured.lengthMillimetres, scale),
      isCompared: atMilliseconds > lostMilliseconds,
    }))
  const newest = indices.at(-1)
  const earlier = indices.slice(0, -1).filter(({ isCompared }) => isCompared)
  const compared = newest?.isCompared === true && seen?.gravid !== true ? newest : undefined
  const massPercent =
    compared &&
    againstOwnPastPercent(
      compared.massOverLength,
      earlier.map(one => one.massOverLength),
    )
  const scaledPercent =
    compared &&
    againstOwnPastPercent(
      compared.scaledMassIndexGrams,
      earlier.map(one => one.scaledMassIndexGrams),
    )
  return {
    look: seen && bodyCondition(seen),
    tailOverNeck:
      tailMillimetres !== undefined && neckMillimetres !== undefined
        ? tailOverNeck(tailMillimetres, neckMillimetres)
        : undefined,
    indices,
    scale,
    againstOwnPast:
      compared === undefined || massPercent === undefined || scaledPercent === undefined
        ? undefined
        : {
            massOverLengthPercent: massPercent,
            scaledMassIndexPercent: scaledPercent,
            lengthErrorPercent:
              lengthErrorMillimetres === undefined
                ? undefined
                : {
                    short: indexErrorPercent(compared.lengthMillimetres, lengthErrorMillimetres, scale),
                    long: indexErrorPercent(compared.lengthMillimetres, -lengthErrorMillimetres, scale),
                  },
          },
    notCompared: indices.length < 2 ? undefined : whyNot(),
  }

  function whyNot(): ConditionReport['notCompared'] {
    if (seen?.gravid === true) return 'gravid'
    return earlier.length === 0 ? 'tailLostSince' : undefined
  }
}
