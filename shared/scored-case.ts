import * as z from 'zod/mini'
import { caseFileSchema } from './case-file.ts'
import { momentSchema } from './moment.ts'
import { URGENCIES } from './urgency.ts'

const urgency = z.enum(URGENCIES)

/** A case with the urgencies that are right for it, both ends included. Other fields, such as its source, may stand beside. */
export const scoredCaseSchema = z.object({
  id: z.string().check(z.minLength(1)),
  /** `min` is the mildest urgency that is right, `max` the most urgent. */
  allowed: z.strictObject({ min: urgency, max: urgency }),
  now: momentSchema,
  caseFile: caseFileSchema,
})
export type ScoredCase = z.infer<typeof scoredCaseSchema>
