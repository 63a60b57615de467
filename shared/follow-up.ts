import type { Condition, LookAgain } from './compiled.ts'
import type { FollowUpSource, LOOK_MEANINGS, PLAN_BEGINNINGS } from './content.ts'
import type { Level } from './urgency.ts'

/**
 * The follow-up part of a compiled protocol: how each home plan is carried through to better or to the vet. Kept apart
 * from the logic, which decides without it.
 */

/** What the answer to a look does to the plan. */
export type LookMeaning = (typeof LOOK_MEANINGS)[number]

export interface LookOption {
  readonly id: string
  readonly means: LookMeaning
  /** On `raises` and `danger-check`: what the look alone gives. */
  readonly level?: Level
}

/** After which a look that goes on raises. Exactly one of `days`, `hours`, `looks` is there. */
export interface FollowUpLimit {
  readonly id: string
  /** Holds always where absent. */
  readonly when?: Condition
  /** Calendar days. */
  readonly days?: number
  /** Elapsed hours. */
  readonly hours?: number
  /** Looks that found no end. */
  readonly looks?: number
  /** The question that tells from when it is counted; from the beginning of the plan where absent. */
  readonly from?: string
  readonly level: Level
}

/** When looks are due, missed and asked for; one for all plans of a species. */
export interface FollowUpTiming {
  readonly morningHour: number
  readonly eveningHour: number
  readonly earlyHours: number
  readonly missedAfterHours: number
  readonly askAgainAfterHours: number
}

export interface FollowUpPlan {
  readonly id: string
  readonly begins: (typeof PLAN_BEGINNINGS)[number]
  readonly timing: FollowUpTiming
  readonly looks: readonly LookAgain[]
  /** Days between looks once `looks` are over. */
  readonly thenEveryDays: number
  /** From best to worst. */
  readonly options: readonly LookOption[]
  readonly spotsFrom?: string
  readonly replaces: readonly string[]
  readonly records?: NonNullable<FollowUpSource['records']>
  readonly closesFromDay: number
  readonly weighDays: readonly number[]
  readonly thenWeighEveryDays?: number
  readonly limits: readonly FollowUpLimit[]
  /** What no look after two asks gives. */
  readonly missed: Level
  readonly lastLookDays: number
}

export interface FollowUpWords {
  readonly ask: string
  /** In the order of the options. */
  readonly options: readonly string[]
  /** Why a limit raises, in the order of the limits. */
  readonly reasons: readonly string[]
}

export interface FollowUps {
  /** Hash of the plans, so that a stored plan can be told to have begun under the same. */
  readonly hash: string
  readonly plans: Readonly<Record<string, FollowUpPlan>>
  readonly words: Readonly<Record<string, FollowUpWords>>
}
