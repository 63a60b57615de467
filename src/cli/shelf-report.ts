import type { CaseFile } from '../../shared/case-file.ts'
import type { CompiledProtocol, WeightLossFact } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Level, levelOf } from '../../shared/urgency.ts'
import type { WeightsContent } from '../../shared/weights.ts'
import { growthBand, placeInBand } from '../measure/growthBand.ts'
import { ageInDays, lifeStageOf } from '../measure/lifeStage.ts'
import { type Shelf, type ShelfAnimal, type ShelfPolicy, type ShelfRow, shelf } from '../measure/shelf.ts'
import { standingOf } from '../triage/bounds.ts'
import { type Protocol, prepare } from '../triage/prepare.ts'

/** A shelf in the order in which it needs a keeper, read with the protocol and its weights content. */
export function shelfOf(
  animals: readonly ShelfAnimal[],
  compiled: CompiledProtocol,
  weights: WeightsContent,
  now: Moment,
): Shelf {
  const protocol = prepare(compiled.logic)
  return shelf(animals, shelfPolicyOf(compiled, weights), now, animal =>
    levelOfWeights(protocol, animal, now),
  )
}

/** The numbers of content in the shape that the shelf takes; the grid worst first. */
function shelfPolicyOf({ logic }: CompiledProtocol, weights: WeightsContent): ShelfPolicy {
  const { trend, flags, weighAgain, grownFromDays, shelf: group } = weights
  const loss = logic.facts.find((fact): fact is WeightLossFact => fact.kind === 'weight-loss')
  const grid = (loss?.grid ?? [])
    .map((cell, index) => ({ id: loss?.options[index] ?? '', ...cell }))
    .reverse()
  return { ...group, weight: { ...logic.weight, trend, flags, weighAgain }, grid, grownFromDays }
}

/** What the rules give for the weights alone: the lower bound of a case file without any answer. */
function levelOfWeights(protocol: Protocol, animal: ShelfAnimal, now: Moment): Level | undefined {
  const { hatchedOn, weighIns, events } = animal
  const caseFile: CaseFile = {
    animal: hatchedOn === undefined ? {} : { hatchedOn },
    answers: {},
    weighIns,
    events,
    readings: [],
  }
  return levelOf(standingOf(protocol, caseFile, now).lower)
}

/** The shelf as `npm run trend` prints it: ids and numbers, and of the signals what to do. */
export function shelfReport(
  { rows, signals, due }: Shelf,
  compiled: CompiledProtocol,
  weights: WeightsContent,
  now: Moment,
) {
  const { species, version, hash } = compiled.logic
  return {
    now,
    protocol: { species, version, hash },
    animals: rows.map(row => animalReport(row, weights, now)),
    signals: signals.map(signal => {
      const said = weights.shelf.signals.find(({ id }) => id === signal.id)
      return said === undefined
        ? signal
        : {
            ...signal,
            reason: said.reason,
            steps: said.steps,
            nevers: said.nevers,
            urgencyBasis: said.basis,
            evidence: said.evidence,
          }
    }),
    due: due.map(({ name, place, next, isDue }) => ({
      animal: name,
      place,
      dueAt: next.dueAt,
      isDue,
      because: next.because,
    })),
  }
}

function animalReport(row: ShelfRow, { growth, grownFromDays }: WeightsContent, now: Moment) {
  const { animal, report, cell, lossPercent, atLeast, byItsWeights, bySignals, ended } = row
  const { series, comparison, trends, flags, next, highest, lowest } = report
  const ageDays = animal.hatchedOn === undefined ? undefined : ageInDays(animal.hatchedOn, now)
  const band = ageDays === undefined ? undefined : growthBand(ageDays, growth)
  const newest = comparison.newest
  return {
    animal: animal.name,
    place: animal.place,
    hatchedOn: animal.hatchedOn,
    ageDays,
    lifeStage: lifeStageOf(animal.hatchedOn, grownFromDays, now),
    // No more than a lower bound: a record alone settles nothing, and says nothing is well.
    atLeast,
    byItsWeights,
    bySignals,
    ended,
    lossBand: cell,
    lossPercent,
    readings: series.readings.length,
    notYet: series.notYet,
    outliers: series.readings.flatMap(({ at, massGrams, outlier }) => (outlier ? [{ at, massGrams }] : [])),
    comparison,
    trends,
    flags,
    next,
    highest: highest && { at: highest.at, massGrams: highest.massGrams },
    lowest: lowest && { at: lowest.at, massGrams: lowest.massGrams },
    growth: band && newest && { ...band, place: placeInBand(newest.massGrams, band) },
  }
}
