import type { AnimalEvent, WeighIn } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { compareSeries, type WeightComparison } from './compareWeights.ts'
import { type Flags, type LifeStage, weightFlags } from './flags.ts'
import { type NextWeighIn, nextWeighIn } from './nextWeighIn.ts'
import type { WeightPolicy } from './policy.ts'
import { type Reading, type WeightSeries, weightSeries } from './series.ts'
import { type WindowTrend, windowTrends } from './trend.ts'

/** Everything a weight record says about one animal at one time. */
export interface WeightReport {
  readonly series: WeightSeries
  readonly comparison: WeightComparison
  readonly trends: readonly WindowTrend[]
  readonly flags: Flags
  readonly next: NextWeighIn
  /** The heaviest and the lightest reading that is not marked as an outlier. */
  readonly highest: Reading | undefined
  readonly lowest: Reading | undefined
}

/** Reads a weight record once and computes comparison, trends, flags and the next weighing from it. */
export function weightReport(
  weighIns: readonly WeighIn[],
  events: readonly AnimalEvent[],
  life: LifeStage,
  policy: WeightPolicy,
  now: Moment,
): WeightReport {
  const series = weightSeries(weighIns, events, policy, now)
  const comparison = compareSeries(series, policy, now)
  const trends = windowTrends(series, policy.trend)
  const flags = weightFlags(series, comparison, trends, life, policy, now)
  let highest: Reading | undefined
  let lowest: Reading | undefined
  for (const reading of series.readings) {
    if (reading.outlier) continue
    if (highest === undefined || reading.massGrams > highest.massGrams) highest = reading
    if (lowest === undefined || reading.massGrams < lowest.massGrams) lowest = reading
  }
  return {
    series,
    comparison,
    trends,
    flags,
    next: nextWeighIn(comparison, flags, events, life, policy, now),
    highest,
    lowest,
  }
}
