import type { AnimalEvent, WeighIn } from '../../shared/case-file.ts'
import type { ComparisonPolicy } from './policy.ts'
import { instantMilliseconds, MILLISECONDS_PER_DAY } from './time.ts'

/** So many weighings are kept however old they are: an animal weighed once a year has a past too. */
const KEPT_AT_LEAST = 40

/** One calendar day with the hour that a clock change adds. */
const LONGEST_DAY = 25 * 3_600_000

/**
 * The end of a long record that today's comparison, trends and flags depend on: the reference of slow loss, the
 * neighbours that smooth it and those that mark outliers, and never a cut near an event that explains a step. All that
 * a report says of today comes out the same; older explained steps, the highest and the lowest of all time need the
 * whole record.
 *
 * @param weighIns in order of time
 * @param nowInstant ISO 8601; weighings after it are kept, and do not count
 */
export function recentWeighIns<Kind extends WeighIn>(
  weighIns: readonly Kind[],
  events: readonly AnimalEvent[],
  policy: ComparisonPolicy,
  nowInstant: string,
): readonly Kind[] {
  const { slowReferenceDays, neighboursWithinDays, outliers, explainedWithinDays } = policy
  const msAt = (index: number) => instantMilliseconds(weighIns[index]?.at ?? '', `weighIns.${index}.at`)
  const now = instantMilliseconds(nowInstant, 'now.instant')
  let newest = weighIns.length - 1
  while (newest >= 0 && msAt(newest) > now) newest--
  if (newest < KEPT_AT_LEAST) return weighIns
  const needed = slowReferenceDays + neighboursWithinDays + outliers.withinDays + 2
  const stretch = (explainedWithinDays + 1) * MILLISECONDS_PER_DAY
  let cut = Math.min(msAt(newest) - needed * MILLISECONDS_PER_DAY, msAt(newest - KEPT_AT_LEAST))
  const explaining = events
    .filter(({ kind }) => policy.explanations.some(one => one.kind === kind))
    .map(({ at }, index) => instantMilliseconds(at, `events.${index}.at`))
    .sort((one, other) => other - one)
  for (const event of explaining) if (Math.abs(event - cut) <= stretch) cut = event - stretch
  let from = firstFrom(cut, newest, msAt)
  // An event just behind the cut is read against the day before it, however long ago that was.
  if (from > 0) from = firstFrom(msAt(from - 1) - LONGEST_DAY, from, msAt)
  return from === 0 ? weighIns : weighIns.slice(from)
}

/** The first index whose weighing is not before an instant, found by halving. */
function firstFrom(ms: number, upTo: number, msAt: (index: number) => number): number {
  let low = 0
  let high = upTo
  while (low < high) {
    const middle = (low + high) >> 1
    if (msAt(middle) < ms) low = middle + 1
    else high = middle
  }
  return low
}
