import { failure, type Result, shown, success } from '../../../shared/result.ts'
import { MOST_GRAMS } from '../check-input.ts'
import { type DecimalMark, readNumber } from '../numbers.ts'
import { EXAMPLES, type MassUnit, unitNamed } from './file-words.ts'

/**
 * Grams in one of each unit. The international avoirdupois pound is 0.45359237 kg exactly, and has 16 ounces.
 */
export const GRAMS_IN: Readonly<Record<MassUnit, number>> = {
  g: 1,
  kg: 1000,
  lb: 453.59237,
  oz: 453.59237 / 16,
}

/** Converted masses are kept to this many steps in a gram; no scale for a small animal reads finer. */
const STEPS_PER_GRAM = 1000

/** A cell such as `52.5`, `52,5 g` or `1.85oz`, parted into number and unit. */
export interface MassText {
  readonly number: string
  /** The unit written behind the number; undefined where none is. */
  readonly unit: MassUnit | undefined
}

/** Parts a cell into number and unit, or says that what stands behind the number is no unit. */
export function partMass(text: string, field: string): Result<MassText> {
  const [, number = '', suffix = ''] = text.trim().match(/^([^a-z]*?)\s*([a-z].*)?$/i) ?? []
  if (suffix === '') return success({ number: text.trim(), unit: undefined })
  const unit = unitNamed(suffix)
  if (unit) return success({ number, unit })
  return failure([
    { field, value: shown(text), accepted: `a number, and behind it nothing or ${EXAMPLES.units}` },
  ])
}

/** The grams of a number in a unit: above 0 and up to the heaviest weight that is taken. */
export function readGrams(
  number: string,
  unit: MassUnit,
  field: string,
  mark: DecimalMark | undefined,
): Result<number> {
  const read = readNumber(number, field, mark)
  if (!read.ok) return read
  const grams =
    unit === 'g' ? read.value : Math.round(read.value * GRAMS_IN[unit] * STEPS_PER_GRAM) / STEPS_PER_GRAM
  if (grams > 0 && grams <= MOST_GRAMS) return success(grams)
  const given = unit === 'g' ? `${number} g` : `${number} ${unit}, ${grams} g`
  return failure([{ field, value: shown(given), accepted: `a weight above 0 g and up to ${MOST_GRAMS} g` }])
}
