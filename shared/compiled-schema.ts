import * as z from 'zod/mini'
import type { Condition } from './compiled.ts'
import { ACTS, BASES, CARE_KINDS, LOOK_MEANINGS, PARTS, PLAN_BEGINNINGS, QUESTION_KINDS } from './content.ts'
import { EVENT_KINDS } from './event-kinds.ts'
import { URGENCIES } from './urgency.ts'

/** The shape of a compiled protocol as data, for `npm run schema -- protocol`; compiled.ts says what each part means. */

const text = z.string()
const index = z.int()
const options = z.int()
const basis = z.enum(BASES)
const level = z.strictObject({ urgency: z.enum(URGENCIES), withinHours: z.exactOptional(z.number()) })
const factMask = z.strictObject({ fact: index, options })

const condition: z.ZodMiniType<Condition> = z.lazy(() =>
  z.union([
    z.strictObject({ kind: z.literal('atom'), fact: index, options }),
    z.strictObject({ kind: z.literal('all'), of: z.array(condition) }),
    z.strictObject({ kind: z.literal('any'), of: z.array(condition) }),
    z.strictObject({ kind: z.literal('atLeast'), count: z.int(), of: z.array(condition) }),
  ]),
)

const factBase = { id: text, options: z.array(text), ordered: z.boolean() }
const fact = z.union([
  z.strictObject({ ...factBase, kind: z.literal('question'), question: index }),
  z.strictObject({ ...factBase, kind: z.literal('sign'), screen: factMask, lookNow: z.array(factMask) }),
  z.strictObject({
    ...factBase,
    kind: z.literal('band'),
    question: index,
    unit: z.enum(['days', 'hours', 'other']),
    worse: z.enum(['higher', 'lower', 'none']),
    bands: z.array(
      z.strictObject({
        from: z.exactOptional(z.number()),
        below: z.exactOptional(z.number()),
        option: z.exactOptional(index),
      }),
    ),
  }),
  z.strictObject({
    ...factBase,
    kind: z.literal('weight-loss'),
    measuredBy: index,
    grid: z.array(z.strictObject({ atLeastPercent: z.number(), withinDays: z.exactOptional(z.number()) })),
  }),
  z.strictObject({
    ...factBase,
    kind: z.literal('season'),
    months: z.array(z.array(z.int())),
    hemisphere: z.strictObject({ fact: index, south: index }),
  }),
])

const question = z.strictObject({
  id: text,
  kind: z.enum(QUESTION_KINDS),
  phase: z.enum(['danger', 'concern', 'concerns', 'common', 'handover', 'care']),
  concern: z.exactOptional(text),
  fact: index,
  options: z.array(text),
  signs: z.array(z.nullable(text)),
  gate: z.exactOptional(condition),
  staysGoodHours: z.number(),
  cannotTell: z.boolean(),
  cannotMeasure: z.boolean(),
  fromAgeDays: z.exactOptional(z.array(z.number())),
  range: z.exactOptional(z.strictObject({ from: z.number(), to: z.number(), unit: text })),
  forHandover: z.boolean(),
})

const rule = z.strictObject({
  id: text,
  concern: z.exactOptional(text),
  origin: z.enum(['sign', 'general', 'concern', 'base']),
  when: z.exactOptional(condition),
  level,
  unsure: level,
  care: z.array(text),
  holding: z.exactOptional(text),
  firstAid: z.exactOptional(text),
  evidence: z.array(text),
  findingBasis: basis,
  urgencyBasis: basis,
})

const lookAgain = z.array(
  z.strictObject({
    hours: z.exactOptional(z.number()),
    morning: z.exactOptional(z.int()),
    day: z.exactOptional(z.int()),
  }),
)

