import type { RecordEntry } from '../../shared/record.ts'

/**
 * Reading ten years of daily weigh-ins through the schema takes longer than all the rest of opening the record. This
 * recognises an everyday weigh-in by itself, and leaves whatever is not one to the schema: what it accepts, the schema
 * accepts as it is (a test holds them together), so that nothing gets in that the schema would refuse.
 */

const FIELDS = new Set(['entryId', 'written', 'animalId', 'kind', 'itemId', 'weighIn'])
const WEIGH_IN_FIELDS = new Set(['at', 'massGrams', 'scaleStepGrams'])

/** Instants in UTC on days that every month has; the schema sees to the rest. */
const EVERYDAY_INSTANT =
  /^[12]\d{3}-(?:0[1-9]|1[0-2])-(?:0[1-9]|1\d|2[0-8])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z$/

/** Whether a value is a weigh-in entry of the plain kind: no meal, no note, written and weighed on an everyday instant. */
export function isPlainWeighIn(row: unknown): row is RecordEntry {
  if (!isPlainObject(row) || row.kind !== 'weigh-in') return false
  for (const field in row) if (!FIELDS.has(field)) return false
  return (
    isId(row.entryId) &&
    isId(row.itemId) &&
    isId(row.animalId) &&
    isInstant(row.written) &&
    isMass(row.weighIn)
  )
}

function isMass(value: unknown): boolean {
  if (!isPlainObject(value)) return false
  for (const field in value) if (!WEIGH_IN_FIELDS.has(field)) return false
  const { at, massGrams, scaleStepGrams } = value
  return (
    isInstant(at) &&
    typeof massGrams === 'number' &&
    massGrams > 0 &&
    massGrams <= 500 &&
    (scaleStepGrams === undefined
      ? !('scaleStepGrams' in value)
      : typeof scaleStepGrams === 'number' && scaleStepGrams > 0 && scaleStepGrams <= 50)
  )
}

function isPlainObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype
}

function isId(value: unknown): boolean {
  return typeof value === 'string' && value.length > 0 && value.length <= 64
}

function isInstant(value: unknown): boolean {
  return typeof value === 'string' && EVERYDAY_INSTANT.test(value)
}
