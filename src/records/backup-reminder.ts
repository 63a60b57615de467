import type { RecordEntry } from '../../shared/record.ts'
import type { BackupMark } from './database.ts'

/** When to remind: once this many entries are in no backup file, or the oldest of them has waited this many days. */
export interface ReminderThreshold {
  readonly entries: number
  readonly days: number
}

/** Ours, not from a source: about a month of weekly weighing of a few animals. */
export const BACKUP_REMINDER: ReminderThreshold = { entries: 20, days: 30 }

export interface BackupDue {
  readonly isDue: boolean
  /** Entries that stand in no backup file made here. */
  readonly entriesSince: number
  /** Whole days since the oldest of these was written; 0 where there are none. */
  readonly waitingDays: number
}

/**
 * Whether to remind the keeper to make a backup file.
 *
 * @param mark the last backup made here, or undefined
 * @param now ISO 8601 instant
 */
export function backupDue(
  entries: readonly RecordEntry[],
  mark: Pick<BackupMark, 'writtenUpTo'> | undefined,
  now: string,
  threshold: ReminderThreshold = BACKUP_REMINDER,
): BackupDue {
  const upToMs = mark ? Date.parse(mark.writtenUpTo) : -Infinity
  const since = entries.map(({ written }) => Date.parse(written)).filter(writtenMs => writtenMs > upToMs)
  const oldestMs = since.reduce((one, other) => Math.min(one, other), Infinity)
  const waitedMs = since.length > 0 ? Math.max(0, Date.parse(now) - oldestMs) : 0
  const waitingDays = Math.floor(waitedMs / 86_400_000)
  return {
    isDue: since.length > 0 && (since.length >= threshold.entries || waitingDays >= threshold.days),
    entriesSince: since.length,
    waitingDays,
  }
}
