import type { Parsed } from '../../shared/parse-faults.ts'
import { type RecordEntry, recordEntrySchema } from '../../shared/record.ts'
import { type StoredEvent, storedEventSchema } from '../../shared/stored-event.ts'

// The built page has in place of this module what src/app/build/shapes-plugin.ts makes of its schemas.

/** Reads one stored event of a case. */
export function parseEvent(value: unknown): Parsed<StoredEvent> {
  const { success, data, error } = storedEventSchema.safeParse(value)
  return success ? { value: data } : { issues: error.issues }
}

/** Reads one entry of the keeper's record. */
export function parseEntry(value: unknown): Parsed<RecordEntry> {
  const { success, data, error } = recordEntrySchema.safeParse(value)
  return success ? { value: data } : { issues: error.issues }
}
