import * as z from 'zod/mini'
import { instant } from './moment.ts'

/**
 * What the store keeps of a case under way: a list of events that only grows. Nothing in it is ever changed;
 * going back is an event of its own. The form stands by itself, apart from the case file's: what is stored must stay
 * readable when that changes, and the first screens load no schemas this way.
 */

const storedWeighInSchema = z.strictObject({
  at: instant,
  massGrams: z.number(),
  scaleStepGrams: z.optional(z.number()),
})

const storedAnswerSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('choice'), choice: z.string(), given: instant }),
  z.strictObject({
    kind: z.literal('several'),
    chosen: z.readonly(z.array(z.string())),
    rest: z.enum(['no', 'cannot-tell']),
    given: instant,
  }),
  z.strictObject({ kind: z.literal('amount'), amount: z.number(), given: instant }),
  z.strictObject({
    kind: z.literal('since'),
    began: instant,
    uncertaintyHours: z.number().check(z.minimum(0)),
    given: instant,
  }),
  z.strictObject({ kind: z.literal('cannot-tell'), given: instant }),
  z.strictObject({ kind: z.literal('cannot-measure'), given: instant }),
])

/** One answer as it was given, in the form of the wizard's log. */
export const storedEntrySchema = z.strictObject({
  question: z.string(),
  answer: storedAnswerSchema,
  weighIns: z.optional(z.readonly(z.array(storedWeighInSchema))),
})

/** The protocol under which an event was written. */
export const protocolStampSchema = z.strictObject({
  species: z.string(),
  version: z.string(),
  hash: z.string(),
})
export type ProtocolStamp = z.infer<typeof protocolStampSchema>

const common = {
  caseId: z.string().check(z.minLength(1)),
  /** 0 for the first event of a case, then one more each time. */
  seq: z.int().check(z.minimum(0)),
  at: instant,
  protocol: protocolStampSchema,
}

export const storedEventSchema = z.discriminatedUnion('kind', [
  /** `animalId`: of a case that was begun for an animal of the record. */
  z.strictObject({
    ...common,
    kind: z.enum(['began', 'went-back', 'assessed', 'finished']),
    animalId: z.optional(z.string()),
  }),
  z.strictObject({ ...common, kind: z.literal('answered'), entry: storedEntrySchema }),
])
export type StoredEvent = z.infer<typeof storedEventSchema>
