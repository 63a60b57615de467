import * as z from 'zod/mini'
import { BACKUP_FORMAT, BACKUP_VERSION } from './backup-format.ts'
import { instant } from './moment.ts'
import { recordEntrySchema } from './record.ts'

/** One file that holds the keeper's whole record, so that it can be read again on any device. */

export const backupSchema = z.strictObject({
  format: z.literal(BACKUP_FORMAT),
  version: z.literal(BACKUP_VERSION),
  /** When the file was made. */
  written: instant,
  /** Every entry of the record, removed things too. */
  entries: z.array(recordEntrySchema),
  /** Rows of the record that the version which made the file could not read, as they were. */
  unread: z.optional(z.array(z.unknown())),
  /** Events of the checks under way, as they were stored. */
  cases: z.optional(z.array(z.unknown())),
})
export type Backup = z.infer<typeof backupSchema>
