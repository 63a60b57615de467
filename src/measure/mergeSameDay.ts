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

interface TimedWeighIn {
  readonly at: string
  readonly atMilliseconds: number
  readonly massGrams: number
  readonly scaleStepGrams: number
}

/**
 * Weighings in order of time, those of one calendar day in `zone` merged unless one of `cuts` (instants in
 * milliseconds, ascending: a lost tail, say) lies between them. The day's mass is its last weighing, but
 * never more than the (upper) median of the day: a second weighing corrects the first, and one high weighing
 * does not undo two low ones.
 */
export function mergeSameDay(
  weighIns: readonly WeighIn[],
  zone: string,
  defaultScaleStepGrams: number,
  cuts: readonly number[] = [],
): DayWeight[] {
  const inOrder = weighIns.map((weighIn, index) => timed(weighIn, index, defaultScaleStepGrams))
  inOrder.sort((one, other) => one.atMilliseconds - other.atMilliseconds)
  const dayOf = calendarDayIn(zone)
  const merged: DayWeight[] = []
  let together: TimedWeighIn[] = []
  let day = Number.NaN
  let cut = 0
  const close = () => {
    if (together.length > 0) merged.push(mergeOneDay(together))
    together = []
  }
  for (const weighIn of inOrder) {
    const itsDay = dayOf(weighIn.atMilliseconds)
    const cutBefore = cut
    while ((cuts[cut] ?? Number.POSITIVE_INFINITY) < weighIn.atMilliseconds) cut++
    if (itsDay !== day || cut !== cutBefore) close()
    day = itsDay
    together.push(weighIn)
  }
  close()
  return merged
}

function timed(weighIn: WeighIn, index: number, defaultScaleStepGrams: number): TimedWeighIn {
  if (!(weighIn.massGrams > 0)) {
    throw new RangeError(`weighIns.${index}.massGrams: ${weighIn.massGrams} is not a weight above 0 g`)
  }
  return {
    at: weighIn.at,
    atMilliseconds: instantMilliseconds(weighIn.at, `weighIns.${index}.at`),
    massGrams: weighIn.massGrams,
    scaleStepGrams: weighIn.scaleStepGrams ?? defaultScaleStepGrams,
  }
}

function mergeOneDay(together: readonly TimedWeighIn[]): DayWeight {
  const [only] = together
  const last = together.at(-1)
  if (only === undefined || last === undefined) throw new RangeError('a day without a weighing')
  if (together.length === 1) return { ...only, weighings: 1, spreadGrams: 0 }
  const masses = together.map(({ massGrams }) => massGrams).sort((one, other) => one - other)
  const upperMedian = masses[masses.length >> 1] ?? last.massGrams
  return {
    at: last.at,
    atMilliseconds: last.atMilliseconds,
    massGrams: Math.min(last.massGrams, upperMedian),
    scaleStepGrams: Math.max(...together.map(({ scaleStepGrams }) => scaleStepGrams)),
    weighings: together.length,
    spreadGrams: (masses.at(-1) ?? 0) - (masses[0] ?? 0),
  }
}
