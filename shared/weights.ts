import * as z from 'zod/mini'
import { URGENCIES } from './urgency.ts'

/**
 * What content says of a weight record beyond the comparison that rules use (`weight` in species.yaml): the trend,
 * the flags, when to weigh again, growth, fasting, the index of mass and length, and signals of a whole shelf.
 * `src/measure/policy.ts` says what each number does.
 */

const positive = z.number().check(z.gt(0))
const share = z.number().check(z.gt(0), z.lt(1))
const text = z.string().check(z.minLength(1))
const changeWithin = z.strictObject({ atLeastPercent: positive, withinDays: positive })
const bases = {
  basis: z.enum(['published', 'common-practice', 'project-judgement']),
  evidence: z.array(z.string()),
}

/** What one group of animals in one place shows: so many of them with one of these signs within some days. */
export const groupSignalSchema = z.strictObject({
  id: text,
  /** Animals that show one of these; `losing` is worked out from the weights, the rest are kinds of events. */
  anyOf: z.array(text),
  atLeastAnimals: z.int().check(z.minimum(1)),
  withinDays: positive,
  /** What every animal of that place is given at least. */
  urgency: z.enum(URGENCIES),
  reason: text,
  steps: z.array(text),
  nevers: z.array(text),
  ...bases,
})

/** One look at the body: what is asked, how to look, and the looks from the thinnest on, each with its step of five or none. */
const conditionPartSchema = z.strictObject({
  ask: text,
  hint: text,
  looks: z.array(z.tuple([z.union([z.literal([1, 2, 3, 4, 5]), z.literal('saysNothing')]), text])),
})

export const weightsFileSchema = z.strictObject({
  trend: z.strictObject({
    windowsDays: z.array(positive),
    leastReadings: z.int().check(z.minimum(2)),
    confidence: share,
  }),
  flags: z.strictObject({
    fastLoss: changeWithin,
    slowLoss: z.strictObject({ atLeastPercent: positive }),
    fastGain: changeWithin,
    youngNotGaining: z.strictObject({ overDays: positive }),
    steady: z.strictObject({
      withinPercent: positive,
      overDays: positive,
      atLeastReadings: z.int().check(z.minimum(2)),
    }),
    trendProbability: share,
  }),
  weighAgain: z.strictObject({
    everyDays: positive,
    youngEveryDays: positive,
    afterEventDays: z.array(positive),
  }),
  /** From this age on an animal counts as grown. */
  grownFromDays: positive,
  ...bases,
  growth: z.strictObject({
    starts: z.array(
      z.strictObject({
        points: z.array(z.strictObject({ ageDays: z.number(), massGrams: positive })),
        source: text,
      }),
    ),
    ratesGramsPerDay: z.array(z.strictObject({ gramsPerDay: positive, source: text })),
    validToDays: positive,
    ...bases,
  }),
  massIndex: z.strictObject({ exponent: positive, referenceLengthMillimetres: positive, ...bases }),
  /** The look at the body, in words; `src/measure/bodyCondition.ts` says what the parts and steps do. */
  condition: z.strictObject({
    /** The five steps, thinnest first. */
    steps: z.array(text).check(z.length(5)),
    parts: z.strictObject({
      tail: conditionPartSchema,
      hipsAndSpine: conditionPartSchema,
      flanksAndThighs: conditionPartSchema,
      forelegPads: conditionPartSchema,
    }),
    /** Said with every result. */
    caution: text,
    ...bases,
  }),
  shelf: z.strictObject({
    /** From this loss beyond the noise on an animal counts as losing for the signals. */
    losingFromPercent: positive,
    signals: z.array(groupSignalSchema),
    /** Kinds of things seen after which an animal is no longer weighed. */
    endedBy: z.array(text),
  }),
})

/** The file as content writes it and as the tool uses it. */
export type WeightsContent = z.infer<typeof weightsFileSchema>
