import * as z from 'zod/mini'
import { CANNOT_MEASURE, CANNOT_TELL, weighInSchema } from './case-file.ts'
import { instant } from './moment.ts'

/**
 * What the store keeps of a case under way: a list of events that only grows. Nothing in it is ever changed;
 * going back is an event of its own.
 */

const storedAnswerSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('choice'), choice: z.string(), given: instant }),
  z.strictObject({
    kind: z.literal('several'),
    chosen: z.array(z.string()),
    rest: z.enum(['no', CANNOT_TELL]),
    given: instant,
  }),
  z.strictObject({ kind: z.literal('amount'), amount: z.number(), given: instant }),
  z.strictObject({
    kind: z.literal('since'),
    began: instant,
    uncertaintyHours: z.number().check(z.minimum(0)),
    given: instant,
  }),
  z.strictObject({ kind: z.literal(CANNOT_TELL), given: instant }),
  z.strictObject({ kind: z.literal(CANNOT_MEASURE), given: instant }),
])

/** One answer as it was given, in the form of the wizard's log. */
export const storedEntrySchema = z.strictObject({
  question: z.string(),
  answer: storedAnswerSchema,
  weighIns: z.optional(z.array(weighInSchema)),
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
  z.strictObject({ ...common, kind: z.enum(['began', 'went-back', 'assessed', 'finished']) }),
  z.strictObject({ ...common, kind: z.literal('answered'), entry: storedEntrySchema }),
])
export type StoredEvent = z.infer<typeof storedEventSchema>
