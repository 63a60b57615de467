import * as z from 'zod/mini'
import { instant, momentSchema } from './moment.ts'
import { URGENCIES } from './urgency.ts'

/** The output of `assess`. Ids only; words are added at the edge from the compiled protocol. */

const levelSchema = z.strictObject({ urgency: z.enum(URGENCIES), withinHours: z.optional(z.number()) })
const basis = z.enum(['published', 'common-practice', 'project-judgement'])

/** One answer or computed fact that made a rule hold. */
export const groundSchema = z.strictObject({
  /** Id of a question, danger sign or finding. */
  fact: z.string(),
  options: z.array(z.string()),
  /** True where the owner looked and could not tell. */
  unsure: z.boolean(),
  /** Questions whose answers said so. */
  questions: z.array(z.string()),
})
export type Ground = z.infer<typeof groundSchema>

export const reasonSchema = z.strictObject({
  rule: z.string(),
  concern: z.optional(z.string()),
  level: levelSchema,
  /** True where only the floor is given, because the owner could not tell. */
  unsure: z.boolean(),
  because: z.array(groundSchema),
  evidence: z.array(z.string()),
  findingBasis: basis,
  urgencyBasis: basis,
})
export type Reason = z.infer<typeof reasonSchema>

export const careItemSchema = z.strictObject({ plan: z.string(), item: z.string() })
export type CareItem = z.infer<typeof careItemSchema>

export const careSchema = z.strictObject({
  firstAid: z.array(careItemSchema),
  nevers: z.array(careItemSchema),
  steps: z.array(careItemSchema),
  holding: z.array(careItemSchema),
  /** Steps left out, and what left them out: a condition of their own, a never-do, an opposite step, or waiting for a vet. */
  leftOut: z.array(
    z.strictObject({
      plan: z.string(),
      item: z.string(),
      because: z.enum(['forbidden', 'never', 'opposite', 'not-while-waiting', 'treated-by-vet']),
      by: z.optional(careItemSchema),
    }),
  ),
  plans: z.array(z.string()),
})
export type Care = z.infer<typeof careSchema>

export const lookAgainSchema = z.strictObject({ at: instant, plan: z.string(), index: z.int() })

export const missingSchema = z.strictObject({
  question: z.string(),
  why: z.enum(['cannot-tell', 'cannot-measure', 'not-asked', 'lapsed']),
  /** Whether knowing it could still raise the urgency. */
  stillMatters: z.boolean(),
})
export type Missing = z.infer<typeof missingSchema>

export const weightFindingSchema = z.strictObject({
  band: z.string(),
  lossPercent: z.number(),
  lossGrams: z.number(),
  overDays: z.number(),
  referenceGrams: z.number(),
  referenceAt: instant,
  newestGrams: z.number(),
  newestAt: instant,
  explainedGrams: z.number(),
  fresh: z.boolean(),
})

export const assessmentSchema = z.strictObject({
  protocol: z.strictObject({ species: z.string(), version: z.string(), hash: z.string() }),
  now: momentSchema,
  settled: z.boolean(),
  /** Only when settled. */
  urgency: z.optional(z.enum(URGENCIES)),
  withinHours: z.optional(z.number()),
  lowerBound: z.optional(levelSchema),
  upperBound: levelSchema,
  /** Only when not settled: what to ask next, and all that still matters. */
  nextQuestion: z.optional(z.string()),
  open: z.array(z.string()),
  /** When to be seen: the latest instant and its local day. Absent for home and well. */
  seenBy: z.optional(
    z.strictObject({
      instant,
      day: z.iso.date(),
      partOfDay: z.enum(['night', 'morning', 'afternoon', 'evening']),
    }),
  ),
  concerns: z.array(z.string()),
  /** Concerns that were not chosen but have a rule that holds. */
  alsoConcerns: z.array(z.string()),
  reasons: z.array(reasonSchema),
  weightLoss: z.optional(weightFindingSchema),
  care: careSchema,
  lookAgain: z.array(lookAgainSchema),
  /** Rules that one more sign would make true and that would raise the urgency. */
  wouldRaise: z.array(z.strictObject({ rule: z.string(), level: levelSchema, missing: groundSchema })),
  missing: z.array(missingSchema),
  /** Danger signs that are there, were looked for and not found, could not be told, or were not asked. */
  dangerSigns: z.strictObject({
    present: z.array(z.string()),
    absent: z.array(z.string()),
    unsure: z.array(z.string()),
    notAsked: z.array(z.string()),
  }),
})
export type Assessment = z.infer<typeof assessmentSchema>
