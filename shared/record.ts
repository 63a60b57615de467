import * as z from 'zod/mini'
import { weighInSchema } from './case-file.ts'
import { EVENT_KINDS } from './event-kinds.ts'
import { calendarDay, instant } from './moment.ts'

/**
 * What a keeper keeps over time: animals, weigh-ins, events, readings and past assessments. It is stored as a list of
 * entries that only grows; a later entry about the same thing replaces what an earlier one said, and a removal can be
 * taken back. Two lists are merged by taking every entry once: that makes imports, backups and two tabs safe.
 */

const id = z.string().check(z.minLength(1), z.maxLength(64))
const note = z.optional(z.string().check(z.maxLength(2000)))

/** How sure the keeper is of a fact about the animal. */
export const CERTAINTIES = ['sure', 'likely', 'not-known'] as const
const certainty = z.enum(CERTAINTIES)

export const keptAnimalSchema = z.strictObject({
  name: z.string().check(z.minLength(1), z.maxLength(60)),
  /** The species folder of a protocol, or absent when it is not known. */
  species: z.optional(z.string()),
  speciesCertainty: z.optional(certainty),
  colourLine: z.optional(z.string().check(z.maxLength(60))),
  hatchedOn: z.optional(calendarDay),
  hatchedCertainty: z.optional(certainty),
  sex: z.optional(z.enum(['female', 'male'])),
  sexCertainty: z.optional(certainty),
  tail: z.optional(z.enum(['original', 'regrown', 'lost'])),
  /** Where it lives: room, rack, tub, in the keeper's own words. */
  place: z.optional(
    z.strictObject({
      room: z.optional(z.string().check(z.maxLength(40))),
      rack: z.optional(z.string().check(z.maxLength(40))),
      tub: z.optional(z.string().check(z.maxLength(40))),
    }),
  ),
  note,
})
export type KeptAnimal = z.infer<typeof keptAnimalSchema>

export const keptWeighInSchema = z.extend(weighInSchema, {
  meal: z.optional(z.enum(['before', 'after'])),
  note,
})
export type KeptWeighIn = z.infer<typeof keptWeighInSchema>

export const keptEventSchema = z.strictObject({
  at: instant,
  kind: z.enum(EVENT_KINDS),
  /** For a lost tail: the share of its length that came off, 0 to 1; absent means all of it. */
  share: z.optional(z.number().check(z.minimum(0), z.maximum(1))),
  /** Whether it was seen (eggs found, say) and not guessed. */
  seen: z.optional(z.boolean()),
  /** For a shed: whether it came off whole, and where skin stayed (ids of the body map). */
  whole: z.optional(z.boolean()),
  stuckAt: z.optional(z.array(z.string().check(z.maxLength(40)))),
  /** For a meal: what and how many were offered, and how many were eaten. */
  food: z.optional(z.string().check(z.maxLength(60))),
  offered: z.optional(z.int().check(z.minimum(0), z.maximum(500))),
  eaten: z.optional(z.int().check(z.minimum(0), z.maximum(500))),
  note,
})
export type KeptEvent = z.infer<typeof keptEventSchema>

/** A reading of the enclosure. `what` and `unit` are ids of the content. */
export const keptReadingSchema = z.strictObject({
  at: instant,
  what: z.string().check(z.maxLength(60)),
  value: z.number(),
  unit: z.string().check(z.maxLength(20)),
  measuredWith: z.optional(z.string().check(z.maxLength(60))),
  measuredWhere: z.optional(z.string().check(z.maxLength(60))),
  note,
})
export type KeptReading = z.infer<typeof keptReadingSchema>

/** A past assessment with everything it used: enough to make it again, byte for byte, under its protocol. */
export const keptAssessmentSchema = z.strictObject({
  at: instant,
  zone: z.string(),
  protocol: z.strictObject({ species: z.string(), version: z.string(), hash: z.string() }),
  caseFile: z.unknown(),
  urgency: z.string(),
  mustBeSeenBy: z.optional(instant),
})
export type KeptAssessment = z.infer<typeof keptAssessmentSchema>

const common = {
  /** The entry's own name; an entry with a known id adds nothing. */
  entryId: id,
  /** When it was written; of two entries about one thing the later one stands, then the greater entryId. */
  written: instant,
  animalId: id,
}

export const recordEntrySchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, kind: z.literal('animal'), animal: keptAnimalSchema }),
  z.strictObject({ ...common, kind: z.literal('weigh-in'), itemId: id, weighIn: keptWeighInSchema }),
  z.strictObject({ ...common, kind: z.literal('event'), itemId: id, event: keptEventSchema }),
  z.strictObject({ ...common, kind: z.literal('reading'), itemId: id, reading: keptReadingSchema }),
  z.strictObject({ ...common, kind: z.literal('assessment'), itemId: id, assessment: keptAssessmentSchema }),
  /** Takes one thing, or where `itemId` is absent the whole animal, out of the record; nothing is lost by it. */
  z.strictObject({ ...common, kind: z.literal('removed'), itemId: z.optional(id) }),
  /** Takes a removal back. */
  z.strictObject({ ...common, kind: z.literal('restored'), itemId: z.optional(id) }),
])
export type RecordEntry = z.infer<typeof recordEntrySchema>

/** One thing of the record under the name by which it is changed or removed. */
export type Kept<Value> = Value & { readonly itemId: string }

/** One animal with all that is kept of it, each list in order of time. */
export interface AnimalRecord {
  readonly animalId: string
  readonly animal: KeptAnimal
  readonly weighIns: readonly Kept<KeptWeighIn>[]
  readonly events: readonly Kept<KeptEvent>[]
  readonly readings: readonly Kept<KeptReading>[]
  readonly assessments: readonly Kept<KeptAssessment>[]
}

/** What the entries come to. */
export interface KeeperRecord {
  readonly animals: readonly AnimalRecord[]
}
