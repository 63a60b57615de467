import * as z from 'zod/mini'
import { EVENT_KINDS } from './event-kinds.ts'
import { URGENCIES } from './urgency.ts'

/**
 * The shape of the YAML under content/. Used by the build, the command line and the tests; the browser
 * never loads this file. The words are those of DEVELOPERS.md.
 */

const id = z.string().check(z.regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/))
const evidenceId = z.string().check(z.regex(/^[a-z]+-[A-Za-z0-9-]+$/))
const text = z.string().check(z.minLength(1))
const hours = z.number().check(z.gt(0))

/** Conditions are read by src/protocol/condition.ts, which knows the facts they may name. */
export type ConditionSource = { readonly [key: string]: unknown }
const condition = z.record(z.string(), z.unknown())

export const BASES = ['published', 'common-practice', 'project-judgement'] as const
export type Basis = (typeof BASES)[number]
const basis = z.enum(BASES)

/** What a care step does. A never-do beats every step of the same act on the same part. */
export const ACTS = [
  'look',
  'soak',
  'warm',
  'cool',
  'feed',
  'water',
  'handle',
  'move',
  'clean',
  'cover',
  'press',
  'rinse',
  'moisten',
  'rub',
  'weigh',
  'house',
  'separate',
  'medicate',
  'pull',
  'cut',
  'push',
  'phone',
  'travel',
  'keep-record',
] as const
export type Act = (typeof ACTS)[number]

export const PARTS = [
  'body',
  'head',
  'eye',
  'nostril',
  'mouth',
  'skin',
  'leg',
  'toes',
  'belly',
  'vent',
  'tail',
  'stump',
  'wound',
  'enclosure',
  'none',
] as const
export type Part = (typeof PARTS)[number]

const level = z.union([
  z.enum(URGENCIES),
  z.strictObject({ urgency: z.enum(URGENCIES), withinHours: z.optional(hours) }),
])

const optionSource = z.strictObject({
  id,
  text,
  hint: z.optional(text),
  /** The danger sign that this option says is there. */
  sign: z.optional(id),
  /** For a question filled from the hatch date: the age in days from which this option holds. */
  fromAgeDays: z.optional(z.number().check(z.minimum(0))),
})
export type OptionSource = z.infer<typeof optionSource>

const presetSource = z.strictObject({
  text,
  hoursAgo: z.number().check(z.minimum(0)),
  uncertaintyHours: z._default(z.number().check(z.minimum(0)), 0),
})

export const QUESTION_KINDS = ['choice', 'several', 'since', 'amount', 'weights'] as const

export const questionSchema = z.strictObject({
  id,
  kind: z.enum(QUESTION_KINDS),
  ask: text,
  /** One short line under the question. */
  help: z.optional(text),
  /** A question of fact (age, sex, season) has no order from mild to bad. */
  fact: z.optional(z.boolean()),
  options: z.optional(z.array(optionSource)),
  /** Whether "I looked and can't tell" is offered. Signs that one can see offer it, facts list their own "not known". */
  cannotTell: z.optional(z.boolean()),
  /** Whether "I can't measure that now" is offered: weights, temperatures, dates. */
  cannotMeasure: z.optional(z.boolean()),
  /** For `several`: the words of the button that says no line is true. */
  noneText: z.optional(text),
  unit: z.optional(z.enum(['grams', 'celsius', 'percent', 'hours', 'days', 'centimetres'])),
  from: z.optional(z.number()),
  to: z.optional(z.number()),
  presets: z.optional(z.array(presetSource)),
  /** How to look or measure, shown on request and when "not looked yet" is chosen. */
  howTo: z.optional(z.array(text)),
  onlyIf: z.optional(condition),
  staysGoodHours: hours,
  /** Filled from the animal's hatch date where the case file has one. */
  fromHatchDate: z.optional(z.boolean()),
  /** Asked for the page to the vet only; always skippable. */
  forHandover: z.optional(z.boolean()),
  /** Asked on the outcome because it changes the first aid, never the urgency. */
  forCare: z.optional(z.boolean()),
  /** Which drawing helps to answer. */
  picture: z.optional(z.enum(['body-map', 'tail-width', 'condition'])),
})
export type QuestionSource = z.infer<typeof questionSchema>

