import * as z from 'zod/mini'
import { instant } from './moment.ts'
import { protocolStampSchema } from './stored-event.ts'
import { URGENCIES } from './urgency.ts'

/**
 * What the store keeps of a care plan under way: a list of events that only grows and is replayed. The form carries
 * its own version, so that a later one can still read it.
 */
export const FOLLOW_UP_FORM = 1

const id = z.string().check(z.minLength(1), z.maxLength(64))
const note = z.optional(z.string().check(z.maxLength(500)))

const common = {
  form: z.literal(FOLLOW_UP_FORM),
  /** One beginning of one plan; the same plan begun again is another run. */
  runId: id,
  animalId: id,
  /** 0 for the first event of a run, then one more each time. */
  seq: z.int().check(z.minimum(0)),
  at: instant,
  /** The IANA time zone in which the owner was when it happened. */
  zone: z.string().check(z.minLength(1)),
}

export const STOP_REASONS = ['owner', 'replaced', 'given-away', 'died'] as const

export const followUpEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    ...common,
    kind: z.literal('started'),
    plan: id,
    protocol: protocolStampSchema,
    /** Places that are looked at one by one; empty where the animal is looked at as a whole. */
    spots: z.readonly(z.array(id)),
    /** The earliest moment that each question of kind `since` left possible, for limits counted from it. */
    since: z.record(z.string(), instant),
    /** Ids of the plan's conditional limits that hold for this animal, or could. */
    limits: z.readonly(z.array(id)),
  }),
  z.strictObject({ ...common, kind: z.literal('step-done'), step: id }),
  z.strictObject({ ...common, kind: z.literal('not-done'), step: id, note }),
  z.strictObject({ ...common, kind: z.literal('looked'), option: id, spot: z.optional(id), note }),
  /** A missed look was asked for, on a screen that stood open. */
  z.strictObject({ ...common, kind: z.literal('asked') }),
  /** The danger check that a worse look led to was finished; the urgency it came to. */
  z.strictObject({
    ...common,
    kind: z.literal('checked'),
    urgency: z.enum(URGENCIES),
    withinHours: z.optional(z.number().check(z.minimum(0))),
  }),
  z.strictObject({ ...common, kind: z.literal('stopped'), because: z.enum(STOP_REASONS) }),
  z.strictObject({ ...common, kind: z.literal('handed-to-vet') }),
])
export type FollowUpEvent = z.infer<typeof followUpEventSchema>
export type FollowUpStart = Extract<FollowUpEvent, { kind: 'started' }>
