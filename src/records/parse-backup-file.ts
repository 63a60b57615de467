import { type Backup, backupSchema } from '../../shared/backup.ts'
import type { Parsed } from '../../shared/parse-faults.ts'

// The built page has in place of this module what src/app/build/shapes-plugin.ts makes of its schema.

/** Reads what a backup file of the newest version holds. */
export function parseBackupFile(value: unknown): Parsed<Backup> {
  const { success, data, error } = backupSchema.safeParse(value)
  return success ? { value: data } : { issues: error.issues }
}
