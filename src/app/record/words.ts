import type { AnimalEvent } from '../../../shared/case-file.ts'
import type { KeptAnimal } from '../../../shared/record.ts'

/** What the record's screens say over and over. */

/** Numbers with their units, as the locale writes them. */
export function numberWords(locale: string) {
  const number = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 })
  const signed = new Intl.NumberFormat(locale, { maximumFractionDigits: 1, signDisplay: 'exceptZero' })
  return {
    grams: (value: number) => `${number.format(value)} g`,
    percent: (value: number, withSign = false) =>
      `${(withSign ? signed : number).format(value).replace('-', '\u2212')} %`,
  }
}

/** A day as a list names it: "12 Nov 2026". */
export function dayWords(instant: string, zone: string, locale: string): string {
  return new Intl.DateTimeFormat(locale, {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: zone,
  }).format(new Date(instant))
}

/** Each kind of event as a thing that happened. */
export const eventNames: Readonly<Record<AnimalEvent['kind'], string>> = {
  'tail-lost': 'Lost its tail',
  'eggs-laid': 'Laid eggs',
  shed: 'Shed its skin',
  meal: 'Meal',
  dropping: 'Dropping',
  'new-home': 'New home',
  'winter-rest-began': 'Winter rest began',
  'winter-rest-ended': 'Winter rest ended',
  treated: 'Treatment',
}

/** Where it lives, widest first: "Cellar, rack 2, tub 7". */
export function placeWords({ place }: KeptAnimal): string {
  return [place?.room, place?.rack, place?.tub].filter(part => part !== undefined && part !== '').join(', ')
}
