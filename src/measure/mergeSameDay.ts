import type { WeighIn } from '../../shared/case-file.ts'
import { calendarDayIn, instantMilliseconds } from './time.ts'

/** All weighings of one calendar day as one reading. */
export interface DayWeight {
  /** When the day's last weighing was taken. */
  readonly at: string
  readonly atMilliseconds: number
  readonly massGrams: number
  /** The coarsest scale step of the day. */
  readonly scaleStepGrams: number
  readonly weighings: number
  /** Highest less lowest weighing of the day. */
  readonly spreadGrams: number
}

/** A weighing with its time in milliseconds and its scale step filled in. */
export interface TimedWeighIn {
  readonly at: string
  readonly atMilliseconds: number
  readonly massGrams: number
  readonly scaleStepGrams: number
}

/** Reads the times of weighings; a RangeError names the field of one that cannot be read. */
export function timedWeighIns(weighIns: readonly WeighIn[], defaultScaleStepGrams: number): TimedWeighIn[] {
  return weighIns.map(({ at, massGrams, scaleStepGrams }, index) => {
    if (!(massGrams > 0))
      throw new RangeError(`weighIns.${index}.massGrams: ${massGrams} is not a weight above 0 g`)
    const atMilliseconds = Date.parse(at)
    if (Number.isNaN(atMilliseconds)) instantMilliseconds(at, `weighIns.${index}.at`)
    return { at, atMilliseconds, massGrams, scaleStepGrams: scaleStepGrams ?? defaultScaleStepGrams }
  })
}

/**
 * Weighings in order of time, those of one calendar day in `zone` merged unless one of `cuts` (instants in
 * milliseconds, ascending: a lost tail, say) lies between them. The day's mass is its last weighing, but
 * never more than the (upper) median of the day: a second weighing corrects the first, and one high weighing
 * does not undo two low ones.
 */
export function mergeSameDay(
  weighIns: readonly TimedWeighIn[],
  zone: string,
  cuts: readonly number[] = [],
): DayWeight[] {
  const inOrder = [...weighIns].sort((one, other) => one.atMilliseconds - other.atMilliseconds)
  const dayOf = calendarDayIn(zone)
  const merged: DayWeight[] = []
  let from = 0
  let day = Number.NaN
  let cut = 0
  for (const [index, { atMilliseconds }] of inOrder.entries()) {
    const itsDay = dayOf(atMilliseconds)
    const cutBefore = cut
    while ((cuts[cut] ?? Number.POSITIVE_INFINITY) < atMilliseconds) cut++
    if (index > 0 && (itsDay !== day || cut !== cutBefore)) {
      merged.push(mergeOneDay(inOrder, from, index))
      from = index
    }
    day = itsDay
  }
  if (inOrder.length > 0) merged.push(mergeOneDay(inOrder, from, inOrder.length))
  return merged
}

/** The weighings from index `from` up to, but without, index `to` as one reading. */
function mergeOneDay(weighIns: readonly TimedWeighIn[], from: number, to: number): DayWeight {
  const last = weighIns[to - 1]
  if (last === undefined) throw new RangeError('a day without a weighing')
  const { at, atMilliseconds, massGrams, scaleStepGrams } = last
  if (to - from === 1) return { at, atMilliseconds, massGrams, scaleStepGrams, weighings: 1, spreadGrams: 0 }
  const together = weighIns.slice(from, to)
  const masses = together.map(weighIn => weighIn.massGrams).sort((one, other) => one - other)
  const upperMedian = masses[masses.length >> 1] ?? massGrams
  return {
    at,
    atMilliseconds,
    massGrams: Math.min(massGrams, upperMedian),
    scaleStepGrams: Math.max(...together.map(weighIn => weighIn.scaleStepGrams)),
    weighings: together.length,
    spreadGrams: (masses.at(-1) ?? 0) - (masses[0] ?? 0),
  }
}
