import { roundTo } from './numbers.ts'

/** A published series of weights at ages, first to last; a single weight is a series of one. */
export interface GrowthStart {
  readonly points: readonly { readonly ageDays: number; readonly massGrams: number }[]
  readonly source: string
}

/** Published growth of one species; every value is data of content. */
export interface GrowthData {
  readonly starts: readonly GrowthStart[]
  readonly ratesGramsPerDay: readonly { readonly gramsPerDay: number; readonly source: string }[]
  /** No band is drawn beyond this age, because growth slows. */
  readonly validToDays: number
}

/** What the published series would allow at one age. Not a pass mark. */
export interface GrowthBand {
  readonly lowGrams: number
  readonly highGrams: number
}

/**
 * The soft band at an age: every published start is followed along its own points and from its last point on
 * at the slowest and the fastest published rate; the band reaches from the lowest to the highest of these.
 * Undefined outside the ages the data are valid for.
 */
export function growthBand(ageDays: number, data: GrowthData): GrowthBand | undefined {
  if (!(ageDays >= 0 && ageDays <= data.validToDays)) return undefined
  const rates = data.ratesGramsPerDay.map(({ gramsPerDay }) => gramsPerDay)
  const masses = data.starts.flatMap(start => massesAt(start, ageDays, rates))
  if (masses.length === 0) return undefined
  return { lowGrams: roundTo(Math.min(...masses), 2), highGrams: roundTo(Math.max(...masses), 2) }
}

/** Where a weight lies against the band; undefined where there is no band. */
export function placeInBand(
  massGrams: number,
  band: GrowthBand | undefined,
): 'below' | 'within' | 'above' | undefined {
  if (band === undefined) return undefined
  if (massGrams < band.lowGrams) return 'below'
  return massGrams > band.highGrams ? 'above' : 'within'
}

function massesAt({ points }: GrowthStart, ageDays: number, rates: readonly number[]): number[] {
  const after = points.findIndex(point => point.ageDays >= ageDays)
  const next = points[after]
  if (next !== undefined) {
    if (next.ageDays === ageDays) return [next.massGrams]
    const before = points[after - 1]
    if (before === undefined) return []
    const share = (ageDays - before.ageDays) / (next.ageDays - before.ageDays)
    return [before.massGrams + share * (next.massGrams - before.massGrams)]
  }
  const last = points.at(-1)
  return last === undefined ? [] : rates.map(rate => last.massGrams + rate * (ageDays - last.ageDays))
}
