import type { ItemUnit } from '../../shared/enclosure.ts'
import type { ReadingUnit } from '../../shared/reading-units.ts'

/** Degrees Fahrenheit to degrees Celsius, exactly: C = (F - 32) * 5 / 9 (UCUM `[degF]`). */
export function celsiusFromFahrenheit(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9
}

/** Inches to centimetres, exactly: 2.54 (UCUM `[in_i]`). */
export function centimetresFromInches(inches: number): number {
  return inches * 2.54
}

/** An amount in an item's own unit, or undefined where the unit given is of another kind. */
export function inItemUnit(amount: number, given: ReadingUnit, wanted: ItemUnit): number | undefined {
  if (given === wanted) return amount
  if (given === 'fahrenheit' && wanted === 'celsius') return celsiusFromFahrenheit(amount)
  if (given === 'inches' && wanted === 'centimetres') return centimetresFromInches(amount)
  return undefined
}

/** Rounded half up to a number of decimal places, so that results of exp and log compare and print the same everywhere. */
export function rounded(value: number, places: number): number {
  const scale = 10 ** places
  return Math.round(value * scale) / scale + 0
}
