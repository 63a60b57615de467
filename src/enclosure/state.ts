import type { CompiledEnclosure, Computed } from '../../shared/enclosure.ts'
import { dewPointCelsius, isAirCelsius, sameAirPercent } from './air.ts'
import { type FeedingJudgement, judgeFeeding } from './feeding.ts'
import type { EnclosureCase } from './read-input.ts'
import type { KnownFacts } from './truth.ts'
import { rounded } from './units.ts'

/** What the same air means in other places of the enclosure. */
export interface AirJudgement {
  readonly readAt: { readonly place: string; readonly celsius: number; readonly percent: number }
  readonly dewPointCelsius: number
  /** The same vapour where it is warmer or cooler, by item. */
  readonly elsewhere: readonly { readonly item: string; readonly celsius: number; readonly percent: number }[]
  /** The coolest place that was told, how far above the dew point it is, and whether water settles there. */
  readonly coolest?: { readonly item: string; readonly marginCelsius: number; readonly wet: boolean }
}

/** Answers turned into numbers and facts. */
export interface EnclosureState {
  readonly numbers: ReadonlyMap<string, number>
  readonly known: KnownFacts
  readonly air: AirJudgement | undefined
  readonly feeding: FeedingJudgement | undefined
  choiceOf(item: string): string | undefined
}

function airOf(
  { roles }: CompiledEnclosure,
  amounts: ReadonlyMap<string, number>,
  place: string | undefined,
): AirJudgement | undefined {
  const percent = amounts.get(roles.humidity)
  const there = place === undefined ? undefined : roles.temperatureAt[place]
  const celsius = there === undefined ? undefined : amounts.get(there)
  if (percent === undefined || place === undefined || celsius === undefined || !isAirCelsius(celsius))
    return undefined
  // Air without any vapour has no dew point; no gauge reads 0 and means it.
  const dewPoint = dewPointCelsius(celsius, percent)
  if (dewPoint === undefined) return undefined
  const warmthOf = (item: string) => {
    const warmth = amounts.get(item)
    return warmth === undefined || !isAirCelsius(warmth) ? [] : [{ item, warmth }]
  }
  const others = new Set([
    roles.coolSide,
    roles.nightLow,
    ...Object.values(roles.temperatureAt),
    roles.warmSurface,
  ])
  const elsewhere = [...others]
    .filter(item => item !== there)
    .flatMap(warmthOf)
    .map(({ item, warmth }) => ({
      item,
      celsius: warmth,
      // More than air can hold settles as water.
      percent: Math.min(100, rounded(sameAirPercent(celsius, percent, warmth), 1)),
    }))
  const coolest = [roles.coolSide, roles.nightLow]
    .flatMap(warmthOf)
    .sort((one, other) => one.warmth - other.warmth)[0]
  const margin = coolest && rounded(coolest.warmth - dewPoint, 3)
  return {
    readAt: { place, celsius, percent },
    dewPointCelsius: dewPoint,
    elsewhere,
    ...(coolest && margin !== undefined
      ? { coolest: { item: coolest.item, marginCelsius: margin, wet: margin <= 0 } }
      : {}),
  }
}

function bandOf(
  value: number,
  bands: readonly { readonly from?: number | undefined; readonly below?: number | undefined }[],
): number {
  return bands.findIndex(
    ({ from, below }) => (from === undefined || value >= from) && (below === undefined || value < below),
  )
}

/** Reads the answers into numbers, computed numbers included, and into the facts that conditions name. */
export function stateOf(enclosure: CompiledEnclosure, { answers, feeding }: EnclosureCase): EnclosureState {
  const { facts, items, roles } = enclosure
  const amounts = new Map<string, number>()
  for (const [id, answer] of answers) if (answer.kind === 'amount') amounts.set(id, answer.amount)
  const choiceOf = (item: string) => {
    const answer = answers.get(item)
    return answer?.kind === 'choice' ? answer.choice : undefined
  }
  const air = airOf(enclosure, amounts, choiceOf(roles.humidityPlace))
  const warm = amounts.get(roles.warmSurface)
  const cool = amounts.get(roles.coolSide)
  const body = warm === undefined || cool === undefined ? undefined : (warm + cool) / 2
  const judged = feeding && judgeFeeding(feeding, enclosure.feeding, body, choiceOf(roles.age))

  const numbers = new Map(amounts)
  const compute = (name: Computed, value: number | undefined) => {
    if (value !== undefined) numbers.set(name, value)
  }
  compute('gradient', warm === undefined || cool === undefined ? undefined : rounded(warm - cool, 3))
  compute('wallMargin', air?.coolest?.marginCelsius)
  const [length, width] = [amounts.get(roles.floorLength), amounts.get(roles.floorWidth)]
  compute(
    'floorArea',
    length === undefined || width === undefined ? undefined : rounded((length * width) / 10_000, 4),
  )
  // Where some food's energy is not known, a sum below the need proves nothing.
  const times = judged?.timesRest
  compute('energyTimesRest', times && (!times.atLeast || times.value >= 1) ? times.value : undefined)

  const known = facts.map((fact): number | undefined => {
    if (fact.bands) {
      const value = numbers.get(fact.of ?? '')
      const band = value === undefined ? -1 : bandOf(value, fact.bands)
      return band < 0 ? undefined : 1 << band
    }
    const answer = answers.get(fact.id)
    const kind = items[fact.item ?? -1]?.kind
    const chosen =
      answer?.kind === 'choice' ? [answer.choice] : answer?.kind === 'several' ? answer.chosen : undefined
    if (!chosen || (kind !== 'choice' && kind !== 'several')) return undefined
    return fact.options.reduce((bits, id, at) => (chosen.includes(id) ? bits | (1 << at) : bits), 0)
  })
  return { numbers, known, air, feeding: judged, choiceOf }
}
