import type { Basis } from '../../shared/content.ts'
import type { CompiledEnclosure, EnclosureFault, FixStep } from '../../shared/enclosure.ts'
import type { FeedingJudgement } from './feeding.ts'
import { judgeLight, type LightJudgement } from './light.ts'
import { judgeRange, type RangeJudgement } from './range.ts'
import type { EnclosureCase } from './read-input.ts'
import { type AirJudgement, type EnclosureState, stateOf } from './state.ts'
import { factsIn, truthOf } from './truth.ts'

/** A fault that holds, with its fix. */
export interface FaultFound {
  readonly id: string
  readonly name: string
  readonly reason: string
  readonly causes: readonly string[]
  /** 1 for the likeliest cause of the concern at hand, higher for a lesser one; absent where it causes none of it. */
  readonly causeRank?: number
  /** What was read or seen: the facts that hold, in their own words. */
  readonly because: readonly string[]
  /** Whether the instrument alone could explain a reading that this rests on. */
  readonly instrumentDoubt: boolean
  readonly steps: readonly FixStep[]
  readonly cautions: readonly { readonly id: string; readonly text: string }[]
  readonly recheck: { readonly look: string; readonly hours: number }
  readonly basis: Basis
  readonly conflict?: string
  readonly evidence: readonly string[]
}

/** A fault that cannot be told yet, and what would tell it. */
export interface FaultOpen {
  readonly id: string
  readonly name: string
  readonly causes: readonly string[]
  readonly causeRank?: number
  readonly missing: readonly string[]
}

export interface EnclosureCheck {
  readonly species: string
  readonly version: string
  readonly concern?: string
  readonly readings: readonly (RangeJudgement & { readonly instrumentSays?: string })[]
  readonly gradientCelsius?: number
  readonly air?: AirJudgement
  readonly light: LightJudgement
  readonly feeding?: FeedingJudgement
  /** Faults that hold: those that can cause the concern first, then by weight. */
  readonly faults: readonly FaultFound[]
  readonly open: readonly FaultOpen[]
  /** What was not told, with the way to find out in five minutes. */
  readonly missing: readonly { readonly item: string; readonly ask: string; readonly findOut: string }[]
  readonly daysSinceChange?: number
}

const DAY_MS = 86_400_000

function readingsOf(
  { quantities, instruments, roles }: CompiledEnclosure,
  { answers }: EnclosureCase,
  { numbers, choiceOf }: EnclosureState,
): RangeJudgement[] {
  return quantities.flatMap(quantity => {
    const value = numbers.get(quantity.of)
    // Humidity inside the damp hide is not that of the air.
    const inHide = quantity.of === roles.humidity && choiceOf(roles.humidityPlace) === roles.insideHide
    if (value === undefined || inHide) return []
    const answer = answers.get(quantity.of)
    const own = answer?.kind === 'amount' ? answer.instrument : undefined
    const kind = own ?? (quantity.measuredWith === undefined ? undefined : choiceOf(quantity.measuredWith))
    return [
      judgeRange(
        value,
        quantity,
        instruments.find(({ id }) => id === kind),
      ),
    ]
  })
}

/** Whether UV reaches the animal, by the lamp and by a fault that says the way is barred. */
function uvReaches({ roles }: CompiledEnclosure, { choiceOf, numbers }: EnclosureState): boolean | undefined {
  const index = numbers.get(roles.uvIndex)
  if (index !== undefined) return index > 0
  const lamp = choiceOf(roles.uvLamp)
  if (lamp === undefined) return undefined
  if (roles.noUvLamps.includes(lamp)) return false
  const way = choiceOf(roles.uvWay)
  if (way !== undefined && roles.uvBarred.includes(way)) return false
  return roles.uvLamps.includes(lamp) ? true : undefined
}

/** What is measured with an instrument gets a word on it; what is computed or counted gets none. */
function instrumentSays({ quantities, instrumentSays: says }: CompiledEnclosure, reading: RangeJudgement) {
  const measured = quantities.find(({ id }) => id === reading.quantity)?.measuredWith !== undefined
  return measured ? { instrumentSays: says[reading.instrument.couldBeOtherSide] } : {}
}

function rankFor({ causes }: EnclosureFault, concern: string | undefined): number | undefined {
  const at = concern === undefined ? -1 : causes.indexOf(concern)
  return at < 0 ? undefined : at + 1
}

/** Sorted by the rank of the concern; what has none keeps the order of the content, which is that of weight. */
function byRank<One extends { readonly causeRank?: number }>(list: readonly One[]): One[] {
  const rank = ({ causeRank }: One) => causeRank ?? Number.POSITIVE_INFINITY
  return list
    .map((one, at) => ({ one, at }))
    .sort((a, b) => {
      const [left, right] = [rank(a.one), rank(b.one)]
      return left === right ? a.at - b.at : left - right
    })
    .map(({ one }) => one)
}

