import type { CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { WeightLossFact, WeightPolicy } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { compareWeights, type WeightComparison } from '../measure/compareWeights.ts'
import { lossCell } from '../measure/lossCell.ts'

/** What the weigh-ins of a case file say; kept as long as the lists are, because it is dear. */

/** The last comparison of each list of weigh-ins: it depends on the lists, the policy and the time alone. */
const comparisons = new WeakMap<
  readonly WeighIn[],
  {
    readonly caseFile: CaseFile
    readonly policy: WeightPolicy
    readonly now: Moment
    readonly value: WeightComparison
  }
>()

/** The comparison of a case file's weigh-ins at `now`. */
export function comparisonOf(caseFile: CaseFile, policy: WeightPolicy, now: Moment): WeightComparison {
  const before = comparisons.get(caseFile.weighIns)
  if (
    before &&
    before.policy === policy &&
    (before.caseFile === caseFile || before.caseFile.events === caseFile.events) &&
    before.now.instant === now.instant &&
    before.now.zone === now.zone
  )
    return before.value
  const value = compareWeights(caseFile.weighIns, caseFile.events, policy, now)
  comparisons.set(caseFile.weighIns, { caseFile, policy, now, value })
  return value
}

const cells = new WeakMap<
  WeightLossFact,
  { readonly id: string; readonly atLeastPercent: number; readonly withinDays?: number }[]
>()

/** The grid of a weight loss, worst first, as `lossCell` takes it. */
function gridOf(fact: WeightLossFact) {
  const before = cells.get(fact)
  if (before) return before
  const grid = fact.grid.map((one, at) => ({ id: String(at), ...one })).reverse()
  cells.set(fact, grid)
  return grid
}

/** The bit of the grid's cell that a comparison falls into; 0 where there is nothing to compare. */
export function lossBit(fact: WeightLossFact, weights: WeightComparison | undefined): number {
  const cell = weights ? lossCell(weights, gridOf(fact)) : undefined
  return cell === undefined ? 0 : 1 << Number(cell)
}
