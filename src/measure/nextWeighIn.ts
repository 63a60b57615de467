import type { AnimalEvent } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import type { WeightComparison } from './compareWeights.ts'
import type { FlagName, Flags, LifeStage } from './flags.ts'
import { FLAG_NAMES } from './flags.ts'
import { roundTo } from './numbers.ts'
import type { WeightPolicy } from './policy.ts'
import { elapsedDays, instantMilliseconds, MILLISECONDS_PER_DAY } from './time.ts'

/** When to weigh next, why, and what that weight would settle. */
export interface NextWeighIn {
  /** The instant from which it is due; never before `now`. */
  readonly dueAt: string
  readonly because: 'nothingWeighed' | 'confirmTheNewest' | 'afterAnEvent' | 'stillOpen' | 'routine'
  /** Flags that are open, or up without being sure. */
  readonly settles: readonly FlagName[]
  /** A weight at or under which the next reading would raise (or keep) a loss flag. */
  readonly lines: readonly { readonly flag: 'fastLoss' | 'slowLoss'; readonly atOrBelowGrams: number }[]
}

/**
 * The next weighing: at once where the newest reading stands alone and lies far off, else on the days after an
 * event (the first that has no weighing yet), else after the usual interval of a young or a grown animal.
 */
export function nextWeighIn(
  comparison: WeightComparison,
  flags: Flags,
  events: readonly AnimalEvent[],
  life: LifeStage,
  policy: WeightPolicy,
  now: Moment,
): NextWeighIn {
  const nowMilliseconds = instantMilliseconds(now.instant, 'now.instant')
  const settles = FLAG_NAMES.filter(name => flags[name].certainty !== 'sure')
  const due = (milliseconds: number, because: NextWeighIn['because']): NextWeighIn => {
    const dueMilliseconds = Math.max(milliseconds, nowMilliseconds)
    return {
      dueAt: new Date(dueMilliseconds).toISOString(),
      because,
      settles,
      lines: linesAt(comparison, policy, dueMilliseconds),
    }
  }
  if (comparison.newest === undefined) return due(nowMilliseconds, 'nothingWeighed')
  if (comparison.weighAgainNow) return due(nowMilliseconds, 'confirmTheNewest')
  const newestMilliseconds = instantMilliseconds(comparison.newest.at, 'newest.at')
  const usual =
    newestMilliseconds +
    (life === 'grown' ? policy.weighAgain.everyDays : policy.weighAgain.youngEveryDays) * MILLISECONDS_PER_DAY
  const afterEvent = events.flatMap((event, index) => {
    if (!policy.explanations.some(({ kind }) => kind === event.kind)) return []
    const eventMilliseconds = instantMilliseconds(event.at, `events.${index}.at`)
    if (eventMilliseconds > nowMilliseconds) return []
    return policy.weighAgain.afterEventDays
      .map(days => eventMilliseconds + days * MILLISECONDS_PER_DAY)
      .filter(milliseconds => milliseconds > newestMilliseconds)
  })
  const soonest = Math.min(...afterEvent)
  if (soonest <= usual) return due(soonest, 'afterAnEvent')
  return due(usual, settles.length > 0 ? 'stillOpen' : 'routine')
}

function linesAt(
  comparison: WeightComparison,
  policy: WeightPolicy,
  dueMilliseconds: number,
): NextWeighIn['lines'] {
  const highest = (withinDays: number): number | undefined => {
    const masses = [comparison.recent, comparison.slow, ...comparison.losses].flatMap(step =>
      step !== undefined &&
      elapsedDays(instantMilliseconds(step.referenceAt, 'referenceAt'), dueMilliseconds) <= withinDays
        ? [step.referenceGrams]
        : [],
    )
    if (comparison.newest !== undefined) masses.push(comparison.newest.massGrams)
    return masses.length === 0 ? undefined : Math.max(...masses)
  }
  const line = (flag: 'fastLoss' | 'slowLoss', withinDays: number, atLeastPercent: number) => {
    const reference = highest(withinDays)
    return reference === undefined
      ? []
      : [{ flag, atOrBelowGrams: roundTo(reference * (1 - atLeastPercent / 100), 1) }]
  }
  return [
    ...line('fastLoss', policy.flags.fastLoss.withinDays, policy.flags.fastLoss.atLeastPercent),
    ...line('slowLoss', policy.slowReferenceDays, policy.flags.slowLoss.atLeastPercent),
  ]
}
