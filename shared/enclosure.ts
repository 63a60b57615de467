import type { Condition, EvidenceWords, SourceWords } from './compiled.ts'
import type { Act, Basis, Part } from './content.ts'
import type { FeedingContent } from './feeding.ts'

/**
 * The compiled check of enclosure and feeding: what the content says, in the form src/enclosure computes with.
 * It stands in a module of its own, logic and words together, and nothing of the triage needs it.
 */

export type ItemKind = 'choice' | 'several' | 'amount' | 'since'
export type ItemUnit = 'celsius' | 'percent' | 'centimetres' | 'hours' | 'days' | 'uv-index'

/** One thing the check asks for: a reading or a look, in the form of a question. */
export interface EnclosureItem {
  readonly id: string
  /** The screen it stands on: warmth, damp, light, home, food. */
  readonly group: string
  readonly kind: ItemKind
  readonly ask: string
  readonly help?: string | undefined
  readonly howTo: readonly string[]
  /** The five-minute way to find out, for "I don't know". */
  readonly findOut: string
  readonly options: readonly { readonly id: string; readonly text: string }[]
  readonly noneText?: string | undefined
  readonly unit?: ItemUnit | undefined
  readonly range?: { readonly from: number; readonly to: number } | undefined
  readonly presets?:
    | readonly {
        readonly text: string
        readonly hoursAgo: number
        readonly uncertaintyHours: number
      }[]
    | undefined
  readonly onlyIf?: Condition | undefined
  readonly forHandover: boolean
}

/** The numbers that the check computes from several readings, by what they are. */
export const COMPUTED = ['gradient', 'wallMargin', 'floorArea', 'energyTimesRest'] as const
export type Computed = (typeof COMPUTED)[number]

/** What a condition may name: an item's options, or the bands a number falls into. */
export interface EnclosureFact {
  readonly id: string
  readonly name: string
  readonly options: readonly string[]
  readonly ordered: boolean
  /** The item it is; absent on a finding. */
  readonly item?: number | undefined
  /** For a finding: the number that is banded, an item's id or a computed one. */
  readonly of?: string | undefined
  readonly texts: readonly string[]
  readonly bands?: readonly { readonly from?: number | undefined; readonly below?: number | undefined }[]
}

/** What one source says of a quantity. */
export interface RangeRow {
  readonly source: string
  readonly low?: number | undefined
  readonly high?: number | undefined
  readonly note: string
}

export interface UsedRange {
  readonly low?: number | undefined
  readonly high?: number | undefined
  readonly basis: Basis
  readonly conflict?: string | undefined
}

/** A measured or computed number with the ranges it is held against. */
export interface Quantity {
  readonly id: string
  readonly name: string
  readonly of: string
  readonly unit: string
  /** Decimal places that are shown. */
  readonly places: number
  /** The item that says what it was measured with. */
  readonly measuredWith?: string | undefined
  readonly rows: readonly RangeRow[]
  readonly used: UsedRange
  readonly evidence: readonly string[]
}

/** A kind of instrument and how far it may be off, where a source says so. */
export interface InstrumentKind {
  readonly id: string
  readonly name: string
  readonly accuracy: readonly {
    readonly unit: ItemUnit
    readonly plusMinus: number
    readonly source: string
    readonly note: string
  }[]
}

export interface FixStep {
  readonly id: string
  readonly text: string
  readonly act: Act
  readonly part: Part
  /** What the step touches; each asks for cautions of its own. */
  readonly touches: readonly string[]
  readonly basis: Basis
  readonly evidence: readonly string[]
}

/** Something wrong with the enclosure or the feeding: a named condition, without an urgency of its own. */
export interface EnclosureFault {
  readonly id: string
  readonly name: string
  readonly when: Condition
  readonly reason: string
  /** Concerns it can cause, the likeliest first. */
  readonly causes: readonly string[]
  readonly steps: readonly FixStep[]
  /** Ids of cautions. */
  readonly cautions: readonly string[]
  readonly recheck: { readonly look: string; readonly hours: number }
  readonly basis: Basis
  readonly conflict?: string | undefined
  readonly evidence: readonly string[]
}

