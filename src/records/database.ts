import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { RecordEntry } from '../../shared/record.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'

/** 1: events of cases under way. 2: entries of the keeper's record, and the mark of the last backup. */
const VERSION = 2

/** Up to which entry the record stands in a backup file, and when that file was made. */
export interface BackupMark {
  readonly name: 'backup'
  readonly at: string
  /** `written` of the latest entry in the file. */
  readonly writtenUpTo: string
}

interface Schema extends DBSchema {
  events: { key: [string, number]; value: StoredEvent }
  entries: { key: string; value: RecordEntry }
  marks: { key: string; value: BackupMark }
}
export type Database = IDBPDatabase<Schema>

/** What may happen to a connection from outside. */
export interface Outside {
  /** An older tab holds the database open, so this one has to wait. */
  readonly onBlocked: () => void
  /** The connection is gone: the browser cut it, or it was closed here to let another tab upgrade or delete. */
  readonly onGone: () => void
}

/** Opens the database, made anew where there is none. Rejects where the browser refuses. */
export async function openDatabase(name: string, outside: Outside): Promise<Database> {
  const database = await openDB<Schema>(name, VERSION, {
    upgrade: (opened, oldVersion) => {
      if (oldVersion < 1) opened.createObjectStore('events', { keyPath: ['caseId', 'seq'] })
      if (oldVersion < 2) {
        opened.createObjectStore('entries', { keyPath: 'entryId' })
        opened.createObjectStore('marks', { keyPath: 'name' })
      }
    },
    blocked: outside.onBlocked,
    blocking: (_current, _blocked, event) => {
      if (event.target instanceof IDBDatabase) event.target.close()
      outside.onGone()
    },
    terminated: outside.onGone,
  })
  return database
}

/** One text per event, the same for the row it is stored in. */
export function keyOf({ caseId, seq }: Pick<StoredEvent, 'caseId' | 'seq'>): string {
  return `${caseId} ${seq}`
}

/**
 * Adds in one transaction every event that is not stored yet, and resolves once it is on the disk. Where another tab
 * has taken an event's place in its case, nothing of that case is added and its waiting events come back.
 *
 * @param events everything that must be there
 * @param waiting keys of those that were never confirmed; only these can have lost their place
 */
export async function addMissing(
  database: Database,
  events: readonly StoredEvent[],
  waiting: ReadonlySet<string>,
): Promise<StoredEvent[]> {
  const transaction = database.transaction('events', 'readwrite', { durability: 'strict' })
  const fill = async () => {
    const refused: StoredEvent[] = []
    for (const caseId of new Set(events.map(event => event.caseId))) {
      const rows = await transaction.store.getAll(IDBKeyRange.bound([caseId, 0], [caseId, Infinity]))
      const stored = new Map(rows.map(row => [keyOf(row), row]))
      const own = events.filter(event => event.caseId === caseId)
      const waitingHere = own.filter(event => waiting.has(keyOf(event)))
      if (waitingHere.some(event => isTaken(stored.get(keyOf(event)), event))) {
        refused.push(...waitingHere)
        continue
      }
      for (const event of own) if (!stored.has(keyOf(event))) await transaction.store.add(event)
    }
    return refused
  }
  const [refused] = await Promise.all([fill(), transaction.done])
  return refused
}

/** Another event stands where this one belongs. The same one may stand there after a write of unknown outcome. */
function isTaken(row: StoredEvent | undefined, event: StoredEvent): boolean {
  return row !== undefined && JSON.stringify(row) !== JSON.stringify(event)
}