const carePlan = z.strictObject({
  id: text,
  kind: z.enum(CARE_KINDS),
  steps: z.array(
    z.strictObject({
      id: text,
      act: z.enum(ACTS),
      part: z.enum(PARTS),
      whileWaiting: z.boolean(),
      onlyWhen: z.exactOptional(condition),
      forbiddenWhen: z.exactOptional(condition),
    }),
  ),
  nevers: z.array(
    z.strictObject({
      id: text,
      act: z.exactOptional(z.enum(ACTS)),
      part: z.enum(PARTS),
      onlyWhen: z.exactOptional(condition),
    }),
  ),
  lookAgain,
})

const followUpPlan = z.strictObject({
  id: text,
  begins: z.enum(PLAN_BEGINNINGS),
  timing: z.strictObject({
    morningHour: z.int(),
    eveningHour: z.int(),
    earlyHours: z.number(),
    missedAfterHours: z.number(),
    askAgainAfterHours: z.number(),
  }),
  looks: lookAgain,
  thenEveryDays: z.int(),
  options: z.array(z.strictObject({ id: text, means: z.enum(LOOK_MEANINGS), level: z.exactOptional(level) })),
  spotsFrom: z.exactOptional(text),
  replaces: z.array(text),
  records: z.exactOptional(z.enum(EVENT_KINDS)),
  closesFromDay: z.int(),
  weighDays: z.array(z.int()),
  thenWeighEveryDays: z.exactOptional(z.int()),
  limits: z.array(
    z.strictObject({
      id: text,
      when: z.exactOptional(condition),
      days: z.exactOptional(z.int()),
      hours: z.exactOptional(z.number()),
      looks: z.exactOptional(z.int()),
      from: z.exactOptional(text),
      level,
    }),
  ),
  missed: level,
  lastLookDays: z.int(),
})

const weight = z.strictObject({
  referenceDays: z.number(),
  slowReferenceDays: z.number(),
  neighboursWithinDays: z.number(),
  freshDays: z.number(),
  enoughReadings: z.number(),
  coarseStepPercent: z.number(),
  explainedWithinDays: z.number(),
  newBaselineDays: z.number(),
  defaultScaleStepGrams: z.number(),
  daySwingPercent: z.number(),
  confidence: z.number(),
  explanations: z.array(
    z.strictObject({
      kind: text,
      upToPercent: z.number(),
      byShare: z.boolean(),
      onlyIfSeen: z.boolean(),
      repeats: z.enum(['adds', 'largest']),
    }),
  ),
  outliers: z.strictObject({
    readingsEachSide: z.number(),
    withinDays: z.number(),
    atLeastReadings: z.number(),
    threshold: z.number(),
  }),
})

const logic = z.strictObject({
  species: text,
  version: text,
  hash: text,
  facts: z.array(fact),
  questions: z.array(question),
  rules: z.array(rule),
  concerns: z.array(text),
  concernQuestion: index,
  speciesQuestion: index,
  carePlans: z.array(carePlan),
  treatedByVet: z.strictObject({ when: condition, keeps: z.array(z.enum(ACTS)) }),
  opposites: z.array(z.tuple([z.enum(ACTS), z.enum(ACTS)])),
  clock: z.strictObject({ morningHour: z.int(), eveningHour: z.int() }),
  weight,
})

/** What is said around the logic is text only; it is described, not ruled. */
const wordsByName = z.record(text, z.unknown())

export const compiledProtocolSchema = z.strictObject({
  logic,
  frame: wordsByName,
  dangerWords: wordsByName,
  commonWords: wordsByName,
  concernWords: z.record(text, wordsByName),
  evidence: z.record(text, z.strictObject({ sign: text, sources: z.array(text) })),
  followUps: z.strictObject({
    hash: text,
    plans: z.record(text, followUpPlan),
    words: z.record(text, z.strictObject({ ask: text, options: z.array(text), reasons: z.array(text) })),
  }),
  sources: z.record(
    text,
    z.strictObject({
      title: text,
      by: z.exactOptional(text),
      publisher: z.exactOptional(text),
      year: z.exactOptional(z.int()),
      doi: z.exactOptional(text),
      link: z.exactOptional(text),
      class: text,
      read: text,
    }),
  ),
})
