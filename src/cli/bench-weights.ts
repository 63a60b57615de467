import { TheilSenRegression } from 'ml-regression-theil-sen'
import type { WeighIn } from '../../shared/case-file.ts'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import type { WeightsContent } from '../../shared/weights.ts'
import { kendallTest } from '../measure/mannKendall.ts'
import { theilSen } from '../measure/theilSen.ts'
import { weightReport } from '../measure/weightReport.ts'
import { readShelf } from './read-shelf.ts'
import { shelfOf, shelfReport } from './shelf-report.ts'

/** The speeds of reading weight records, on invented weights that are the same in every run. */

const NOW = { instant: '2026-11-25T02:10:00.000Z', zone: 'Europe/London' }
const DAY_MS = 86_400_000

/** Numbers from 0 to 1 that are the same in every run (a linear congruential generator). */
function sameDice(): () => number {
  let state = 20_261_125
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

/** Daily weighings up to `NOW` of an invented animal: about 60 g, swings of a percent, slow waves, tenths of grams. */
function dailyWeighIns(days: number): WeighIn[] {
  const dice = sameDice()
  return Array.from({ length: days }, (_, index) => {
    const noise = (dice() + dice() + dice() - 1.5) * 1.2
    return {
      at: new Date(Date.parse(NOW.instant) - (days - index) * DAY_MS).toISOString(),
      massGrams: Math.round(10 * (60 + 3 * Math.sin(index / 90) + noise)) / 10,
      scaleStepGrams: 0.1,
    }
  })
}

/** The middle of an odd number of timings in milliseconds. */
function middle(times: readonly number[]): number {
  return [...times].sort((one, other) => one - other)[times.length >> 1] ?? Number.NaN
}

function timed(run: () => unknown, calls: number): number {
  const began = performance.now()
  for (let call = 0; call < calls; call += 1) run()
  return (performance.now() - began) / calls
}

/**
 * The fit of the last 90 days with limits and test against the slope alone as the library fits it: the same readings,
 * turn by turn in one run, so that a busy machine slows both.
 */
export function windowRatio(): number {
  const readings = dailyWeighIns(91)
  const days = readings.map((_, index) => index)
  const logarithms = readings.map(({ massGrams }) => Math.log(massGrams))
  const ours = () => {
    const line = theilSen(days, logarithms, 0.95)
    return line && kendallTest(line.s, line.tieSizes)
  }
  const theirs = () => new TheilSenRegression(days, logarithms).slope
  timed(ours, 3000)
  timed(theirs, 3000)
  const ratios = Array.from({ length: 41 }, () => timed(ours, 200) / timed(theirs, 200))
  return middle(ratios)
}

/** All windows and flags with ten years of daily weighings on record, in milliseconds. */
export function tenYears(compiled: CompiledProtocol, weights: WeightsContent): number {
  const { trend, flags, weighAgain } = weights
  const policy = { ...compiled.logic.weight, trend, flags, weighAgain }
  const weighIns = dailyWeighIns(3650)
  const report = () => weightReport(weighIns, [], 'grown', policy, NOW)
  timed(report, 10)
  return middle(Array.from({ length: 31 }, () => timed(report, 1)))
}

/** 300 animals with 200 weighings each, from the text of a CSV file to the shelf as it is printed, in milliseconds. */
export function wholeShelf(compiled: CompiledProtocol, weights: WeightsContent): number {
  const rows = dailyWeighIns(200).flatMap(({ at, massGrams }, day) =>
    Array.from(
      { length: 300 },
      (_, animal) =>
        `Invented ${animal},Room ${animal % 4},Rack ${animal % 12},${animal},${at.slice(0, 10)},${(massGrams + ((animal * day) % 7) / 10).toFixed(1)}`,
    ),
  )
  const text = ['animal,room,rack,tub,date,weight (g)', ...rows].join('\r\n')
  const run = () => {
    const animals = readShelf(text, { file: '-', now: NOW, events: [] })
    if (!animals.ok)
      throw new Error(animals.faults.map(({ field, value }) => `${field}: ${value}`).join('\n'))
    return JSON.stringify(shelfReport(shelfOf(animals.value, compiled, weights, NOW), compiled, weights, NOW))
  }
  run()
  return middle(Array.from({ length: 5 }, () => timed(run, 1)))
}