/** Which items play which part in what is computed. */
export interface EnclosureRoles {
  readonly warmSurface: string
  readonly coolSide: string
  readonly nightLow: string
  readonly humidity: string
  /** Where the humidity was read, and which item holds the temperature there, by option; `hide` is no air of the room. */
  readonly humidityPlace: string
  readonly temperatureAt: Readonly<Record<string, string>>
  /** The option of `humidityPlace` that is the damp hide. */
  readonly insideHide: string
  readonly uvIndex: string
  readonly uvLamp: string
  /** Options of `uvLamp` that give UV, and those that surely give none. */
  readonly uvLamps: readonly string[]
  readonly noUvLamps: readonly string[]
  /** What lies between lamp and animal, and the options that hold the UV back. */
  readonly uvWay: string
  readonly uvBarred: readonly string[]
  readonly withD3: string
  readonly withoutD3: string
  /** Options of the two supplements items that mean hardly or never. */
  readonly rarely: readonly string[]
  /** Options that mean at every feed. */
  readonly always: readonly string[]
  readonly floorLength: string
  readonly floorWidth: string
  readonly age: string
  readonly lastChange: string
}

export interface UvZone {
  readonly zone: number
  readonly behaviour: string
  readonly average: { readonly from: number; readonly to: number }
  readonly highest: { readonly from: number; readonly to: number }
}

export interface LightContent {
  readonly zones: readonly UvZone[]
  readonly speciesZone: number
  readonly sources: readonly string[]
  readonly conflict: string
  readonly says: Readonly<
    Record<'withinAverage' | 'withinHighest' | 'aboveZone' | 'farAbove' | 'unknown', string>
  >
  readonly supplements: Readonly<
    Record<
      'uvPlain' | 'noUvWithD3' | 'uvAndD3' | 'noUvNoD3' | 'uvNoCalcium' | 'noUvPlainOnly' | 'unknown',
      string
    >
  >
  readonly basis: Basis
}

/** The place a logger's sensor lay in, and the quantities its readings are held against. */
export interface LoggerPlace {
  readonly id: string
  readonly name: string
  readonly day?: string | undefined
  readonly night?: string | undefined
  readonly humidity?: string | undefined
}

export interface LoggerWords {
  readonly date: readonly string[]
  readonly time: readonly string[]
  readonly temperature: readonly string[]
  readonly humidity: readonly string[]
  readonly celsius: readonly string[]
  readonly fahrenheit: readonly string[]
}

export interface LoggerPolicy {
  readonly dayFromHour: number
  readonly dayToHour: number
  /** A pause longer than so many usual steps is a gap. */
  readonly gapSteps: number
  /** Turns smaller than this are noise. */
  readonly swingNoiseCelsius: number
  /** A turn that takes longer than this is day and night, not the thermostat. */
  readonly longestSwingHours: number
  readonly plotBuckets: number
  readonly coldestPlausibleCelsius: number
  readonly hottestPlausibleCelsius: number
}

export interface LoggerContent {
  readonly places: readonly LoggerPlace[]
  readonly words: LoggerWords
  readonly policy: LoggerPolicy
}

/** The whole compiled check. */
export interface CompiledEnclosure {
  readonly species: string
  readonly version: string
  readonly groups: readonly { readonly id: string; readonly name: string }[]
  readonly items: readonly EnclosureItem[]
  /** Items first, each at its own index, then the findings. */
  readonly facts: readonly EnclosureFact[]
  readonly quantities: readonly Quantity[]
  readonly instruments: readonly InstrumentKind[]
  /** What is said of a reading whose instrument may or may not explain it. */
  readonly instrumentSays: Readonly<Record<'yes' | 'no' | 'not-known', string>>
  readonly faults: readonly EnclosureFault[]
  readonly cautions: readonly { readonly id: string; readonly text: string }[]
  readonly roles: EnclosureRoles
  readonly light: LightContent
  readonly logger: LoggerContent
  readonly feeding: FeedingContent
  /** The rows and sources that this check cites, so that each stands one tap away. */
  readonly evidence: Readonly<Record<string, EvidenceWords>>
  readonly sources: Readonly<Record<string, SourceWords>>
}
