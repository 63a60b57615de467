import type { Logic } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord, KeeperRecord, KeptAnimal, RecordEntry } from '../../../shared/record.ts'
import type { LifeStage } from '../../measure/flags.ts'
import type { GrowthData } from '../../measure/growthBand.ts'
import type { WeightPolicy } from '../../measure/policy.ts'
import { type WeightReport, weightReport } from '../../measure/weightReport.ts'
import type { KeeperStore, Writing } from '../../records/keeper-store.ts'
import { calendarDaysBetween } from '../../triage/calendar.ts'

/** What content says of weights, and where the lines of the chart stand. */
export interface WeightContent {
  readonly policy: WeightPolicy
  readonly growth?: GrowthData | undefined
  /** Percent of loss at which the chart draws a line. */
  readonly lossPercents: readonly number[]
  /** From this age on it counts as grown; absent: never said. */
  readonly grownFromDays?: number | undefined
}

/** Takes the lines and the age from the protocol; policy and growth come from the same content. */
export function weightContentOf(logic: Logic, policy: WeightPolicy, growth?: GrowthData): WeightContent {
  const percents = logic.facts.flatMap(fact => (fact.kind === 'weight-loss' ? fact.grid : []))
  return {
    policy,
    growth,
    lossPercents: [...new Set(percents.map(({ atLeastPercent }) => atLeastPercent))]
      .filter(percent => percent > 0)
      .sort((one, other) => one - other),
    grownFromDays: logic.questions.flatMap(({ fromAgeDays }) => fromAgeDays?.at(-1) ?? [])[0],
  }
}

/** What every screen of the record is given. */
export interface Room {
  readonly record: KeeperRecord
  readonly content: WeightContent
  readonly clock: () => Moment
  readonly locale: string
  /**
   * Writes one entry (made by src/records/actions.ts), then says what was done and offers to take it back. When this
   * resolves, the browser has confirmed the entry or it is held in memory.
   */
  readonly save: (said: string, make: (writing: Writing) => RecordEntry) => Promise<RecordEntry>
  readonly store: KeeperStore
  /** Goes to another screen of the app. */
  readonly go: (hash: string) => void
}

/** Whether it still grows, as far as its hatch date tells. */
export function lifeOf({ hatchedOn }: KeptAnimal, grownFromDays: number | undefined, now: Moment): LifeStage {
  if (hatchedOn === undefined || grownFromDays === undefined) return 'unknown'
  const days = calendarDaysBetween(Date.parse(`${hatchedOn}T12:00:00Z`), Date.parse(now.instant), now.zone)
  return days < grownFromDays ? 'young' : 'grown'
}

/** The last report of each animal: a screen is drawn more often than its weights change. */
const reports = new WeakMap<
  AnimalRecord,
  { readonly policy: WeightPolicy; readonly now: string; readonly report: WeightReport }
>()

/** Everything its weights say today. */
export function reportOf(
  kept: AnimalRecord,
  { policy, grownFromDays }: WeightContent,
  now: Moment,
): WeightReport {
  const known = reports.get(kept)
  // Nothing in a report changes within a minute.
  const minute = now.instant.slice(0, 16)
  if (known?.policy === policy && known.now === minute) return known.report
  const life = lifeOf(kept.animal, grownFromDays, now)
  const report = weightReport(kept.weighIns, kept.events, life, policy, now)
  reports.set(kept, { policy, now: minute, report })
  return report
}
