import * as z from 'zod/mini'
import { EVENT_KINDS } from './event-kinds.ts'

/**
 * What content says of the page for a clinic (handover.yaml): which answers stand in which section, what common history
 * forms ask besides, what to bring, how to travel, what to say on the telephone. Ids are those of the protocol.
 */

const id = z.string().check(z.regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/))
const line = z.string().check(z.minLength(1), z.maxLength(160))

/** Questions with options: one of them was answered to each. */
const answersAre = z.record(id, z.array(id))
export type AnswersAre = z.infer<typeof answersAre>

/** A question of history forms: answered in the owner's own words, or skipped. */
const historyQuestionSchema = z.strictObject({
  id,
  ask: line,
  /** Asked only where one of these questions of the protocol has an answer. */
  ifAnswered: z.optional(z.array(id)),
})
export type HistoryQuestion = z.infer<typeof historyQuestionSchema>

const adviceSchema = z.strictObject({
  text: line,
  basis: z.enum(['published', 'common-practice', 'project-judgement']),
  sources: z._default(z.array(z.string()), []),
})
export type Advice = z.infer<typeof adviceSchema>

export const handoverFileSchema = z.strictObject({
  told: z.array(id),
  readAloud: z.array(id),
  course: z.array(id),
  underVet: z.array(answersAre),
  sections: z.array(
    z.strictObject({
      id,
      title: line,
      questions: z.array(id),
      events: z._default(z.array(z.enum(EVENT_KINDS)), []),
      /** Whether the readings of the enclosure stand here. */
      readings: z._default(z.boolean(), false),
      asks: z._default(z.array(historyQuestionSchema), []),
      /** Whether answers that stand in no section stand here. */
      rest: z._default(z.boolean(), false),
    }),
  ),
  /** Reasons to keep it apart in the waiting room: one of the rules holds, or all of the answers were given. */
  keepApart: z.array(
    z.strictObject({
      reason: line,
      rules: z._default(z.array(id), []),
      answers: z._default(z.array(answersAre), []),
    }),
  ),
  bring: z.array(adviceSchema),
  travel: z.array(adviceSchema),
  say: z.strictObject({ now: line, day: line, week: line, home: line, well: line }),
})
export type HandoverContent = z.infer<typeof handoverFileSchema>
