import type { AnimalEvent } from '../../../shared/case-file.ts'
import type { KeptAnimal } from '../../../shared/record.ts'
import type { BackupDue } from '../../records/backup-reminder.ts'
import type { WhyMemory } from '../../records/connection.ts'

/** What the record's screens say over and over. */

/** What is made once and used again: a formatter takes longer to make than a screen of numbers to write. */
function remembered<Made>(make: (locale: string, zone: string) => Made) {
  const made = new Map<string, Made>()
  return (locale: string, zone = ''): Made => {
    const key = `${locale} ${zone}`
    const known = made.get(key)
    if (known !== undefined) return known
    const fresh = make(locale, zone)
    made.set(key, fresh)
    return fresh
  }
}

/** Numbers with their units, as the locale writes them. */
export const numberWords = remembered(locale => {
  const number = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 })
  return {
    grams: (value: number) => `${number.format(value)} g`,
    percent: (value: number, withSign = false) => {
      const words = number.format(value).replace('-', '\u2212')
      // No sign before what rounds to nothing.
      return `${withSign && value > 0 && words !== number.format(0) ? '+' : ''}${words.replace(/^\u2212(?=0$)/, '')} %`
    },
  }
})

const dayFormat = remembered(
  (locale, timeZone) =>
    new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone }),
)

/** A day as a list names it: "12 Nov 2026". */
export function dayWords(instant: string, zone: string, locale: string): string {
  return dayFormat(locale, zone).format(Date.parse(instant))
}

/** Each kind of event as a thing that happened. */
export const eventNames: Readonly<Record<AnimalEvent['kind'], string>> = {
  'tail-lost': 'Lost its tail',
  'eggs-laid': 'Laid eggs',
  shed: 'Shed its skin',
  meal: 'Meal',
  dropping: 'Dropping',
  'loose-droppings': 'Loose droppings',
  'new-home': 'New home',
  'winter-rest-began': 'Winter rest began',
  'winter-rest-ended': 'Winter rest ended',
  treated: 'Treatment',
  died: 'Died',
}

/** Where it lives, widest first: "Cellar, rack 2, tub 7". */
export function placeWords({ place }: KeptAnimal): string {
  return [place?.room, place?.rack, place?.tub].filter(part => part !== undefined && part !== '').join(', ')
}

/** "1 entry", "23 entries". */
export function countWords(entries: number): string {
  return entries === 1 ? '1 entry' : `${entries} entries`
}

/** "23 entries are in no backup file yet." */
export function dueWords({ entriesSince }: BackupDue): string {
  return `${countWords(entriesSince)} ${entriesSince === 1 ? 'is' : 'are'} in no backup file yet.`
}

/** Why the record is in memory only, and what can be done. */
export const memoryWords: Readonly<Record<WhyMemory, string>> = {
  refused: 'This browser keeps nothing at the moment. A private window or its settings may be why.',
  blocked: 'An older tab of this page holds the record. Close that tab.',
  lost: 'This browser has let go of the record. It is written again as soon as it can be.',
  full: 'This device has no room left. Make room, or save a file.',
  'newer-version': 'A newer version of this page has opened the record. Load this page again.',
}
