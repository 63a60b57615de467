import type { AnimalRecord, KeptAnimal, KeptEvent, KeptReading, KeptWeighIn } from '../../shared/record.ts'
import type { Fault } from '../../shared/result.ts'
import { shown } from '../../shared/result.ts'

/** What may be right but should be looked at again before it is saved; the screen asks, the keeper decides. */
export type Doubt =
  /** Another weight of the same animal, at nearly the same time. */
  | { readonly kind: 'close-in-time'; readonly other: KeptWeighIn }
  /** Before a hatch date that is not sure. */
  | { readonly kind: 'before-hatching'; readonly hatchedOn: string }

/** Nothing may be saved while there are faults; with doubts alone it may, once the keeper has confirmed it. */
export interface Checked {
  readonly faults: readonly Fault[]
  readonly needsConfirm: readonly Doubt[]
}

/** The heaviest weight that is taken, in grams; as the schema of the record has it. */
export const MOST_GRAMS = 500

/** Weights closer than this, in milliseconds, are asked about: a corrected one, or one of another animal. */
export const CLOSE_MS = 2 * 60_000

/** Clocks of two devices differ; what is this little ahead of now, in milliseconds, is not in the future. */
const CLOCKS_DIFFER_MS = 2 * 60_000

/** No place on earth begins a day earlier than this many milliseconds before UTC does. */
const EARLIEST_DAY_MS = 14 * 3_600_000

/**
 * Checks a weigh-in before it is saved.
 *
 * @param of the animal it belongs to, with its weigh-ins so far
 * @param now ISO 8601 instant
 * @param itemId its own name where a weigh-in is changed, so that it is not compared with itself
 */
export function checkWeighIn(weighIn: KeptWeighIn, of: AnimalRecord, now: string, itemId?: string): Checked {
  const time = checkTime(weighIn.at, of.animal, now)
  const close = closeInTime(weighIn, of.weighIns, itemId)
  return {
    faults: [...checkMass(weighIn.massGrams), ...checkScaleStep(weighIn.scaleStepGrams), ...time.faults],
    needsConfirm: [
      ...time.needsConfirm,
      ...(close ? [{ kind: 'close-in-time' as const, other: close }] : []),
    ],
  }
}

/** Another weight within `CLOSE_MS`, looked for from the newest back, in a list in order of time. */
function closeInTime(
  { at }: KeptWeighIn,
  weighIns: AnimalRecord['weighIns'],
  itemId: string | undefined,
): KeptWeighIn | undefined {
  const atMs = Date.parse(at)
  for (let index = weighIns.length - 1; index >= 0; index -= 1) {
    const other = weighIns[index]
    const laterMs = other === undefined ? Number.NaN : Date.parse(other.at) - atMs
    if (laterMs <= -CLOSE_MS) return undefined
    if (laterMs < CLOSE_MS && other?.itemId !== itemId) return other
  }
  return undefined
}

/** Checks a weight: above 0 and at most `MOST_GRAMS`. */
export function checkMass(massGrams: number, field = 'massGrams'): Fault[] {
  if (massGrams > 0 && massGrams <= MOST_GRAMS) return []
  return [{ field, value: shown(massGrams), accepted: `a weight above 0 g and up to ${MOST_GRAMS} g` }]
}

function checkScaleStep(scaleStepGrams: number | undefined): Fault[] {
  if (scaleStepGrams === undefined || (scaleStepGrams > 0 && scaleStepGrams <= 50)) return []
  return [
    { field: 'scaleStepGrams', value: shown(scaleStepGrams), accepted: 'a step above 0 g and up to 50 g' },
  ]
}

/** Checks an event before it is saved: its time, and that no more was eaten than offered. */
export function checkEvent(event: KeptEvent, animal: KeptAnimal, now: string): Checked {
  const { faults, needsConfirm } = checkTime(event.at, animal, now)
  const { offered, eaten } = event
  if (offered === undefined || eaten === undefined || eaten <= offered) return { faults, needsConfirm }
  const tooMany = { field: 'eaten', value: shown(eaten), accepted: `up to the ${offered} that were offered` }
  return { faults: [...faults, tooMany], needsConfirm }
}

/** Checks a reading before it is saved: that it is a number, and its time. */
export function checkReading(reading: KeptReading, now: string): Checked {
  const faults = checkFuture('at', reading.at, now)
  if (!Number.isFinite(reading.value))
    faults.push({ field: 'value', value: shown(String(reading.value)), accepted: 'a number such as 31.5' })
  return { faults, needsConfirm: [] }
}

/** Checks what is said of an animal: a name, and a hatch date that is not ahead. */
export function checkAnimal(animal: KeptAnimal, now: string): Checked {
  const faults: Fault[] = []
  if (animal.name.trim() === '')
    faults.push({ field: 'name', value: shown(animal.name), accepted: 'a name or a number' })
  const { hatchedOn } = animal
  if (hatchedOn !== undefined) {
    const earliestMs = Date.parse(hatchedOn) - EARLIEST_DAY_MS
    if (Number.isNaN(earliestMs))
      faults.push({ field: 'hatchedOn', value: shown(hatchedOn), accepted: 'a day such as 2026-11-25' })
    else if (earliestMs > Date.parse(now))
      faults.push({ field: 'hatchedOn', value: hatchedOn, accepted: 'a day up to today' })
  }
  return { faults, needsConfirm: [] }
}

/** Checks when something happened: not in the future, and not before the animal hatched. */
export function checkTime(at: string, animal: KeptAnimal, now: string): Checked {
  const faults = checkFuture('at', at, now)
  const { hatchedOn, hatchedCertainty = 'sure' } = animal
  if (faults.length > 0 || hatchedOn === undefined || !isBefore(at, hatchedOn)) {
    return { faults, needsConfirm: [] }
  }
  if (hatchedCertainty === 'sure')
    return {
      faults: [{ field: 'at', value: at, accepted: `a time after it hatched on ${hatchedOn}` }],
      needsConfirm: [],
    }
  return { faults, needsConfirm: [{ kind: 'before-hatching', hatchedOn }] }
}

/** Before a day has begun anywhere. */
function isBefore(at: string, day: string): boolean {
  return Date.parse(at) < Date.parse(day) - EARLIEST_DAY_MS
}

function checkFuture(field: string, at: string, now: string): Fault[] {
  const atMs = Date.parse(at)
  if (Number.isNaN(atMs))
    return [{ field, value: shown(at), accepted: 'a time such as 2026-11-25T02:10:00Z' }]
  if (atMs <= Date.parse(now) + CLOCKS_DIFFER_MS) return []
  return [{ field, value: at, accepted: 'a time that is not in the future' }]
}
