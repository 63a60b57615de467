import { twoSidedZ } from './normal.ts'
import type { NoisePolicy } from './policy.ts'

/**
 * The difference in grams between two weighings that has to be exceeded before it means anything: the
 * minimal detectable change z * sqrt(SEM1^2 + SEM2^2), where each SEM holds the rounding of the scale
 * (step / sqrt 12) and the animal's day-to-day swing (percent of `massGrams`); and never under one step of
 * the coarser scale, because two rounded readings one step apart may be almost the same weight.
 */
export function noiseFloorGrams(
  massGrams: number,
  firstStepGrams: number,
  secondStepGrams: number,
  policy: NoisePolicy,
): number {
  const swingGrams = (policy.daySwingPercent / 100) * massGrams
  const rounding = (firstStepGrams ** 2 + secondStepGrams ** 2) / 12
  const detectable = twoSidedZ(policy.confidence) * Math.sqrt(rounding + 2 * swingGrams ** 2)
  return Math.max(detectable, firstStepGrams, secondStepGrams)
}
