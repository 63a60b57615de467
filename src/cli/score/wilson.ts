import { twoSidedZ } from '../../measure/normal.ts'

const CONFIDENCE = 0.95

/** How many of how many, as a share from 0 to 1, with its interval at 95 %. */
export interface Share {
  readonly count: number
  readonly of: number
  readonly share: number
  readonly low: number
  readonly high: number
}

/**
 * The share `count` / `of` with Wilson's score interval without continuity correction, which also holds where few or
 * all succeed (Newcombe 1998, Statistics in Medicine 17:857-872, method 3). `of` is at least 1.
 */
export function shareOf(count: number, of: number): Share {
  if (!(of >= 1 && count >= 0 && count <= of))
    throw new RangeError(`${count} of ${of} is no share: count from 0 to of, of at least 1`)
  const z = twoSidedZ(CONFIDENCE)
  const share = count / of
  const middle = (2 * count + z * z) / (2 * (of + z * z))
  const half = (z * Math.sqrt(z * z + 4 * count * (1 - share))) / (2 * (of + z * z))
  return { count, of, share, low: Math.max(0, middle - half), high: Math.min(1, middle + half) }
}
