import type { WeighIn } from '../../shared/case-file.ts'
import {
  HANDOVER_FORMAT,
  HANDOVER_VERSION,
  type Handover,
  type HandoverFact,
  handoverSchema,
  TAGS,
} from '../../shared/handover.ts'
import { type PackedHandover, packedHandoverSchema } from '../../shared/handover-link.ts'
import { moment, toTheMinute } from './document-facts.ts'

/** Small for a link, and the same history again: times are whole minutes and weights hundredths of a gram already. */

const MINUTE_MS = 60_000
/** 190 years. */
const MOST_MINUTES = 100_000_000
/** One more than a list of facts may hold. */
const TOO_MANY = 301

function minutesBefore(made: string, at: string): number {
  return Math.round((Date.parse(made) - Date.parse(at)) / MINUTE_MS)
}

/** The instant, or no instant at all where somebody wrote a number beyond every life. */
function instantOf(made: string, minutes: number): string {
  if (Math.abs(minutes) > MOST_MINUTES) return 'beyond'
  return toTheMinute(new Date(Date.parse(made) - minutes * MINUTE_MS).toISOString())
}

type Columns = Pick<PackedHandover, 'labels' | 'values' | 'tags' | 'minutes' | 'quantities'>

function packedFacts(made: string, facts: readonly HandoverFact[]): Columns {
  let last = 0
  return {
    labels: facts.map(({ label }) => label),
    values: facts.map(({ value }) => value),
    tags: facts.map(({ tag }) => TAGS.indexOf(tag)).join(''),
    minutes: facts.map(({ at }) => {
      if (at === undefined) return null
      const before = minutesBefore(made, at)
      const difference = before - last
      last = before
      return difference
    }),
    quantities: facts.flatMap(({ quantity }, at): Columns['quantities'] =>
      quantity ? [[at, quantity.value, quantity.unit]] : [],
    ),
  }
}

/** The facts as JSON, still to be checked: columns that somebody else wrote may not match. */
function unpackedFacts(
  made: Handover['made'],
  { labels, values, tags, minutes, quantities }: Columns,
): unknown[] {
  const numbers = new Map(quantities.map(([place, value, unit]) => [place, { value, unit }]))
  let before = 0
  return labels.map((label, place) => {
    const difference = minutes[place] ?? null
    const quantity = numbers.get(place)
    before += difference ?? 0
    const at = instantOf(made.instant, before)
    return {
      label,
      value: values[place],
      tag: TAGS[Number(tags[place])],
      ...(difference === null ? {} : at === 'beyond' ? { at } : moment(at, made)),
      ...(quantity ? { quantity } : {}),
    }
  })
}

/** Differences from one number to the next, the first from zero. */
function differences(numbers: readonly number[]): number[] {
  return numbers.map((number, at) => number - (numbers[at - 1] ?? 0))
}

/** Numbers again out of their differences. */
function sums(of: readonly number[]): number[] {
  let sum = 0
  return of.map(difference => {
    sum += difference
    return sum
  })
}

function packedWeights(made: string, weighIns: readonly WeighIn[]): PackedHandover['weights'] {
  const between = differences(weighIns.map(({ at }) => minutesBefore(made, at)))
  const usual = between.toSorted((one, other) => one - other)[Math.floor(between.length / 2)] ?? 0
  const perGram = weighIns.every(({ massGrams }) => Number.isInteger(Math.round(massGrams * 100) / 10))
    ? 10
    : 100
  const steps: PackedHandover['weights']['steps'] = []
  for (const { scaleStepGrams = null } of weighIns) {
    const run = steps.at(-1)
    if (run && run[1] === scaleStepGrams) run[0] += 1
    else steps.push([1, scaleStepGrams])
  }
  return {
    usual,
    perGram,
    minutes: between.map(minutes => minutes - usual),
    masses: differences(weighIns.map(({ massGrams }) => Math.round(massGrams * perGram))),
    steps,
  }
}

function unpackedWeights(made: string, weights: PackedHandover['weights']): WeighIn[] {
  const { usual, perGram, steps } = weights
  const stepOf = steps.flatMap(([count, step]) => Array.from({ length: count }, () => step))
  const masses = sums(weights.masses)
  return sums(weights.minutes.map(minutes => minutes + usual)).map((minutes, at) => {
    const scaleStepGrams = stepOf[at]
    return {
      at: instantOf(made, minutes),
      massGrams: (masses[at] ?? 0) / perGram,
      ...(typeof scaleStepGrams === 'number' ? { scaleStepGrams } : {}),
    }
  })
}

type Runs = PackedHandover['answers']

function runsOf(places: readonly number[]): Runs {
  const runs: Runs = []
  for (const place of places) {
    const run = runs.at(-1)
    if (run && run[0] + run[1] === place) run[1] += 1
    else runs.push([place, 1])
  }
  return runs
}

/** The history as it goes into a link. */
export function packHistory(history: Handover): PackedHandover {
  const { made, dangerSigns, weights } = history
  const facts: HandoverFact[] = []
  const placeOf = new Map<string, number>()
  const placed = (fact: HandoverFact) => {
    const key = JSON.stringify(fact)
    const known = placeOf.get(key)
    if (known !== undefined) return known
    placeOf.set(key, facts.length)
    return facts.push(fact) - 1
  }
  const places = (of: readonly HandoverFact[]) => runsOf(of.map(placed))
  return {
    ...(history.note === undefined ? {} : { note: history.note }),
    made,
    animal: history.animal,
    readAloud: history.readAloud,
    answers: places(history.answers),
    underVet: places(history.underVet),
    signs: [places(dangerSigns.present), places(dangerSigns.unsure), places(dangerSigns.absent)],
    notAsked: dangerSigns.notAsked,
    ...(weights.summary === undefined ? {} : { weightSummary: weights.summary }),
    weights: packedWeights(made.instant, weights.weighIns),
    sections: history.sections.map(({ id, title, facts: of }) => [id, title, places(of)]),
    keepApart: history.keepApart,
    guide: history.guide,
    leftOut: history.leftOut,
    // Last, when every fact has its place.
    ...packedFacts(made.instant, facts),
  }
}

/** The history out of a link that anyone may have written; undefined where it is none. */
export function unpackHistory(json: unknown): Handover | undefined {
  const packed = packedHandoverSchema.safeParse(json).data
  if (!packed) return undefined
  const { made, signs, weightSummary, weights } = packed
  const facts = unpackedFacts(made, packed)
  const of = (runs: Runs) => {
    const found: unknown[] = []
    for (const [from, count] of runs)
      if (found.length < TOO_MANY) found.push(...facts.slice(from, from + count))
    return found
  }
  return handoverSchema.safeParse({
    format: HANDOVER_FORMAT,
    version: HANDOVER_VERSION,
    ...(packed.note === undefined ? {} : { note: packed.note }),
    made,
    animal: packed.animal,
    readAloud: packed.readAloud,
    underVet: of(packed.underVet),
    dangerSigns: {
      present: of(signs[0]),
      unsure: of(signs[1]),
      absent: of(signs[2]),
      notAsked: packed.notAsked,
    },
    weights: {
      ...(weightSummary === undefined ? {} : { summary: weightSummary }),
      weighIns: unpackedWeights(made.instant, weights),
    },
    sections: packed.sections.map(([id, title, places]) => ({ id, title, facts: of(places) })),
    keepApart: packed.keepApart,
    answers: of(packed.answers),
    guide: packed.guide,
    leftOut: packed.leftOut,
  }).data
}
