import type { Act, Basis, Part } from './content.ts'
import type { FollowUps } from './follow-up.ts'
import type { Level, Urgency } from './urgency.ts'

/**
 * A protocol after the build: logic (what the code decides with) and words (what people read) apart.
 * Made by src/protocol from content/, never written by hand.
 */

/** A condition over facts. An atom asks whether fact `fact` is one of the options in the bit set `options`. */
export type Condition =
  | { readonly kind: 'atom'; readonly fact: number; readonly options: number }
  | { readonly kind: 'all'; readonly of: readonly Condition[] }
  | { readonly kind: 'any'; readonly of: readonly Condition[] }
  | { readonly kind: 'atLeast'; readonly count: number; readonly of: readonly Condition[] }

interface FactBase {
  readonly id: string
  /** Option or band ids; the bit of option i is 1 << i. */
  readonly options: readonly string[]
  /** Whether the options stand from mildest to worst. */
  readonly ordered: boolean
}

/** What one question's answer says. `several` facts hold any number of options at once. */
export interface QuestionFact extends FactBase {
  readonly kind: 'question'
  readonly question: number
}

/** A danger sign: there if its screen, or any look-now question that names it, says so. One option, bit 1. */
export interface SignFact extends FactBase {
  readonly kind: 'sign'
  readonly screen: { readonly fact: number; readonly options: number }
  readonly lookNow: readonly { readonly fact: number; readonly options: number }[]
}

export interface Band {
  readonly from?: number
  readonly below?: number
  /** The option of the question that stands in this band's place. */
  readonly option?: number
}

/** A number of a question, put into bands. */
export interface BandFact extends FactBase {
  readonly kind: 'band'
  readonly question: number
  readonly unit: 'days' | 'hours' | 'other'
  readonly worse: 'higher' | 'lower' | 'none'
  readonly bands: readonly Band[]
}

/** Percent of weight lost against the days it took, put into a grid. */
export interface WeightLossFact extends FactBase {
  readonly kind: 'weight-loss'
  readonly measuredBy: number
  readonly grid: readonly { readonly atLeastPercent: number; readonly withinDays?: number }[]
}

/** The season where the animal lives. */
export interface SeasonFact extends FactBase {
  readonly kind: 'season'
  readonly months: readonly (readonly number[])[]
  readonly hemisphere: { readonly fact: number; readonly south: number }
}

export type Fact = QuestionFact | SignFact | BandFact | WeightLossFact | SeasonFact

export type QuestionKind = 'choice' | 'several' | 'since' | 'amount' | 'weights'

export interface Question {
  readonly id: string
  readonly kind: QuestionKind
  readonly phase: 'danger' | 'concern' | 'concerns' | 'common' | 'handover' | 'care'
  /** For phase `concerns`: whose question it is. */
  readonly concern?: string
  readonly fact: number
  readonly options: readonly string[]
  /** Per option: the danger sign it says is there, or none. */
  readonly signs: readonly (string | null)[]
  readonly gate?: Condition
  readonly staysGoodHours: number
  readonly cannotTell: boolean
  readonly cannotMeasure: boolean
  /** Per option the age in days from which it holds, where the hatch date answers the question. */
  readonly fromAgeDays?: readonly number[]
  readonly range?: { readonly from: number; readonly to: number; readonly unit: string }
  readonly forHandover: boolean
}

export interface Rule {
  readonly id: string
  /** The concern it belongs to; absent on danger signs and general rules, which are always in scope. */
  readonly concern?: string
  readonly origin: 'sign' | 'general' | 'concern' | 'base'
  /** Absent on a base rule: holds whenever its concern is chosen. */
  readonly when?: Condition
  readonly level: Level
  /** The floor. */
  readonly unsure: Level
  readonly care: readonly string[]
  readonly holding?: string
  readonly firstAid?: string
  readonly evidence: readonly string[]
  readonly findingBasis: Basis
  readonly urgencyBasis: Basis
}

export interface CareStep {
  readonly id: string
  readonly act: Act
  readonly part: Part
  readonly whileWaiting: boolean
  readonly onlyWhen?: Condition
  readonly forbiddenWhen?: Condition
}

export interface NeverDo {
  readonly id: string
  readonly act?: Act
  readonly part: Part
  readonly onlyWhen?: Condition
}

export interface LookAgain {
  readonly hours?: number
  readonly morning?: number
  readonly day?: number
}

export interface CarePlan {
  readonly id: string
  readonly kind: 'first-aid' | 'holding' | 'home'
  readonly steps: readonly CareStep[]
  readonly nevers: readonly NeverDo[]
  readonly lookAgain: readonly LookAgain[]
}

/** How weigh-ins are compared (src/measure/policy.ts says what each number does); all from content. */
export interface WeightPolicy {
  readonly referenceDays: number
  readonly slowReferenceDays: number
  readonly neighboursWithinDays: number
  readonly freshDays: number
  readonly enoughReadings: number
  readonly coarseStepPercent: number
  readonly explainedWithinDays: number
  readonly newBaselineDays: number
  readonly defaultScaleStepGrams: number
  readonly daySwingPercent: number
  readonly confidence: number
  readonly explanations: readonly {
    readonly kind: string
    readonly upToPercent: number
    readonly byShare: boolean
    readonly onlyIfSeen: boolean
    readonly repeats: 'adds' | 'largest'
  }[]
  readonly outliers: {
    readonly readingsEachSide: number
    readonly withinDays: number
    readonly atLeastReadings: number
    readonly threshold: number
  }
}

