/** The name and version of a backup file; apart from its schema, so that the page writes one without it. */

export const BACKUP_FORMAT = 'duskcheck-backup'

/** Raised by one whenever the form of the file changes, together with a step in `src/records/backup-migrations.ts`. */
export const BACKUP_VERSION = 1
