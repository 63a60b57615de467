import type { Backup } from '../../shared/backup.ts'
import { BACKUP_FORMAT, BACKUP_VERSION } from '../../shared/backup-format.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { failure, type Result, shown, success } from '../../shared/result.ts'
import { MIGRATIONS, type Migrations, migrate } from './backup-migrations.ts'
import { type GivenFile, readText } from './file-text.ts'
import { parseBackupFile } from './parse-backup-file.ts'
import { shortenFaults } from './shorten-faults.ts'

/**
 * Reads a backup file whole, or says what is wrong with it. Nothing is written here: show what it would change
 * (`previewEntries`), then append its entries.
 */
export async function readBackup(file: GivenFile): Promise<Result<Backup>> {
  const text = await readText(file)
  return text.ok ? parseBackup(text.value) : text
}

/** Reads the text of a backup file. @param migrations other steps than the built-in ones, for tests */
export function parseBackup(text: string, migrations: Migrations = MIGRATIONS): Result<Backup> {
  const parsed = parseJson(text)
  if (!parsed.ok) return parsed
  const file = parsed.value
  const refuse = (field: string, value: unknown, accepted: string) =>
    failure<Backup>([{ field, value: shown(value), accepted }])
  if (!isObject(file) || file.format !== BACKUP_FORMAT)
    return refuse('file', text.slice(0, 40), 'a backup file made by Duskcheck')
  const { version } = file
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0)
    return refuse('version', version ?? 'missing', `a version from 1 to ${BACKUP_VERSION}`)
  if (version > BACKUP_VERSION)
    return refuse(
      'version',
      version,
      `up to version ${BACKUP_VERSION}; a newer Duskcheck made this file, so load the page again and retry`,
    )
  const migrated = migrate(file, version, BACKUP_VERSION, migrations)
  if (!migrated) return refuse('version', version, `a version from 1 to ${BACKUP_VERSION}`)
  const checked = parseBackupFile(migrated)
  if ('value' in checked) return success(checked.value)
  return failure(shortenFaults(faultsOf(checked, migrated, 'file'), 'a backup file as Duskcheck made it'))
}

function parseJson(text: string): Result<unknown> {
  try {
    return success(JSON.parse(text))
  } catch {
    const end = text.trimEnd()
    const isBegun = end.startsWith('{') && text.includes(BACKUP_FORMAT)
    if (isBegun && !end.endsWith('}'))
      return failure([
        {
          field: 'file',
          value: `ends with ${shown(end.slice(-30))}`,
          accepted: 'a whole backup file; this one breaks off, so copy it again',
        },
      ])
    return failure([
      { field: 'file', value: shown(text.slice(0, 40)), accepted: 'a backup file made by Duskcheck' },
    ])
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
