import type { Backup } from '../../shared/backup.ts'
import { BACKUP_FORMAT, BACKUP_VERSION } from '../../shared/backup-format.ts'
import type { RecordEntry } from '../../shared/record.ts'

/** What the disk holds besides the entries that can be read. */
export interface Besides {
  /** Rows of the record that cannot be read, as they are. */
  readonly unread: readonly unknown[]
  /** Events of the checks under way, as they are. */
  readonly cases: readonly unknown[]
}

/**
 * The text of a backup file of all entries. It needs nothing but what is in memory, so that it can be offered when
 * the browser keeps nothing.
 *
 * @param written when it is made, an ISO 8601 instant
 */
export function backupText(
  entries: readonly RecordEntry[],
  written: string,
  { unread, cases }: Partial<Besides> = {},
): string {
  const backup: Backup = {
    format: BACKUP_FORMAT,
    version: BACKUP_VERSION,
    written,
    entries: [...entries],
    ...(unread?.length ? { unread: [...unread] } : {}),
    ...(cases?.length ? { cases: [...cases] } : {}),
  }
  return `${JSON.stringify(backup, null, 1)}\n`
}

/** A name for the file: `duskcheck-2026-11-25.json`. */
export function backupName(day: string): string {
  return `duskcheck-${day}.json`
}
