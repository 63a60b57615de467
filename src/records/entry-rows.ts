import type { RecordEntry } from '../../shared/record.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'
import type { Database } from './database.ts'

/** What a write found and left. */
export interface Written {
  /** How many entries are on the disk now. */
  readonly count: number
  /** There were entries that this page has not read: another tab wrote them. */
  readonly hasUnread: boolean
}

/**
 * Writes entries in one transaction, all or none, and resolves once the browser has confirmed them. Where fewer are on
 * the disk than were confirmed before, the store was cleared under the page, and everything held is written again.
 *
 * @param fresh entries that were never confirmed
 * @param held every entry of the page, the fresh ones too
 * @param confirmed how many entries were on the disk when the page last looked
 */
export async function writeEntries(
  database: Database,
  fresh: readonly RecordEntry[],
  held: ReadonlyMap<string, RecordEntry>,
  confirmed: number,
): Promise<Written> {
  const transaction = database.transaction('entries', 'readwrite', { durability: 'strict' })
  try {
    // Asked in one go, in this order: an answer from the disk takes longer than writing the question.
    const counting = transaction.store.count()
    const writing = fresh.map(async entry => transaction.store.put(entry))
    const [before] = await Promise.all([counting, ...writing])
    const wasCleared = before < confirmed
    if (wasCleared) await Promise.all([...held.values()].map(async entry => transaction.store.put(entry)))
    // Damaged rows are not held, so only counting tells how many there are.
    const count = wasCleared ? await transaction.store.count() : before + fresh.length
    transaction.commit()
    await transaction.done
    return { count, hasUnread: !wasCleared && before > confirmed }
  } catch (error) {
    throw await undone(transaction, error)
  }
}

/** Deletes rows in one transaction, all of the record where none are named, and gives how many are left. */
export async function eraseEntries(
  database: Database,
  entryIds: readonly string[] | undefined,
): Promise<number> {
  const transaction = database.transaction(['entries', 'marks'], 'readwrite', { durability: 'strict' })
  const entries = transaction.objectStore('entries')
  if (entryIds === undefined) await Promise.all([entries.clear(), transaction.objectStore('marks').clear()])
  else await Promise.all(entryIds.map(async entryId => entries.delete(entryId)))
  const left = await entries.count()
  await transaction.done
  return left
}

/** Every row of the record and of the checks under way, as one moment has them. */
export async function allRows(
  database: Database,
): Promise<{ readonly entries: readonly RecordEntry[]; readonly events: readonly StoredEvent[] }> {
  const transaction = database.transaction(['entries', 'events'])
  const [entries, events] = await Promise.all([
    transaction.objectStore('entries').getAll(),
    transaction.objectStore('events').getAll(),
  ])
  await transaction.done
  return { entries, events }
}

/** Adds, all or none, the checks of which nothing is stored yet: two ways on of one check cannot be put together. */
export async function addCases(database: Database, events: readonly StoredEvent[]): Promise<void> {
  const transaction = database.transaction('events', 'readwrite', { durability: 'strict' })
  try {
    for (const caseId of new Set(events.map(event => event.caseId))) {
      if ((await transaction.store.count(IDBKeyRange.bound([caseId, 0], [caseId, Infinity]))) > 0) continue
      for (const event of events) if (event.caseId === caseId) await transaction.store.add(event)
    }
    await transaction.done
  } catch (error) {
    throw await undone(transaction, error)
  }
}

/** Takes back what a transaction has done so far, and gives the reason why it failed. */
async function undone(
  transaction: { readonly abort: () => void; readonly done: Promise<void> },
  error: unknown,
): Promise<unknown> {
  try {
    transaction.abort()
  } catch {
    // It was aborted already.
  }
  const end = await transaction.done.then(
    () => error,
    (reason: unknown) => reason,
  )
  // A request of a transaction that the browser aborted knows only that, the transaction knows why.
  return error instanceof DOMException && error.name === 'AbortError' ? end : error
}
