import type { FeedingInput, Meal } from '../../shared/enclosure-input.ts'
import type { Feeder, FeedingContent } from '../../shared/feeding.ts'
import { rounded } from './units.ts'

const KILOJOULES_PER_KILOCALORIE = 4.184
const DAYS = 7

/** Oxygen a resting gecko uses, in mL an hour (Withers, Aplin and Werner), at a body mass and temperature. */
export function restOxygenMillilitres(
  massGrams: number,
  celsius: number,
  { factor, exponent, perCelsius }: FeedingContent['rest'],
): number {
  return rounded((factor * massGrams ** exponent * 10 ** (perCelsius * celsius)) / 1000, 4)
}

/** Energy a resting gecko uses, in kJ a day. */
export function restKilojoules(massGrams: number, celsius: number, rest: FeedingContent['rest']): number {
  const millilitresADay = restOxygenMillilitres(massGrams, celsius, rest) * 24
  return rounded((millilitresADay * rest.joulesPerMillilitreOxygen) / 1000, 3)
}

/** What a week's food holds. Sums take only confirmed values; what is left out is named. */
export interface WeekOfFood {
  readonly grams: number
  /** kJ of the food whose energy is known. */
  readonly kilojoules: number
  readonly energyKnownOfGrams: number
  /** Fat as a share of dry matter, over the food whose values are known. */
  readonly fatPercentOfDry?: number
  /** Calcium to phosphorus over the food whose values are confirmed, without powder. */
  readonly calciumToPhosphorus?: number
  /** The same with the powder that was told; only where all of the food is confirmed. */
  readonly withDust?: number
  readonly mineralsKnownOfGrams: number
  readonly missing: readonly { readonly feeder: string; readonly name: string; readonly says: string }[]
}

export interface FeedingJudgement {
  readonly week: WeekOfFood
  /** Where mass and temperature are known: kJ a week at rest, and what a free lizard would use. */
  readonly need?: {
    readonly massGrams: number
    readonly bodyCelsius: number
    readonly restKilojoulesPerWeek: number
    readonly activeKilojoulesPerWeek: { readonly from: number; readonly to: number }
    readonly note: string
  }
  /** The week's food in times the need at rest; a least value where some food's energy is not known. */
  readonly timesRest?: { readonly value: number; readonly atLeast: boolean }
  readonly wantedCalciumToPhosphorus: { readonly low: number; readonly high: number; readonly note: string }
  readonly dusting: string
  readonly rhythm?: string
  readonly preySize: string
}

interface Eaten extends Feeder {
  readonly grams: number
}

function sum(eaten: readonly Eaten[], of: (one: Eaten) => number): number {
  return eaten.reduce((total, one) => total + of(one), 0)
}

function weekOf(eaten: readonly Eaten[], dust: FeedingInput['dust']): WeekOfFood {
  const grams = sum(eaten, one => one.grams)
  const withEnergy = eaten.filter(one => one.kilocaloriesPerGram !== undefined)
  const withFat = eaten.filter(one => one.fatPercent !== undefined && one.moisturePercent !== undefined)
  const withMinerals = eaten.filter(
    one =>
      one.calciumMilligramsPerKilogram !== undefined && one.phosphorusMilligramsPerKilogram !== undefined,
  )
  const dry = sum(withFat, one => one.grams * (100 - (one.moisturePercent ?? 0)))
  const fat = sum(withFat, one => one.grams * (one.fatPercent ?? 0))
  const calcium = sum(withMinerals, one => (one.grams * (one.calciumMilligramsPerKilogram ?? 0)) / 1000)
  const phosphorus = sum(withMinerals, one => (one.grams * (one.phosphorusMilligramsPerKilogram ?? 0)) / 1000)
  const dustMilligrams = dust ? dust.grams * 10 * dust.calciumPercent : 0
  const whole = withMinerals.length === eaten.length && phosphorus > 0
  return {
    grams: rounded(grams, 2),
    kilojoules: rounded(
      sum(withEnergy, one => one.grams * (one.kilocaloriesPerGram ?? 0)) * KILOJOULES_PER_KILOCALORIE,
      2,
    ),
    energyKnownOfGrams: rounded(
      sum(withEnergy, one => one.grams),
      2,
    ),
    ...(dry > 0 ? { fatPercentOfDry: rounded((fat / dry) * 100, 1) } : {}),
    ...(phosphorus > 0 ? { calciumToPhosphorus: rounded(calcium / phosphorus, 2) } : {}),
    ...(whole && dust ? { withDust: rounded((calcium + dustMilligrams) / phosphorus, 2) } : {}),
    mineralsKnownOfGrams: rounded(
      sum(withMinerals, one => one.grams),
      2,
    ),
    missing: eaten.flatMap(({ id, name, missing }) =>
      missing === undefined ? [] : [{ feeder: id, name, says: missing }],
    ),
  }
}

/**
 * Judges a week of food. Dusting is never waived, whatever the ratio.
 *
 * @param input a week of food whose feeders are all known
 * @param bodyCelsius how warm the animal is, about; undefined where not known
 * @param age the option chosen for its age
 */
export function judgeFeeding(
  input: FeedingInput,
  content: FeedingContent,
  bodyCelsius: number | undefined,
  age: string | undefined,
): FeedingJudgement {
  const feeders = new Map(content.feeders.map(feeder => [feeder.id, feeder]))
  const eaten = input.week.flatMap(({ feeder, count, eachGrams }: Meal): Eaten[] => {
    const known = feeders.get(feeder)
    return known ? [{ ...known, grams: count * eachGrams }] : []
  })
  const week = weekOf(eaten, input.dust)
  const celsius = input.bodyCelsius ?? bodyCelsius
  const { massGrams } = input
  const rest =
    massGrams === undefined || celsius === undefined
      ? undefined
      : rounded(restKilojoules(massGrams, celsius, content.rest) * DAYS, 2)
  const { active, diet } = content
  const rhythm = content.rhythm.find(({ ages }) => age !== undefined && ages.includes(age))
  return {
    week,
    ...(rest === undefined || massGrams === undefined || celsius === undefined
      ? {}
      : {
          need: {
            massGrams,
            bodyCelsius: rounded(celsius, 1),
            restKilojoulesPerWeek: rest,
            activeKilojoulesPerWeek: {
              from: rounded(rest * active.from, 1),
              to: rounded(rest * active.to, 1),
            },
            note: active.note,
          },
          timesRest: {
            value: rounded(week.kilojoules / rest, 2),
            atLeast: week.energyKnownOfGrams < week.grams,
          },
        }),
    wantedCalciumToPhosphorus: { ...diet.calciumToPhosphorus, note: diet.note },
    dusting: content.dusting.always,
    ...(rhythm ? { rhythm: rhythm.says } : {}),
    preySize: content.preySize.says,
  }
}