const evidenceFields = {
  evidence: z._default(z.array(evidenceId), []),
  findingBasis: basis,
  urgencyBasis: basis,
  /** Where sources disagree: who says what, and which one is followed (the safer). */
  conflict: z.optional(text),
}

export const ruleSchema = z.strictObject({
  id,
  /** Absent only on a concern's base rule. */
  when: z.optional(condition),
  urgency: z.enum(URGENCIES),
  withinHours: z.optional(hours),
  /** The floor: what the rule still gives when its condition is unsure. One level lower if absent. */
  whenUnsure: z.optional(level),
  /** Why, in plain words to the owner. */
  reason: text,
  /** Home or waiting care plans that this rule calls for, by id. */
  care: z._default(z.array(id), []),
  /** For `now` and `day`: the plan for "nobody can see it tonight". */
  holding: z.optional(id),
  firstAid: z.optional(id),
  ...evidenceFields,
})
export type RuleSource = z.infer<typeof ruleSchema>

export const dangerSignsSchema = z.strictObject({
  screens: z.array(
    z.strictObject({
      id,
      ask: text,
      door: text,
      doorHint: z.optional(text),
      staysGoodHours: hours,
      howTo: z.optional(z.array(text)),
    }),
  ),
  signs: z.array(
    z.strictObject({
      id,
      screen: id,
      text,
      hint: z.optional(text),
      urgency: z.enum(['day', 'now']),
      withinHours: z.optional(hours),
      whenUnsure: z.optional(level),
      reason: text,
      care: z._default(z.array(id), []),
      holding: id,
      firstAid: z.optional(id),
      ...evidenceFields,
    }),
  ),
})
export type DangerSignsSource = z.infer<typeof dangerSignsSchema>

export const questionsFileSchema = z.strictObject({
  common: z.array(questionSchema),
  care: z.array(questionSchema),
  handover: z.array(questionSchema),
})
export type QuestionsFileSource = z.infer<typeof questionsFileSchema>

const band = z.strictObject({
  id,
  text,
  /** Lower end, included; absent on the lowest band. */
  from: z.optional(z.number()),
  /** Upper end, not included; absent on the highest band. */
  below: z.optional(z.number()),
  /** An answer of the question that is not a number, standing in this place of the order. */
  option: z.optional(id),
})

const findingsSource = z.array(
  z.strictObject({
    id,
    name: text,
    /** The question whose number falls into the bands, or the name of a computed number. */
    question: z.optional(id),
    computed: z.optional(z.enum(['weightLoss', 'season'])),
    unit: z.enum(['days', 'hours', 'grams', 'celsius', 'percent', 'months', 'centimetres']),
    /** Which way is worse; `none` for a fact without an order. Bands are listed from mildest to worst. */
    worse: z.enum(['higher', 'lower', 'none']),
    bands: z.optional(z.array(band)),
    /** For weight loss: the grid of percent against days, listed from mildest to worst. */
    grid: z.optional(
      z.array(z.strictObject({ id, text, atLeastPercent: z.number(), withinDays: z.optional(z.number()) })),
    ),
    /** For season: the months of each, northern hemisphere, and the question that tells the hemisphere. */
    months: z.optional(
      z.array(z.strictObject({ id, text, months: z.array(z.int().check(z.minimum(1), z.maximum(12))) })),
    ),
    hemisphere: z.optional(z.strictObject({ question: id, south: id })),
    /** The question that is answered "can't measure" when this cannot be known. */
    measuredBy: z.optional(id),
    /** What would settle it, for "find this out by ...". */
    findOut: z.optional(text),
    evidence: z._default(z.array(evidenceId), []),
    basis,
  }),
)
export type FindingSource = z.infer<typeof findingsSource>[number]

export const bandsFileSchema = z.strictObject({ findings: findingsSource })
export type BandsFileSource = z.infer<typeof bandsFileSchema>

export const concernSchema = z.strictObject({
  id,
  name: text,
  /** How owners say it, under the name on the door. */
  hint: text,
  /** What this concern may end in as `well`, and why that is normal; required when the base rule is `well`. */
  normal: z.optional(z.strictObject({ text, evidence: z.array(evidenceId), basis })),
  questions: z.array(questionSchema),
  /** Findings that only this concern's questions and rules use. */
  findings: z._default(findingsSource, []),
  base: ruleSchema,
  rules: z.array(ruleSchema),
})
export type ConcernSource = z.infer<typeof concernSchema>

