import * as z from 'zod/mini'
import { CANNOT_TELL } from './answers.ts'
import { EVENT_KINDS } from './event-kinds.ts'
import { calendarDay, instant } from './moment.ts'

/**
 * One animal's answers, weigh-ins, events and readings at one time: the input of an assessment.
 * This is the file as a person, the app or a clinic writes it; every part may be missing, and answers
 * may be given in their short forms. `readCaseFile` (src/triage) turns it into a `CaseFile`.
 */

const given = z.optional(instant)

export const fullAnswerSchema = z.union([
  z.strictObject({ choice: z.string(), given }),
  z.strictObject({
    chosen: z.array(z.string()),
    /** What holds for the lines that were not chosen: seen not to be there, or could not tell. */
    rest: z._default(z.enum(['no', CANNOT_TELL]), 'no'),
    given,
  }),
  z.strictObject({ amount: z.number(), given }),
  z.strictObject({ began: instant, uncertaintyHours: z._default(z.number().check(z.minimum(0)), 0), given }),
  z.strictObject({
    hoursAgo: z.number().check(z.minimum(0)),
    uncertaintyHours: z._default(z.number().check(z.minimum(0)), 0),
    given,
  }),
  z.strictObject({ cannotTell: z.literal(true), given }),
  z.strictObject({ cannotMeasure: z.literal(true), given }),
])

/** Short forms: `"as-usual"`, `"cannot-tell"`, `["bleeding"]`, `12`. */
export const answerSchema = z.union([z.string(), z.array(z.string()), z.number(), fullAnswerSchema])
export type AnswerAsWritten = z.infer<typeof answerSchema>

export const weighInSchema = z.strictObject({
  at: instant,
  massGrams: z.number().check(z.gt(0), z.maximum(500)),
  scaleStepGrams: z.optional(z.number().check(z.gt(0), z.maximum(50))),
})
export type WeighIn = z.infer<typeof weighInSchema>

export const animalEventSchema = z.strictObject({
  at: instant,
  kind: z.enum(EVENT_KINDS),
  /** For a lost tail: the share of its length that came off, 0 to 1; absent means all of it. */
  share: z.optional(z.number().check(z.minimum(0), z.maximum(1))),
  /** Whether it was seen (eggs found, say) and not guessed. */
  seen: z.optional(z.boolean()),
})
export type AnimalEvent = z.infer<typeof animalEventSchema>

export const readingSchema = z.strictObject({
  at: instant,
  what: z.string(),
  value: z.number(),
  unit: z.string(),
})
export type Reading = z.infer<typeof readingSchema>

export const animalSchema = z.strictObject({
  name: z.optional(z.string()),
  species: z.optional(z.string()),
  hatchedOn: z.optional(calendarDay),
  colourLine: z.optional(z.string()),
})

export const caseFileSchema = z.strictObject({
  note: z.optional(z.string()),
  protocol: z.optional(z.strictObject({ species: z.string(), version: z.string() })),
  animal: z.optional(animalSchema),
  answers: z.optional(z.record(z.string(), answerSchema)),
  weighIns: z.optional(z.array(weighInSchema)),
  events: z.optional(z.array(animalEventSchema)),
  readings: z.optional(z.array(readingSchema)),
})
export type CaseFileAsWritten = z.infer<typeof caseFileSchema>

/** One answer in its full form. `given` is the instant at which it was said. */
export type Answer =
  | { readonly kind: 'choice'; readonly choice: string; readonly given: string }
  | {
      readonly kind: 'several'
      readonly chosen: readonly string[]
      readonly rest: 'no' | 'cannot-tell'
      readonly given: string
    }
  | { readonly kind: 'amount'; readonly amount: number; readonly given: string }
  | {
      readonly kind: 'since'
      readonly began: string
      readonly uncertaintyHours: number
      readonly given: string
    }
  | { readonly kind: 'cannot-tell'; readonly given: string }
  | { readonly kind: 'cannot-measure'; readonly given: string }

/** The case file as the logic reads it: checked against the protocol, every answer in its full form. */
export interface CaseFile {
  readonly animal: z.infer<typeof animalSchema>
  readonly answers: Readonly<Record<string, Answer>>
  readonly weighIns: readonly WeighIn[]
  readonly events: readonly AnimalEvent[]
  readonly readings: readonly Reading[]
}
