/**
 * The numbers that content supplies to this folder. The code holds formulas and logic; every threshold,
 * window and explained size arrives through these types.
 */

/** How much of a step down an event may explain. */
export interface Explanation {
  /** The kind of event, as in the record. */
  readonly kind: string
  /** The most it explains, in percent of the body mass just before. */
  readonly upToPercent: number
  /** Whether an event that names a share (0 to 1) explains only that share of the percentage. */
  readonly byShare: boolean
  /** Whether it explains anything only when it was seen and not guessed. */
  readonly onlyIfSeen: boolean
  /** For a reading from before several such events: `adds` takes off every one, `largest` only the largest (what is regained between). */
  readonly repeats: 'adds' | 'largest'
}

/** When a reading is marked as an outlier (never deleted). */
export interface OutlierPolicy {
  /** Neighbours looked at on each side. */
  readonly readingsEachSide: number
  /** Neighbours further away than this are not looked at. */
  readonly withinDays: number
  /** With fewer readings in the window, the reading itself counted, nothing is marked. */
  readonly atLeastReadings: number
  /** Multiple of the scaled median absolute deviation. */
  readonly threshold: number
}

/** How far apart two readings must be before the difference counts. */
export interface NoisePolicy {
  /** Scale step taken for a reading that states none, in grams. */
  readonly defaultScaleStepGrams: number
  /** Day-to-day swing of a healthy animal as a coefficient of variation, in percent of its mass. */
  readonly daySwingPercent: number
  /** Two-sided confidence, between 0 and 1. */
  readonly confidence: number
}

/** All that `compareWeights` needs. */
export interface ComparisonPolicy extends NoisePolicy {
  /** The reference weight is the best weight of this many days before the newest reading. */
  readonly referenceDays: number
  /** The same for slow loss. */
  readonly slowReferenceDays: number
  /** A reading is smoothed by its two neighbours only when both lie within this many days of it. */
  readonly neighboursWithinDays: number
  /** The newest reading speaks for today up to this age. */
  readonly freshDays: number
  /** From this many readings on, a small difference is no longer "too few readings". */
  readonly enoughReadings: number
  /** A scale whose step is more than this percent of the animal is too coarse for it. */
  readonly coarseStepPercent: number
  /** An event explains a step only when the animal was weighed within this many days after it. */
  readonly explainedWithinDays: number
  /** The new baseline after an event is the first reading at least this many days after it. */
  readonly newBaselineDays: number
  readonly explanations: readonly Explanation[]
  readonly outliers: OutlierPolicy
}

/** All that the trend windows need. */
export interface TrendPolicy {
  /** Lengths of the windows that end at the newest reading, in days. */
  readonly windowsDays: readonly number[]
  /** Fewer readings than this in a window give no trend for it. */
  readonly leastReadings: number
  /** Confidence of the limits of the slope, between 0 and 1. */
  readonly confidence: number
}

/** A change of at least this many percent in at most this many days. */
export interface ChangeWithin {
  readonly atLeastPercent: number
  readonly withinDays: number
}

/** All that the flags need. */
export interface FlagPolicy {
  readonly fastLoss: ChangeWithin
  readonly slowLoss: { readonly atLeastPercent: number }
  readonly fastGain: ChangeWithin
  /** A young animal that has gained nothing beyond the noise over this many days. */
  readonly youngNotGaining: { readonly overDays: number }
  readonly steady: {
    readonly withinPercent: number
    readonly overDays: number
    readonly atLeastReadings: number
  }
  /** One-sided probability at or under which a run of readings counts as a trend. */
  readonly trendProbability: number
}

/** When to weigh next. */
export interface WeighAgainPolicy {
  readonly everyDays: number
  readonly youngEveryDays: number
  /** Days after an explaining event. */
  readonly afterEventDays: readonly number[]
}

/** Everything the weight record needs. */
export interface WeightPolicy extends ComparisonPolicy {
  readonly trend: TrendPolicy
  readonly flags: FlagPolicy
  readonly weighAgain: WeighAgainPolicy
}

/** How well something is known. */
export type Certainty = 'sure' | 'likely' | 'cantTellYet'
