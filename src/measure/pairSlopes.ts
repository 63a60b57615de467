import { select } from './select.ts'

/** Slopes from `low` to `high`, both included. */
export interface Stretch {
  readonly low: number
  readonly high: number
}

export const ALL: Stretch = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }

/** What comes of comparing every value with every earlier one. */
export interface TakenSlopes {
  /** How many pairs had two different times. */
  readonly pairs: number
  /** Pairs that rise less pairs that fall. */
  readonly s: number
  /** Sizes of the groups of equal values, groups of one included. */
  readonly tieSizes: readonly number[]
  /** How many slopes lie below the stretch. */
  readonly below: number
  /** The slopes inside it, in no order; valid until slopes are taken again. */
  readonly inside: Float64Array
}

/** How many pairs the sample looks at, and by how many of them the guess is widened on both sides to be nearly always right. */
const SAMPLE = 192
const WIDENED_BY = 15

/** Room for the slopes, kept from one fit to the next: to make it anew takes longer than to fill it. */
let room = new Float64Array(0)
const sampleRoom = new Float64Array(SAMPLE)

/** Takes the slopes of all pairs of two different times, and keeps those inside a stretch. */
export function takeSlopes(times: Float64Array, values: Float64Array, { low, high }: Stretch): TakenSlopes {
  const count = times.length
  if (room.length < (count * (count - 1)) / 2) room = new Float64Array((count * (count - 1)) / 2)
  const slopes = room
  // How many values have so many equals before them: one value of every group that is larger than that number.
  const groupsLargerThan = new Int32Array(count + 1)
  let below = 0
  let inside = 0
  let above = 0
  let falling = 0
  let level = 0
  for (let later = 0; later < count; later++) {
    const time = times[later] ?? Number.NaN
    const value = values[later] ?? Number.NaN
    let equals = 0
    for (let earlier = 0; earlier < later; earlier++) {
      // Read without a function: the engine inlines only so many calls into one.
      const rise = value - (values[earlier] ?? Number.NaN)
      if (rise === 0) equals++
      const span = time - (times[earlier] ?? Number.NaN)
      if (span === 0) {
        if (rise === 0) level--
        continue
      }
      const slope = rise / span
      // Added and not asked: the processor would guess every other answer wrong.
      falling += Number(rise < 0)
      if (slope < low) below++
      else if (slope <= high) slopes[inside++] = slope
      else above++
    }
    level += equals
    groupsLargerThan[equals] = (groupsLargerThan[equals] ?? 0) + 1
  }
  const pairs = below + inside + above
  return {
    pairs,
    s: pairs - level - 2 * falling,
    tieSizes: sizesOf(groupsLargerThan),
    below,
    inside: slopes.subarray(0, inside),
  }
}

/** The sizes of the groups, from how many groups are larger than 0, 1, 2 and so on. */
function sizesOf(groupsLargerThan: Int32Array): number[] {
  const sizes: number[] = []
  for (let size = 1; size < groupsLargerThan.length; size++) {
    const ofThisSize = (groupsLargerThan[size - 1] ?? 0) - (groupsLargerThan[size] ?? 0)
    for (let group = 0; group < ofThisSize; group++) sizes.push(size)
  }
  return sizes
}

/**
 * A stretch that most likely holds the slopes from one share of all to another (0 to 1), from pairs picked evenly
 * from among them all. A guess: whoever uses it has to look whether it was right.
 */
export function sampledStretch(
  times: Float64Array,
  values: Float64Array,
  fromShare: number,
  toShare: number,
): Stretch {
  const count = times.length
  const stride = (count * (count - 1)) / 2 / SAMPLE
  for (let index = 0; index < SAMPLE; index++) {
    // The pair of that number when every value is paired with all earlier ones in turn.
    const pair = ((index + 0.5) * stride) | 0
    const later = ((1 + Math.sqrt(1 + 8 * pair)) / 2) | 0
    const earlier = pair - (later * (later - 1)) / 2
    const rise = (values[later] ?? Number.NaN) - (values[earlier] ?? Number.NaN)
    const span = (times[later] ?? Number.NaN) - (times[earlier] ?? Number.NaN)
    sampleRoom[index] = span === 0 ? 0 : rise / span
  }
  const lowIndex = ((fromShare * SAMPLE) | 0) - WIDENED_BY
  const highIndex = ((toShare * SAMPLE) | 0) + WIDENED_BY
  return {
    low: lowIndex < 0 ? ALL.low : select(sampleRoom, lowIndex),
    high: highIndex >= SAMPLE ? ALL.high : select(sampleRoom, highIndex, Math.max(0, lowIndex)),
  }
}
