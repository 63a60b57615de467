import words from '../../../content/file-columns.json'

/** Columns of a file of weights, by what stands in them. */
export type Column = keyof typeof words.columns
export type MassUnit = keyof typeof words.units
export type Meal = keyof typeof words.meals

const tidy = (text: string) => text.trim().toLowerCase().replace(/\.$/, '')

function lookUp<Meaning extends string>(table: Readonly<Record<Meaning, readonly string[]>>) {
  const byWord = new Map<string, Meaning>()
  for (const meaning in table) for (const word of table[meaning]) byWord.set(word, meaning)
  return (text: string): Meaning | undefined => byWord.get(tidy(text))
}

/** What a word of the file means, in any case, with spaces or a point around it; undefined where it is not known. */
export const columnNamed = lookUp(words.columns)
export const unitNamed = lookUp(words.units)
export const mealNamed = lookUp(words.meals)

/** The month, 1 to 12, of a name or the beginning of one, three letters at least. */
export function monthNamed(text: string): number | undefined {
  const name = tidy(text)
  if (name.length < 3) return undefined
  const at = words.months.findIndex(month => month.startsWith(name))
  return at < 0 ? undefined : at + 1
}

export function isWeekday(text: string): boolean {
  const name = tidy(text)
  return name.length >= 3 && words.weekdays.some(day => day.startsWith(name))
}

/** A few words for each column that must be there, for a sentence that says what is missing. */
export const EXAMPLES = {
  date: words.columns.date.slice(0, 3).join(', '),
  weight: words.columns.weight.slice(0, 2).join(', '),
  units: Object.keys(words.units).join(', '),
  meals: Object.keys(words.meals).join(', '),
} as const
