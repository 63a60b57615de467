import * as z from 'zod/mini'
import { weighInSchema } from './case-file.ts'
import { instant } from './moment.ts'
import { filledLine, oneLine } from './safe-text.ts'
import { isZone } from './zone.ts'

/**
 * What the clinic receives: one animal's history as words and numbers, so that it can be read by any later version of
 * this guide, and by other programs. It comes back in from links and files that anyone can write, so every text is one
 * line of bounded length.
 */

export const HANDOVER_FORMAT = 'duskcheck-handover'
export const HANDOVER_VERSION = 1

/** How a fact is known: with an instrument, with the eyes, by word of mouth or memory, or by a guess. */
export const TAGS = ['measured', 'seen', 'told', 'guessed'] as const
export type Tag = (typeof TAGS)[number]

/** What the owner may leave out before sending; the page says that it was. */
export const HANDOVER_PARTS = ['name', 'weights', 'readings', 'past', 'answers'] as const
export type HandoverPart = (typeof HANDOVER_PARTS)[number]

const words = oneLine(600)

export const handoverFactSchema = z.strictObject({
  label: filledLine(300),
  value: words,
  tag: z.enum(TAGS),
  /** When it was so, or was said. */
  at: z.optional(instant),
  /** Calendar days from then to the making of this page. */
  daysAgo: z.optional(z.int().check(z.minimum(0), z.maximum(40_000))),
  /** The number behind the words; `unit` as the protocol names it. */
  quantity: z.optional(z.strictObject({ value: z.number(), unit: oneLine(20) })),
})
export type HandoverFact = z.infer<typeof handoverFactSchema>

const facts = z.array(handoverFactSchema).check(z.maxLength(300))
const lines = z.array(words).check(z.maxLength(100))

export const handoverSchema = z.strictObject({
  format: z.literal(HANDOVER_FORMAT),
  version: z.literal(HANDOVER_VERSION),
  /** Where the case is invented or is for a test: what it says of itself. */
  note: z.optional(words),
  /** When it was made, in a century in which days can be counted back, and the zone of its days. */
  made: z.strictObject({
    instant: instant.check(z.regex(/^(?:19|20|21)/)),
    zone: z.string().check(z.maxLength(60), z.refine(isZone)),
  }),
  animal: z.strictObject({
    name: z.optional(oneLine(60)),
    species: oneLine(80),
    latin: oneLine(80),
    colourLine: z.optional(oneLine(60)),
    hatchedOn: z.optional(z.iso.date()),
  }),
  /** Line one, to be read aloud. */
  readAloud: words,
  /** Where a vet is treating it: stands above all else. */
  underVet: facts,
  dangerSigns: z.strictObject({ present: facts, unsure: facts, absent: facts, notAsked: lines }),
  weights: z.strictObject({
    /** The comparison that the assessment made, in words and numbers. */
    summary: z.optional(words),
    weighIns: z.array(weighInSchema).check(z.maxLength(4000)),
  }),
  sections: z
    .array(z.strictObject({ id: oneLine(40), title: filledLine(160), facts }))
    .check(z.maxLength(40)),
  /** Why it should be kept apart in the waiting room. */
  keepApart: lines,
  /** Every answer in the order of the protocol, for the second page. */
  answers: facts,
  /** What this guide made of it; stands last, so that it does not lead. */
  guide: z.strictObject({
    result: words,
    seenBy: z.optional(words),
    reasons: z.array(z.strictObject({ rule: oneLine(80), reason: words })).check(z.maxLength(100)),
    protocol: z.strictObject({ species: oneLine(60), version: oneLine(20), hash: oneLine(64) }),
    trustLine: words,
    notADiagnosis: words,
  }),
  leftOut: z.array(z.enum(HANDOVER_PARTS)).check(z.maxLength(HANDOVER_PARTS.length)),
})
export type Handover = z.infer<typeof handoverSchema>
