import * as z from 'zod/mini'
import { instant } from './moment.ts'
import { READING_UNIT_NAMES } from './reading-units.ts'

/**
 * What a keeper says of one enclosure: answers by item id, a week of food, and how to read a logger's file.
 * Every part may be missing.
 */

const text = z.string().check(z.minLength(1))

/** The word for "I don't know" as an answer. */
export const NOT_KNOWN = 'not-known-yet'

/** An option's id, several ids, a number in the item's own unit, or a number with unit and instrument. */
export const enclosureAnswerSchema = z.union([
  text,
  z.array(text),
  z.number(),
  z.strictObject({
    amount: z.number(),
    unit: z.optional(z.enum(READING_UNIT_NAMES)),
    /** The kind of instrument, by id. */
    instrument: z.optional(text),
  }),
  z.strictObject({ began: instant }),
  z.strictObject({ cannotMeasure: z.literal(true) }),
])
export type EnclosureAnswer = z.infer<typeof enclosureAnswerSchema>

export const mealSchema = z.strictObject({
  feeder: text,
  /** How many in the week. */
  count: z.number().check(z.gt(0), z.maximum(5000)),
  /** What one weighs. */
  eachGrams: z.number().check(z.gt(0), z.maximum(20)),
})
export type Meal = z.infer<typeof mealSchema>

export const feedingInputSchema = z.strictObject({
  week: z.array(mealSchema),
  massGrams: z.optional(z.number().check(z.gt(0), z.maximum(200))),
  /** How warm the animal is through day and night, about; the mean of warm spot and cool side where it is not given. */
  bodyCelsius: z.optional(z.number().check(z.minimum(0), z.maximum(45))),
  /** Powder that stays on the week's food, and the share of calcium its label states. */
  dust: z.optional(
    z.strictObject({
      grams: z.number().check(z.gt(0), z.maximum(100)),
      calciumPercent: z.number().check(z.gt(0), z.maximum(100)),
    }),
  ),
})
export type FeedingInput = z.infer<typeof feedingInputSchema>

export const loggerAnswersSchema = z.strictObject({
  /** Where the sensor lay, by id. */
  place: z.optional(text),
  temperatureUnit: z.optional(z.enum(['celsius', 'fahrenheit'])),
  dateOrder: z.optional(z.enum(['day-first', 'month-first'])),
  /** Columns by what the file calls them. */
  timeColumn: z.optional(text),
  temperatureColumn: z.optional(text),
  humidityColumn: z.optional(text),
  /** What the thermostat is set to. */
  setCelsius: z.optional(z.number().check(z.minimum(0), z.maximum(60))),
})
export type LoggerAnswers = z.infer<typeof loggerAnswersSchema>

export const enclosureInputSchema = z.strictObject({
  note: z.optional(z.string()),
  answers: z._default(z.record(z.string(), enclosureAnswerSchema), {}),
  feeding: z.optional(feedingInputSchema),
  logger: z._default(loggerAnswersSchema, {}),
})
export type EnclosureInput = z.infer<typeof enclosureInputSchema>