export const generalRulesSchema = z.strictObject({
  /** Named conditions that several rules use: `{ term: off-food-past-limit }`. */
  terms: z._default(z.array(z.strictObject({ id, when: condition, means: text })), []),
  rules: z.array(ruleSchema),
})

const lookAgain = z.strictObject({
  look: text,
  hours: z.optional(hours),
  /** The n-th morning from now, at the hour the species file names. */
  morning: z.optional(z.int().check(z.gt(0))),
  /** The n-th calendar day from now, in the evening hour the species file names. */
  day: z.optional(z.int().check(z.gt(0))),
})

const careStep = z.strictObject({
  id,
  text,
  act: z.enum(ACTS),
  part: z._default(z.enum(PARTS), 'body'),
  /** Shown also while waiting for a vet. */
  whileWaiting: z._default(z.boolean(), false),
  onlyWhen: z.optional(condition),
  forbiddenWhen: z.optional(condition),
  /** Why it is left out, for "No soak: the stump is fresh". */
  forbiddenBecause: z.optional(text),
  evidence: z._default(z.array(evidenceId), []),
  basis,
})

const neverDo = z.strictObject({
  id,
  text,
  act: z.optional(z.enum(ACTS)),
  part: z._default(z.enum(PARTS), 'body'),
  onlyWhen: z.optional(condition),
  evidence: z._default(z.array(evidenceId), []),
  basis,
})

/** What a look's answer does to the plan; `danger-check` leads to the danger-sign questions at once. */
export const LOOK_MEANINGS = ['closes', 'goes-on', 'raises', 'danger-check'] as const

/** Who begins a plan: an assessment whose rules call for it, or the owner at one of these turns. */
export const PLAN_BEGINNINGS = ['rules', 'enclosure-fix', 'appointment', 'vet-visit'] as const

const lookOption = z.strictObject({
  id,
  text,
  means: z.enum(LOOK_MEANINGS),
  /** For `raises` and `danger-check`: what the look alone gives, whatever the danger check finds. */
  urgency: z.optional(z.enum(URGENCIES)),
  withinHours: z.optional(hours),
})

const followUpLimit = z.strictObject({
  id,
  /** Holds always where absent. A limit whose condition is unsure holds too. */
  when: z.optional(condition),
  /** Calendar days, elapsed hours, or looks without an end: exactly one. */
  days: z.optional(z.int().check(z.gt(0))),
  hours: z.optional(hours),
  looks: z.optional(z.int().check(z.gt(0))),
  /** Counted from the moment that this question of kind `since` tells; from the beginning of the plan where absent. */
  from: z.optional(id),
  urgency: z.enum(URGENCIES),
  withinHours: z.optional(hours),
  reason: text,
  evidence: z._default(z.array(evidenceId), []),
  basis,
})

/** How a home plan is carried through: what a look may say, and when it is a vet's matter. */
const followUpSource = z.strictObject({
  begins: z._default(z.enum(PLAN_BEGINNINGS), 'rules'),
  ask: text,
  /** From best to worst. */
  options: z.array(lookOption),
  /** A question of kind `several` whose chosen options are looked at one by one. */
  spotsFrom: z.optional(id),
  /** Plans that this one takes over from, by id. */
  replaces: z._default(z.array(id), []),
  /** The event that the record gets when the plan begins; a lost tail gives weights a new start. */
  records: z.optional(z.enum(EVENT_KINDS)),
  /** A look that closes counts as going on before this many days. */
  closesFromDay: z.optional(z.int().check(z.gt(0))),
  /** Days of the plan on which it is weighed, and the rhythm after the last of them. */
  weighDays: z._default(z.array(z.int().check(z.minimum(0))), []),
  thenWeighEveryDays: z.optional(z.int().check(z.gt(0))),
  /** Days between looks once the listed ones are over: a plan never ends by silence. */
  thenEveryDays: z.int().check(z.gt(0)),
  limits: z.array(followUpLimit),
  /** What no look after two asks gives. */
  missed: z.strictObject({ urgency: z.enum(URGENCIES), withinHours: z.optional(hours) }),
  /** Days from the look that closed the plan to the last one. */
  lastLookDays: z.int().check(z.gt(0)),
  evidence: z._default(z.array(evidenceId), []),
  basis,
})
export type FollowUpSource = z.infer<typeof followUpSource>

