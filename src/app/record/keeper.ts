import type { CaseFile, WeighIn } from '../../../shared/case-file.ts'
import type { Frame } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord, KeeperRecord, KeptAnimal, RecordEntry } from '../../../shared/record.ts'
import { type Level, levelOf } from '../../../shared/urgency.ts'
import type { WeightsContent } from '../../../shared/weights.ts'
import type { LifeStage } from '../../measure/flags.ts'
import { lifeStageOf } from '../../measure/lifeStage.ts'
import type { LossGridCell } from '../../measure/lossCell.ts'
import type { WeightPolicy } from '../../measure/policy.ts'
import { recentWeighIns } from '../../measure/recent.ts'
import { type WeightSeries, weightSeries } from '../../measure/series.ts'
import { type WeightReport, weightReport } from '../../measure/weightReport.ts'
import type { KeeperStore, Writing } from '../../records/keeper-store.ts'
import { standingOf } from '../../triage/bounds.ts'
import type { Protocol } from '../../triage/prepare.ts'
import { caseOf } from './case-of.ts'

/** What content says of weights, and what the rules make of a record alone. */
export interface RecordContent
  extends Pick<WeightsContent, 'growth' | 'grownFromDays' | 'massIndex' | 'condition' | 'shelf'> {
  readonly policy: WeightPolicy
  /** Percent against days, worst cell first. */
  readonly grid: readonly LossGridCell[]
  /** Percent of loss at which the chart draws a line. */
  readonly lossPercents: readonly number[]
  readonly urgencyNames: Frame['urgencyNames']
  /** What the rules give for this case file at least, whatever else would be answered. */
  readonly atLeast: (caseFile: CaseFile, now: Moment) => Level | undefined
}

/** Puts together what the protocol and its file on weights say. */
export function recordContentOf(protocol: Protocol, frame: Frame, weights: WeightsContent): RecordContent {
  const { facts, weight } = protocol.logic
  const grid = facts
    .flatMap(fact =>
      fact.kind === 'weight-loss'
        ? fact.grid.map((cell, at) => ({ id: fact.options[at] ?? '', ...cell }))
        : [],
    )
    .reverse()
  const percents = new Set(grid.map(({ atLeastPercent }) => atLeastPercent))
  return {
    ...weights,
    policy: { ...weight, ...weights },
    grid,
    lossPercents: [...percents].filter(percent => percent > 0).sort((one, other) => one - other),
    urgencyNames: frame.urgencyNames,
    atLeast: (caseFile, now) => levelOf(standingOf(protocol, caseFile, now).lower),
  }
}

/** What every screen of the record is given. */
export interface Room {
  readonly record: KeeperRecord
  readonly content: RecordContent
  readonly clock: () => Moment
  readonly locale: string
  /**
   * Writes one entry (made by src/records/actions.ts), then says what was done, offers to take it back, and goes on
   * to another screen where one is named. When this resolves, the browser has confirmed the entry or it is held in
   * memory.
   */
  readonly save: (said: string, make: (writing: Writing) => RecordEntry, to?: string) => Promise<RecordEntry>
  /** Says what was done where there is no single entry to take back. */
  readonly tell: (said: string) => void
  readonly store: KeeperStore
  /** Goes to another screen of the app. */
  readonly go: (hash: string) => void
}

/** Whether it still grows, as far as its hatch date tells. */
export function lifeOf({ hatchedOn }: KeptAnimal, { grownFromDays }: RecordContent, now: Moment): LifeStage {
  return lifeStageOf(hatchedOn, grownFromDays, now)
}

/** What was worked out last of each animal: a screen is drawn more often than its weights change. */
interface Known {
  readonly content: RecordContent
  readonly minute: string
  readonly recent: readonly WeighIn[]
  report?: WeightReport
  whole?: WeightSeries
  atLeast?: { readonly level: Level | undefined }
}
const known = new WeakMap<AnimalRecord, Known>()

function knownOf(kept: AnimalRecord, content: RecordContent, now: Moment): Known {
  const before = known.get(kept)
  // Nothing changes within a minute, once a new weighing has made a new record.
  const minute = now.instant.slice(0, 16)
  if (before?.content === content && before.minute === minute) return before
  const recent = recentWeighIns(kept.weighIns, kept.events, content.policy, now.instant)
  const fresh = { content, minute, recent }
  known.set(kept, fresh)
  return fresh
}

/** Everything its weights say today; of a long record from its recent part, which says the same. */
export function reportOf(kept: AnimalRecord, content: RecordContent, now: Moment): WeightReport {
  const one = knownOf(kept, content, now)
  one.report ??= weightReport(one.recent, kept.events, lifeOf(kept.animal, content, now), content.policy, now)
  return one.report
}

/** All of its weights, made ready to draw. */
export function seriesOf(kept: AnimalRecord, content: RecordContent, now: Moment): WeightSeries {
  const one = knownOf(kept, content, now)
  if (one.recent === kept.weighIns) return reportOf(kept, content, now).series
  one.whole ??= weightSeries(kept.weighIns, kept.events, content.policy, now)
  return one.whole
}

/** What the rules give for its weights at least. */
export function levelBy(kept: AnimalRecord, content: RecordContent, now: Moment): Level | undefined {
  const one = knownOf(kept, content, now)
  one.atLeast ??= { level: content.atLeast(caseOf(kept, content.policy, now), now) }
  return one.atLeast.level
}