/** Everything `assess` and the wizard decide with. */
export interface Logic {
  readonly species: string
  readonly version: string
  /** Hash of the logic, so that two runs can be told to have used the same. */
  readonly hash: string
  readonly facts: readonly Fact[]
  readonly questions: readonly Question[]
  readonly rules: readonly Rule[]
  readonly concerns: readonly string[]
  /** Index of the question whose chosen options are the concerns. */
  readonly concernQuestion: number
  /** Index of the question which animal it is; its first option is the animal this protocol is for. */
  readonly speciesQuestion: number
  readonly carePlans: readonly CarePlan[]
  readonly treatedByVet: { readonly when: Condition; readonly keeps: readonly Act[] }
  readonly opposites: readonly (readonly [Act, Act])[]
  readonly clock: { readonly morningHour: number; readonly eveningHour: number }
  readonly weight: WeightPolicy
}

/**
 * What the danger screens need of the logic, so that they can be answered before the rest has come. It grows with the
 * danger signs and not with the concerns. Without screens where the rest is needed to tell what they lead to.
 */
export interface DangerPart extends Pick<Logic, 'species' | 'version' | 'hash'> {
  /** The danger screens in their order; fact i of the conditions below is the i-th. */
  readonly screens: readonly Question[]
  /** What has been told at `now` already if this is true, and if this is at least unsure. */
  readonly endsIfTrue: Condition
  readonly endsIfUnsure: Condition
  /** The question which animal it is, with the answer that it is this one. */
  readonly thisAnimal?: { readonly question: string; readonly choice: string }
  /** Id of the question whose chosen options are the concerns. */
  readonly concernQuestion: string
}

/** The part of the logic that only an outcome needs; the first load decides without it. */
export interface CareOfLogic {
  readonly carePlans: readonly CarePlan[]
  /** In the order of the rules. */
  readonly rules: readonly Pick<Rule, 'care' | 'evidence' | 'holding' | 'firstAid'>[]
}

/** The words of one question. */
export interface QuestionWords {
  readonly ask: string
  readonly help?: string
  readonly howTo?: readonly string[]
  readonly noneText?: string
  readonly picture?: string
  readonly options: readonly { readonly text: string; readonly hint?: string }[]
  readonly presets?: readonly {
    readonly text: string
    readonly hoursAgo: number
    readonly uncertaintyHours: number
  }[]
}

export interface RuleWords {
  readonly reason: string
  readonly conflict?: string
}

export interface CarePlanWords {
  readonly title: string
  readonly opening?: string
  readonly steps: readonly { readonly text: string; readonly forbiddenBecause?: string }[]
  readonly nevers: readonly { readonly text: string }[]
  readonly lookAgain: readonly string[]
  readonly getHelpIf: readonly string[]
}

/** The words of a part of the protocol (the danger screens, one concern, the rest), keyed by id. */
export interface Words {
  readonly questions: Readonly<Record<string, QuestionWords>>
  readonly rules: Readonly<Record<string, RuleWords>>
  readonly carePlans: Readonly<Record<string, CarePlanWords>>
  /** Per finding: its name, the words of its bands, and what would settle it. */
  readonly findings: Readonly<
    Record<string, { readonly name: string; readonly bands: readonly string[]; readonly findOut?: string }>
  >
}

/** What is said about the species, the concerns and the danger doors. */
export interface Frame {
  readonly name: string
  readonly latin: string
  readonly version: string
  readonly reviewedBy: readonly string[]
  readonly doors: readonly { readonly screen: string; readonly door: string; readonly doorHint?: string }[]
  readonly concerns: readonly {
    readonly id: string
    readonly name: string
    readonly hint: string
    readonly normal?: string
  }[]
  /** Said where a step is left out because a vet is treating the animal. */
  readonly treatedByVet: string
  readonly trustLine: string
  readonly notADiagnosis: string
  readonly urgencyNames: Readonly<Record<Urgency, string>>
  readonly firstLine: Readonly<Record<Urgency, string>>
  readonly basisNames: Readonly<Record<Basis, string>>
  readonly judgementLine: string
  readonly nobodyTonight: readonly string[]
  readonly money: string
  readonly suffering: string
  readonly cautions: readonly {
    readonly id: string
    readonly text: string
    /** Acts on which it bears; a caution without them is a general one. */
    readonly acts?: readonly Act[] | undefined
  }[]
}

/** A source as it is shown one tap away from a reason. */
export interface SourceWords {
  readonly title: string
  readonly by?: string
  readonly publisher?: string
  readonly year?: number
  readonly doi?: string
  readonly link?: string
  readonly class: string
  readonly read: string
}

export interface EvidenceWords {
  readonly sign: string
  readonly sources: readonly string[]
}

/** The whole compiled protocol; the browser loads its parts in a fixed order. */
export interface CompiledProtocol {
  readonly logic: Logic
  readonly frame: Frame
  /** Words of the danger phase: the first that are needed. */
  readonly dangerWords: Words
  /** Words of common, care and handover questions and of the general rules and plans. */
  readonly commonWords: Words
  readonly concernWords: Readonly<Record<string, Words>>
  readonly evidence: Readonly<Record<string, EvidenceWords>>
  readonly sources: Readonly<Record<string, SourceWords>>
  readonly followUps: FollowUps
}