function foundOf(
  enclosure: CompiledEnclosure,
  fault: EnclosureFault,
  state: EnclosureState,
  readings: readonly RangeJudgement[],
  concern: string | undefined,
): FaultFound {
  const { facts, quantities, cautions } = enclosure
  const rank = rankFor(fault, concern)
  const named = factsIn(fault.when).flatMap(at => {
    const fact = facts[at]
    return fact ? [{ fact, bits: state.known[at] ?? 0 }] : []
  })
  const doubted = new Set(
    readings
      .filter(({ instrument }) => instrument.couldBeOtherSide === 'yes')
      .flatMap(({ quantity }) => quantities.find(({ id }) => id === quantity)?.of ?? []),
  )
  return {
    id: fault.id,
    name: fault.name,
    reason: fault.reason,
    causes: fault.causes,
    ...(rank === undefined ? {} : { causeRank: rank }),
    because: named.flatMap(({ fact, bits }) =>
      fact.texts
        .filter((_, at) => bits & (1 << at))
        .map(text => (fact.bands ? text : `${fact.name} ${text}`)),
    ),
    instrumentDoubt: named.some(({ fact }) => fact.of !== undefined && doubted.has(fact.of)),
    steps: fault.steps,
    cautions: cautions.filter(({ id }) => fault.cautions.includes(id)),
    recheck: fault.recheck,
    basis: fault.basis,
    ...(fault.conflict === undefined ? {} : { conflict: fault.conflict }),
    evidence: fault.evidence,
  }
}

/** The items that a fault's condition rests on; computed facts by what they are made of. */
export function itemsBehind(
  { facts, roles }: Pick<CompiledEnclosure, 'facts' | 'roles'>,
  named: readonly number[],
): readonly string[] {
  const behind: Readonly<Record<string, readonly string[]>> = {
    gradient: [roles.warmSurface, roles.coolSide],
    wallMargin: [roles.humidity, roles.humidityPlace, roles.coolSide, roles.nightLow],
    floorArea: [roles.floorLength, roles.floorWidth],
    energyTimesRest: [],
  }
  const items = named.flatMap(at => {
    const of = facts[at]?.of ?? facts[at]?.id ?? ''
    return behind[of] ?? [of]
  })
  return [...new Set(items)]
}

/** The items of faults that can cause a concern, the likeliest fault first. */
export function itemsFor(enclosure: CompiledEnclosure, concern: string): readonly string[] {
  const ranked = enclosure.faults
    .flatMap(fault => ({ fault, rank: rankFor(fault, concern) ?? 0 }))
    .filter(({ rank }) => rank > 0)
    .sort((one, other) => one.rank - other.rank)
  return [...new Set(ranked.flatMap(({ fault }) => itemsBehind(enclosure, factsIn(fault.when))))]
}

/** The items that would settle a condition: those of its unknown facts. */
function missingFor(
  enclosure: CompiledEnclosure,
  fault: EnclosureFault,
  state: EnclosureState,
): readonly string[] {
  const unknown = factsIn(fault.when).filter(at => state.known[at] === undefined)
  return itemsBehind(enclosure, unknown).filter(
    id => !state.numbers.has(id) && state.choiceOf(id) === undefined,
  )
}

/**
 * Checks an enclosure: readings against ranges, faults that hold with their fixes, those that cannot be told, and what
 * was not told. It knows no urgency, and nothing it finds in order lowers one.
 *
 * @param concern the concern to rank by, an id of the protocol; left out, faults stand by weight
 * @param nowMs the instant now, in milliseconds since 1970
 */
export function checkEnclosure(
  enclosure: CompiledEnclosure,
  given: EnclosureCase,
  nowMs: number,
  concern?: string,
): EnclosureCheck {
  const { items, roles, faults } = enclosure
  const state = stateOf(enclosure, given)
  const readings = readingsOf(enclosure, given, state)
  const found: FaultFound[] = []
  const open: FaultOpen[] = []
  for (const fault of faults) {
    const truth = truthOf(fault.when, state.known)
    if (truth === 'yes') found.push(foundOf(enclosure, fault, state, readings, concern))
    if (truth !== 'unsure') continue
    const rank = rankFor(fault, concern)
    open.push({
      id: fault.id,
      name: fault.name,
      causes: fault.causes,
      ...(rank === undefined ? {} : { causeRank: rank }),
      missing: missingFor(enclosure, fault, state),
    })
  }
  const gradient = state.numbers.get('gradient')
  const changed = given.answers.get(roles.lastChange)
  return {
    species: enclosure.species,
    version: enclosure.version,
    ...(concern === undefined ? {} : { concern }),
    readings: readings.map(reading => ({ ...reading, ...instrumentSays(enclosure, reading) })),
    ...(gradient === undefined ? {} : { gradientCelsius: gradient }),
    ...(state.air ? { air: state.air } : {}),
    light: judgeLight(enclosure.light, roles, {
      uvIndex: state.numbers.get(roles.uvIndex),
      uv: uvReaches(enclosure, state),
      withD3: state.choiceOf(roles.withD3),
      plain: state.choiceOf(roles.withoutD3),
    }),
    ...(state.feeding ? { feeding: state.feeding } : {}),
    faults: byRank(found),
    open: byRank(open),
    missing: items.flatMap(({ id, ask, findOut }) => {
      const answer = given.answers.get(id)
      return answer && answer.kind !== 'not-known' ? [] : [{ item: id, ask, findOut }]
    }),
    ...(changed?.kind === 'since'
      ? { daysSinceChange: Math.floor((nowMs - Date.parse(changed.began)) / DAY_MS) }
      : {}),
  }
}
