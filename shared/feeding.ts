import type { Basis } from './content.ts'

/** One food animal as fed; a value that no source confirmed is absent. */
export interface Feeder {
  readonly id: string
  readonly name: string
  readonly moisturePercent?: number | undefined
  readonly proteinPercent?: number | undefined
  readonly fatPercent?: number | undefined
  readonly kilocaloriesPerGram?: number | undefined
  readonly calciumMilligramsPerKilogram?: number | undefined
  readonly phosphorusMilligramsPerKilogram?: number | undefined
  readonly source?: string | undefined
  readonly mineralSource?: string | undefined
  /** Why values are missing, where they are. */
  readonly missing?: string | undefined
  readonly note?: string | undefined
}

export interface FeedingContent {
  /** Oxygen in microlitres an hour = factor * grams ^ exponent * 10 ^ (perCelsius * T). */
  readonly rest: {
    readonly factor: number
    readonly exponent: number
    readonly perCelsius: number
    readonly source: string
    readonly joulesPerMillilitreOxygen: number
    readonly oxygenNote: string
    readonly oxygenSource: string
  }
  readonly active: {
    readonly from: number
    readonly to: number
    readonly source: string
    readonly note: string
  }
  readonly diet: {
    readonly calciumToPhosphorus: { readonly low: number; readonly high: number }
    readonly source: string
    readonly note: string
  }
  /** Dusting is never waived; why, and by which rows. */
  readonly dusting: { readonly always: string; readonly evidence: readonly string[] }
  readonly rhythm: readonly {
    readonly ages: readonly string[]
    readonly says: string
    readonly sources: readonly string[]
    readonly basis: Basis
  }[]
  readonly preySize: { readonly says: string; readonly basis: Basis }
  readonly feeders: readonly Feeder[]
}
