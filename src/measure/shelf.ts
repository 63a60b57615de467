import type { AnimalEvent, WeighIn } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Level, rankOf } from '../../shared/urgency.ts'
import { type GroupSignal, groupSignals, type SignalPolicy, seenOf } from './groupSignals.ts'
import { lifeStageOf } from './lifeStage.ts'
import { type LossGridCell, lossCell } from './lossCell.ts'
import type { NextWeighIn } from './nextWeighIn.ts'
import type { WeightPolicy } from './policy.ts'
import { instantMilliseconds } from './time.ts'
import { type WeightReport, weightReport } from './weightReport.ts'

/** Where an animal lives, in the keeper's own words. */
export interface Place {
  readonly room?: string | undefined
  readonly rack?: string | undefined
  readonly tub?: string | undefined
}

/** One animal of a shelf. */
export interface ShelfAnimal {
  readonly name: string
  readonly place?: Place | undefined
  /** `YYYY-MM-DD`; absent when nobody knows. */
  readonly hatchedOn?: string | undefined
  readonly weighIns: readonly WeighIn[]
  readonly events: readonly AnimalEvent[]
  /** What was seen besides: kinds that the signals of content name and the record does not know. */
  readonly seen?: readonly { readonly at: string; readonly kind: string }[] | undefined
}

export interface ShelfPolicy extends SignalPolicy {
  readonly weight: WeightPolicy
  /** The grid of percent against days, worst cell first. */
  readonly grid: readonly LossGridCell[]
  readonly grownFromDays: number
  /** Kinds after which an animal is no longer weighed. */
  readonly endedBy: readonly string[]
}

/** One animal's place in the order, and why. */
export interface ShelfRow {
  readonly animal: ShelfAnimal
  readonly report: WeightReport
  /** The cell of the grid its loss falls into; undefined when there is nothing to compare. */
  readonly cell: string | undefined
  /** The greatest loss beyond the noise in percent; 0 where there is none. */
  readonly lossPercent: number
  /** What it is given at least: by its own weights, or by a signal of its group; undefined where nothing is. */
  readonly atLeast: Level | undefined
  readonly byItsWeights: Level | undefined
  /** The signals whose contact it is, by id. */
  readonly bySignals: readonly string[]
  /** The kind and time of what ended its record. */
  readonly ended: { readonly at: string; readonly kind: string } | undefined
}

/** One line of the list of who is weighed next. */
export interface DueRow {
  readonly name: string
  readonly place: Place | undefined
  readonly next: NextWeighIn
  /** Whether that time has come. */
  readonly isDue: boolean
}

export interface Shelf {
  /** By urgency, then by percent lost, then by name; ended records last. */
  readonly rows: readonly ShelfRow[]
  readonly signals: readonly GroupSignal[]
  /** By the time at which each is due, soonest first. */
  readonly due: readonly DueRow[]
}

/**
 * A shelf of animals: who comes first, what goes round, and who is weighed next. `levelOf` says what the rules of
 * the protocol give for the weights of one animal alone, which this folder does not know.
 */
export function shelf(
  animals: readonly ShelfAnimal[],
  policy: ShelfPolicy,
  now: Moment,
  levelOf: (animal: ShelfAnimal, report: WeightReport) => Level | undefined,
): Shelf {
  const weighed = animals.map(animal => {
    const life = lifeStageOf(animal.hatchedOn, policy.grownFromDays, now)
    const report = weightReport(animal.weighIns, animal.events, life, policy.weight, now)
    return {
      animal,
      report,
      cell: lossCell(report.comparison, policy.grid),
      lossPercent: report.comparison.losses.at(-1)?.lossPercent ?? 0,
      ended: endOf(animal, policy, now),
    }
  })
  const signals = groupSignals(weighed, policy, now)
  const rows = weighed.map((one): ShelfRow => {
    const byItsWeights = one.ended ? undefined : levelOf(one.animal, one.report)
    const mine = one.ended ? [] : signals.filter(({ contacts }) => contacts.includes(one.animal.name))
    const levels = [byItsWeights, ...mine.map(({ level }) => level)].filter(level => level !== undefined)
    return { ...one, byItsWeights, bySignals: mine.map(({ id }) => id), atLeast: highest(levels) }
  })
  return { rows: rows.sort(byUrgency), signals, due: dueList(rows, now) }
}

function endOf(animal: ShelfAnimal, policy: ShelfPolicy, now: Moment): ShelfRow['ended'] {
  const until = instantMilliseconds(now.instant, 'now.instant')
  return seenOf(animal).find(
    ({ at, kind }) => policy.endedBy.includes(kind) && instantMilliseconds(at, 'seen.at') <= until,
  )
}

function highest(levels: readonly Level[]): Level | undefined {
  return levels.reduce<Level | undefined>(
    (high, level) => (high === undefined || rankOf(level) > rankOf(high) ? level : high),
    undefined,
  )
}

function byUrgency(one: ShelfRow, other: ShelfRow): number {
  const rank = ({ atLeast, ended }: ShelfRow) => (ended ? -1 : atLeast === undefined ? 0 : rankOf(atLeast))
  return (
    rank(other) - rank(one) ||
    other.lossPercent - one.lossPercent ||
    byText(one.animal.name, other.animal.name)
  )
}

/** Order that no locale changes, so that every run prints the same. */
function byText(one: string, other: string): number {
  if (one === other) return 0
  return one < other ? -1 : 1
}

function dueList(rows: readonly ShelfRow[], now: Moment): DueRow[] {
  const nowMilliseconds = instantMilliseconds(now.instant, 'now.instant')
  return rows
    .filter(({ ended }) => ended === undefined)
    .map(({ animal, report }) => {
      const dueMilliseconds = instantMilliseconds(report.next.dueAt, 'dueAt')
      return {
        row: {
          name: animal.name,
          place: animal.place,
          next: report.next,
          isDue: dueMilliseconds <= nowMilliseconds,
        },
        dueMilliseconds,
      }
    })
    .sort((one, other) => one.dueMilliseconds - other.dueMilliseconds || byText(one.row.name, other.row.name))
    .map(({ row }) => row)
}
