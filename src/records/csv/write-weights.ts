import type { KeeperRecord } from '../../../shared/record.ts'
import { tableText } from './table.ts'

/** Names that `readWeights` knows again; the last one tells animals of one name apart. */
const HEADER = ['animal', 'weighed at', 'weight (g)', 'scale step (g)', 'meal', 'note', 'animal id']

/**
 * The weights of the record as the text of a CSV file (RFC 4180, UTF-8), one row for each, in order of animal and time.
 * Times are instants of ISO 8601, weights are grams.
 *
 * @param animalIds of these animals only; all of them where left out
 */
export function writeWeights(record: KeeperRecord, animalIds?: readonly string[]): string {
  const wanted = animalIds && new Set(animalIds)
  const animals = record.animals.filter(({ animalId }) => wanted?.has(animalId) ?? true)
  const rows = animals.flatMap(({ animalId, animal, weighIns }) =>
    weighIns.map(({ at, massGrams, scaleStepGrams, meal, note }) => [
      animal.name,
      at,
      plainNumber(massGrams),
      scaleStepGrams === undefined ? '' : plainNumber(scaleStepGrams),
      meal ?? '',
      note ?? '',
      animalId,
    ]),
  )
  return tableText([HEADER, ...rows])
}

/** A number without an exponent, which no table of weights expects. */
function plainNumber(value: number): string {
  const text = String(value)
  return text.includes('e') ? value.toFixed(20).replace(/0+$/, '') : text
}
