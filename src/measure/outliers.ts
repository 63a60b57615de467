import type { DayWeight } from './mergeSameDay.ts'
import { noiseFloorGrams } from './noiseFloor.ts'
import { at } from './numbers.ts'
import type { NoisePolicy, OutlierPolicy } from './policy.ts'
import { elapsedDays } from './time.ts'

/** Makes the median absolute deviation estimate the standard deviation of normal data (Hampel identifier). */
const DEVIATION_SCALE = 1.4826

type MarkingPolicy = NoisePolicy & { readonly outliers: OutlierPolicy }

/**
 * The Hampel identifier over one sample: its median, and how far from it a value may lie, which is
 * `threshold` times 1.4826 times the median absolute deviation.
 */
export function hampelLimit(
  values: ArrayLike<number>,
  threshold: number,
): { readonly middle: number; readonly limit: number } {
  const work = new Float64Array(values)
  const middle = middleOf(work)
  for (let index = 0; index < work.length; index++) work[index] = Math.abs(at(work, index) - middle)
  return { middle, limit: threshold * DEVIATION_SCALE * middleOf(work) }
}

/**
 * Which readings of one stretch of the record are outliers, by the Hampel identifier in a window that moves
 * along. Exceptions keep it honest about weights: a deviation within the noise floor is never one; a reading
 * whose neighbour lies off on the same side is confirmed, not an outlier; and the newest reading of the record
 * (`lastIsNewest`) is never one, however low, because a fresh loss looks exactly like that. The newest may
 * confirm its neighbour but stays out of every other window, so that the lower it is, the greater the loss
 * remains: it cannot turn the weight it is compared with into an outlier.
 */
export function markOutliers(
  readings: readonly DayWeight[],
  lastIsNewest: boolean,
  policy: MarkingPolicy,
): boolean[] {
  const last = readings.length - 1
  return readings.map((_, index) => {
    if (lastIsNewest && index === last) return false
    return standsAlone(readings, index, lastIsNewest ? last - 1 : last, policy)
  })
}

/** Whether the newest reading would be marked if it were not the newest: a reason to weigh again at once. */
export function newestLooksOdd(readings: readonly DayWeight[], policy: MarkingPolicy): boolean {
  return standsAlone(readings, readings.length - 1, readings.length - 1, policy)
}

/** Whether a reading lies beyond the limit of its window, which ends at `windowEnd`, and no neighbour confirms it. */
function standsAlone(
  readings: readonly DayWeight[],
  index: number,
  windowEnd: number,
  policy: MarkingPolicy,
): boolean {
  const reading = readings[index]
  if (reading === undefined) return false
  const { from, to } = windowAround(readings, index, windowEnd, policy.outliers)
  if (to - from + 1 < policy.outliers.atLeastReadings) return false
  const masses = new Float64Array(to - from + 1)
  for (let place = from; place <= to; place++) masses[place - from] = readings[place]?.massGrams ?? Number.NaN
  const middle = middleOf(masses)
  const away = reading.massGrams - middle
  // The floor is asked first because it is the cheaper of the two and answers for almost every reading.
  const floor = noiseFloorGrams(middle, reading.scaleStepGrams, reading.scaleStepGrams, policy)
  if (Math.abs(away) <= floor) return false
  const { limit } = hampelLimit(masses, policy.outliers.threshold)
  if (Math.abs(away) <= limit) return false
  return ![readings[index - 1], readings[index + 1]].some(
    neighbour =>
      neighbour !== undefined &&
      isNear(neighbour, reading, policy.outliers) &&
      (neighbour.massGrams - middle) * Math.sign(away) > Math.max(limit, floor),
  )
}

/** Median of a handful of numbers, sorted in place by insertion: this runs once per reading of ten years. */
function middleOf(values: Float64Array): number {
  for (let index = 1; index < values.length; index++) {
    const value = at(values, index)
    let place = index - 1
    while (place >= 0 && at(values, place) > value) {
      values[place + 1] = at(values, place)
      place--
    }
    values[place + 1] = value
  }
  const upper = values.length >> 1
  return values.length % 2 === 1 ? at(values, upper) : (at(values, upper - 1) + at(values, upper)) / 2
}

function windowAround(
  readings: readonly DayWeight[],
  index: number,
  windowEnd: number,
  policy: OutlierPolicy,
) {
  const centre = readings[index]
  const near = (place: number): boolean => {
    const reading = readings[place]
    return reading !== undefined && centre !== undefined && isNear(reading, centre, policy)
  }
  let from = index
  let to = index
  while (index - from < policy.readingsEachSide && near(from - 1)) from--
  while (to - index < policy.readingsEachSide && to < windowEnd && near(to + 1)) to++
  return { from, to }
}

function isNear(one: DayWeight, other: DayWeight, policy: OutlierPolicy): boolean {
  return Math.abs(elapsedDays(one.atMilliseconds, other.atMilliseconds)) <= policy.withinDays
}
