import fc from 'fast-check'
import type { RecordEntry } from '../../shared/record.ts'

/** Entries for tests; every animal is invented. */

export const instantOf = (minute: number) => new Date(Date.UTC(2026, 10, 1, 8, minute)).toISOString()

export const animalEntry = (
  entryId: string,
  animalId: string,
  minute: number,
  name = animalId,
): RecordEntry => ({
  entryId,
  written: instantOf(minute),
  animalId,
  kind: 'animal',
  animal: { name },
})

export const weighInEntry = (
  entryId: string,
  animalId: string,
  itemId: string,
  minute: number,
  massGrams = 50,
  at = instantOf(minute),
): RecordEntry => ({
  entryId,
  written: instantOf(minute),
  animalId,
  kind: 'weigh-in',
  itemId,
  weighIn: { at, massGrams },
})

export const markEntry = (
  kind: 'removed' | 'restored',
  entryId: string,
  animalId: string,
  minute: number,
  itemId?: string,
): RecordEntry => ({
  entryId,
  written: instantOf(minute),
  animalId,
  kind,
  ...(itemId === undefined ? {} : { itemId }),
})

/** `days` daily weigh-ins of one animal, and the entry that describes it. */
export function dailyWeighIns(days: number): RecordEntry[] {
  const start = Date.UTC(2016, 10, 25, 8)
  const entries: RecordEntry[] = [
    {
      entryId: 'animal',
      written: new Date(start).toISOString(),
      animalId: 'dune',
      kind: 'animal',
      animal: { name: 'Dune' },
    },
  ]
  for (let day = 0; day < days; day += 1) {
    const at = new Date(start + day * 86_400_000).toISOString()
    const weighIn = { at, massGrams: 50 + Math.round(30 * Math.sin(day / 200)) / 10, scaleStepGrams: 0.1 }
    entries.push({
      entryId: `entry-${day}`,
      written: at,
      animalId: 'dune',
      kind: 'weigh-in',
      itemId: `item-${day}`,
      weighIn,
    })
  }
  return entries
}

const few = (prefix: string, count: number) =>
  fc.integer({ min: 0, max: count - 1 }).map(number => `${prefix}${number}`)

/** A few animals and things written, moved, removed and restored, often at the same instant, each under its own id. */
export const someEntries: fc.Arbitrary<RecordEntry[]> = fc
  .array(
    fc.record({
      kind: fc.constantFrom('animal', 'weigh-in', 'event', 'removed', 'restored', 'removed-animal'),
      animalId: few('animal-', 3),
      itemId: few('item-', 4),
      minute: fc.integer({ min: 0, max: 9 }),
      atMinute: fc.integer({ min: 0, max: 9 }),
      massGrams: fc.integer({ min: 1, max: 99 }),
    }),
    { maxLength: 30 },
  )
  .map(drawn =>
    drawn.map(({ kind, animalId, itemId, minute, atMinute, massGrams }, number): RecordEntry => {
      const entryId = `entry-${(number * 7) % 31}`
      switch (kind) {
        case 'animal':
          return animalEntry(entryId, animalId, minute, `name ${massGrams}`)
        case 'weigh-in':
          return weighInEntry(entryId, animalId, itemId, minute, massGrams, instantOf(atMinute))
        case 'event':
          return {
            entryId,
            written: instantOf(minute),
            animalId,
            kind,
            itemId,
            event: { at: instantOf(atMinute), kind: 'shed' },
          }
        case 'removed-animal':
          return markEntry('removed', entryId, animalId, minute)
        default:
          return markEntry(kind === 'removed' ? 'removed' : 'restored', entryId, animalId, minute, itemId)
      }
    }),
  )
