import * as z from 'zod/mini'

/** How owners say it: the words behind the search on the start page. */

const id = z.string().check(z.regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/))
const text = z.string().check(z.minLength(1))
const phrases = z.array(text).check(z.minLength(1))

export const searchWordsSchema = z.strictObject({
  /** Words that say nothing about what is wrong. */
  smallWords: z.array(text),
  /** A danger screen comes first where every word of one of its phrases stands close together. */
  dangerDoors: z.array(z.strictObject({ screen: id, phrases })),
  concerns: z.array(z.strictObject({ concern: id, phrases })),
  /** The concern that a search which finds nothing leads to, after every danger screen. */
  nothingFound: id,
  /** What can be pointed at, and the danger screens and concerns each leads to, the likeliest first. */
  bodyParts: z.array(
    z.strictObject({
      id,
      name: text,
      /** The places of the drawing in words, where the name alone does not say them. */
      places: z.optional(text),
      doors: z.array(id).check(z.minLength(1)),
    }),
  ),
})
export type SearchWords = z.infer<typeof searchWordsSchema>
