import type { LossStep, WeightComparison } from './compareWeights.ts'
import { roundTo } from './numbers.ts'

/** One cell of the grid of percent lost against days, as content writes it. */
export interface LossGridCell {
  readonly id: string
  readonly atLeastPercent: number
  /** Only for losses over at most this many days; absent: over any time. */
  readonly withinDays?: number | undefined
}

/**
 * The id of the first cell that a loss falls into; undefined when there is nothing to compare. `grid` is
 * listed from worst to mildest and its last cell takes everything. Every loss on the staircase is tried, so
 * a smaller loss in fewer days is not hidden by a larger one over more. A loss between two cells takes the
 * stricter: percent are rounded to one place, as shown, and begun days are not counted.
 */
export function lossCell(comparison: WeightComparison, grid: readonly LossGridCell[]): string | undefined {
  if (comparison.reference === undefined) return undefined
  return firstCell(comparison.losses, grid)
}

/**
 * The cell the loss would fall into if the true weight were lower by the whole noise floor: where it differs
 * from `lossCell`, another weighing could still change the answer.
 */
export function lossCellAtWorst(
  comparison: WeightComparison,
  grid: readonly LossGridCell[],
): string | undefined {
  const { reference, recent, slow, noiseFloorGrams } = comparison
  if (reference === undefined) return undefined
  const widened = [recent, slow, ...comparison.losses].flatMap(step => {
    if (step === undefined) return []
    const lossGrams = step.lossGrams + noiseFloorGrams
    return [{ ...step, lossGrams, lossPercent: (100 * lossGrams) / step.referenceGrams }]
  })
  return firstCell(widened, grid)
}

function firstCell(losses: readonly LossStep[], grid: readonly LossGridCell[]): string {
  const last = grid.at(-1)
  if (last === undefined || last.atLeastPercent > 0 || last.withinDays !== undefined) {
    throw new RangeError('grid: the last cell must take every loss (atLeastPercent 0, no withinDays)')
  }
  const worst = grid.find(cell => losses.some(loss => reaches(loss, cell)))
  return (worst ?? last).id
}

/** Whether a loss counts as at least so many percent within so many days: percent as shown, to one place, and whole days. */
export function reaches(
  loss: { readonly lossPercent: number; readonly overDays: number },
  limit: { readonly atLeastPercent: number; readonly withinDays?: number | undefined },
): boolean {
  if (roundTo(loss.lossPercent, 1) < limit.atLeastPercent) return false
  return limit.withinDays === undefined || Math.floor(loss.overDays) <= limit.withinDays
}
