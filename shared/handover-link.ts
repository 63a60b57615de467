import * as z from 'zod/mini'
import { handoverSchema } from './handover.ts'

/**
 * A history as it is packed into a link: every fact once, the rest by its place in that list; times as minutes before
 * the making of the page; weights in columns of differences. `src/handover/history-packing.ts` packs and unpacks.
 */

const { shape } = handoverSchema
const MOST_FACTS = 2000
const place = z.int().check(z.minimum(0), z.maximum(MOST_FACTS))
/** Places as runs: a first place and how many follow one another from there. */
const places = z.array(z.tuple([place, z.int().check(z.minimum(1), z.maximum(300))])).check(z.maxLength(300))
const text = z.string()
const column = z.array(text).check(z.maxLength(MOST_FACTS))
const minutes = z.int().check(z.minimum(-100_000_000), z.maximum(100_000_000))

export const packedHandoverSchema = z.strictObject({
  note: z.optional(text),
  made: shape.made,
  animal: shape.animal,
  readAloud: text,
  /**
   * Facts in columns: like stands beside like, which packs best. Tags as digits, places in TAGS; minutes as the
   * difference from the fact before, or null where there is no time; quantities with the place of their fact.
   */
  labels: column,
  values: column,
  tags: text,
  minutes: z.array(z.nullable(minutes)).check(z.maxLength(MOST_FACTS)),
  quantities: z.array(z.tuple([place, z.number(), text])).check(z.maxLength(MOST_FACTS)),
  underVet: places,
  /** Present, unsure, absent. */
  signs: z.tuple([places, places, places]),
  notAsked: z.array(text),
  weightSummary: z.optional(text),
  /**
   * Minutes between weigh-ins less the `usual` number, the first before the making; differences of mass in `perGram`
   * parts of a gram; steps of the scale as runs.
   */
  weights: z.strictObject({
    usual: minutes,
    perGram: z.enum({ tenths: 10, hundredths: 100 }),
    minutes: z.array(minutes).check(z.maxLength(4000)),
    masses: z.array(z.int()).check(z.maxLength(4000)),
    steps: z
      .array(z.tuple([z.int().check(z.minimum(1), z.maximum(4000)), z.nullable(z.number())]))
      .check(z.maxLength(50)),
  }),
  sections: z.array(z.tuple([text, text, places])).check(z.maxLength(40)),
  keepApart: z.array(text),
  answers: places,
  guide: shape.guide,
  leftOut: shape.leftOut,
})
export type PackedHandover = z.infer<typeof packedHandoverSchema>