export const CARE_KINDS = ['first-aid', 'holding', 'home'] as const

export const carePlanSchema = z.strictObject({
  id,
  kind: z.enum(CARE_KINDS),
  title: text,
  opening: z.optional(text),
  steps: z.array(careStep),
  nevers: z.array(neverDo),
  lookAgain: z.array(lookAgain),
  /** Signs that end home care or turn waiting into `now`. */
  getHelpIf: z.array(text),
  /** Home plans only: how the plan is carried through. */
  followUp: z.optional(followUpSource),
})
export type CarePlanSource = z.infer<typeof carePlanSchema>

export const speciesSchema = z.strictObject({
  id,
  name: text,
  latin: text,
  version: z.string(),
  reviewedBy: z.array(text),
  windows: z.strictObject({ dayHours: hours, weekHours: hours }),
  clock: z.strictObject({ morningHour: z.int(), eveningHour: z.int() }),
  speciesQuestion: id,
  concernQuestion: z.strictObject({ id, ask: text, help: z.optional(text), staysGoodHours: hours }),
  concerns: z.array(id),
  weight: z.strictObject({
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
        kind: z.string(),
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
    basis,
    evidence: z.array(evidenceId),
  }),
  /** While a vet treats the animal, home plans show only these acts: the vet's orders come first. */
  treatedByVet: z.strictObject({ when: condition, keeps: z.array(z.enum(ACTS)), because: text }),
  opposites: z.array(z.tuple([z.enum(ACTS), z.enum(ACTS)])),
  followUp: z.strictObject({
    /** How long before its time a look on a day or morning may be made and count. */
    earlyHours: hours,
    /** From when a look that was due is missed. */
    missedAfterHours: hours,
    /** Between the first ask and the second, and from the second until silence raises. */
    askAgainAfterHours: hours,
    basis,
  }),
})
export type SpeciesSource = z.infer<typeof speciesSchema>

export const SOURCE_CLASSES = ['paper', 'vet-text', 'welfare-body', 'data-set', 'keeper-page'] as const

export const sourcesFileSchema = z.array(
  z.strictObject({
    id: evidenceId,
    title: text,
    by: z.optional(text),
    publisher: z.optional(text),
    year: z.optional(z.int()),
    doi: z.optional(text),
    link: z.optional(text),
    class: z.enum(SOURCE_CLASSES),
    read: z.enum(['full', 'abstract', 'opening', 'relayed']),
  }),
)
export type SourceEntry = z.infer<typeof sourcesFileSchema>[number]

export const evidenceFileSchema = z.array(
  z.strictObject({
    id: evidenceId,
    sign: text,
    urgency: z.union([z.enum(URGENCIES), z.array(z.enum(URGENCIES))]),
    speedFromSource: z.optional(z.boolean()),
    sources: z.array(evidenceId),
  }),
)
export type EvidenceRow = z.infer<typeof evidenceFileSchema>[number]

export const leftOutFileSchema = z.array(z.strictObject({ rows: z.array(evidenceId), because: text }))

export const hazardsFileSchema = z.array(
  z.strictObject({
    id,
    hazard: text,
    cause: text,
    severity: z.enum(['severe', 'serious', 'minor']),
    controls: z.array(z.strictObject({ control: text, test: text })),
  }),
)

export const wordsFileSchema = z.strictObject({
  trustLine: text,
  notADiagnosis: text,
  urgencyNames: z.record(z.enum(URGENCIES), text),
  firstLine: z.record(z.enum(URGENCIES), text),
  basisNames: z.record(z.enum(BASES), text),
  judgementLine: text,
  nobodyTonight: z.array(text),
  money: text,
  suffering: text,
  /** A caution with acts stands open where the outcome tells one of them to be done; all others are folded. */
  cautions: z.array(z.strictObject({ id, text, acts: z.optional(z.array(z.enum(ACTS))) })),
  /** Words that no simpler one replaces; the reading grade counts each as one syllable. */
  taughtWords: z._default(z.array(z.strictObject({ word: text, means: text })), []),
})
export type WordsSource = z.infer<typeof wordsFileSchema>
