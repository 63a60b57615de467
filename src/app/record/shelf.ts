import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import type { Flag, FlagName } from '../../measure/flags.ts'
import type { WeightReport } from '../../measure/weightReport.ts'
import { type Room, reportOf } from './keeper.ts'

/** One animal on the shelf. */
export interface ShelfRow {
  readonly kept: AnimalRecord
  readonly report: WeightReport
  /** Why it stands where it stands: the first of the flags below that is up; none for the rest. */
  readonly because: FlagName | undefined
  readonly lossPercent: number
  readonly isDue: boolean
}

/** What brings an animal to the front, first the most. */
const FRONT: readonly FlagName[] = ['fastLoss', 'slowLoss', 'downwardOnThree', 'youngNotGaining', 'fastGain']

const isUp = (flag: Flag) => flag.certainty !== 'cantTellYet' && flag.holds

/** All animals: by their flags, then by percent lost, then by who is due to be weighed, then by name. */
export function shelfOf({ record, content, locale }: Room, now: Moment): ShelfRow[] {
  const rows = record.animals.map(kept => {
    const report = reportOf(kept, content, now)
    return {
      kept,
      report,
      because: FRONT.find(name => isUp(report.flags[name])),
      lossPercent: report.comparison.losses.at(-1)?.lossPercent ?? 0,
      isDue: Date.parse(report.next.dueAt) <= Date.parse(now.instant),
    }
  })
  const place = ({ because }: ShelfRow) => (because === undefined ? FRONT.length : FRONT.indexOf(because))
  return rows.sort(
    (one, other) =>
      place(one) - place(other) ||
      other.lossPercent - one.lossPercent ||
      Number(other.isDue) - Number(one.isDue) ||
      one.kept.animal.name.localeCompare(other.kept.animal.name, locale),
  )
}
