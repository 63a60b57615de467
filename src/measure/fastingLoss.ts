import { roundTo } from './numbers.ts'

const HOURS_PER_DAY = 24
const MICROLITRES_PER_MILLILITRE = 1000
const JOULES_PER_KILOJOULE = 1000

/** The published equation of resting metabolism of one group of animals, and what fat yields. Data of content. */
export interface FastingData {
  /** Oxygen in microlitres per hour = factor * mass^exponent * 10^(perCelsius * temperature). */
  readonly oxygen: { readonly factor: number; readonly exponent: number; readonly perCelsius: number }
  readonly joulesPerMillilitreOxygen: number
  readonly kilojoulesPerGramFat: number
  /** How many times the resting use still counts as living on reserves (an animal also moves). */
  readonly upToTimesResting: number
}

/** A loss seen while fasting against the loss that living on fat explains. */
export interface FastingLoss {
  /** Loss explained by resting on fat alone, in grams. */
  readonly restingGrams: number
  /** The most that living on fat explains, with moving about. */
  readonly upToGrams: number
  readonly seenGrams: number
  /** Loss beyond that: water, lean tissue or illness. */
  readonly unexplainedGrams: number
}

/** Grams of fat per day that rest costs at a body temperature: oxygen per day * joules per millilitre / energy of fat. */
export function restingFatGramsPerDay(massGrams: number, celsius: number, data: FastingData): number {
  const { factor, exponent, perCelsius } = data.oxygen
  const microlitresPerHour = factor * massGrams ** exponent * 10 ** (perCelsius * celsius)
  const millilitresPerDay = (microlitresPerHour * HOURS_PER_DAY) / MICROLITRES_PER_MILLILITRE
  const kilojoulesPerDay = (millilitresPerDay * data.joulesPerMillilitreOxygen) / JOULES_PER_KILOJOULE
  return roundTo(kilojoulesPerDay / data.kilojoulesPerGramFat, 6)
}

/** What a fast of so many days at the stated warmth explains of a loss seen, all in grams. */
export function fastingLoss(
  startGrams: number,
  seenGrams: number,
  days: number,
  celsius: number,
  data: FastingData,
): FastingLoss {
  const restingGrams = restingFatGramsPerDay(startGrams, celsius, data) * days
  const upToGrams = restingGrams * data.upToTimesResting
  return {
    restingGrams: roundTo(restingGrams, 4),
    upToGrams: roundTo(upToGrams, 4),
    seenGrams,
    unexplainedGrams: roundTo(Math.max(0, seenGrams - upToGrams), 4),
  }
}
