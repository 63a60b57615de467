import type { KeeperRecord, RecordEntry } from '../../shared/record.ts'
import type { Fault } from '../../shared/result.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'
import { connectTo, type StoreOptions, type StoreStatus } from './connection.ts'
import type { BackupMark } from './database.ts'
import { addCases, allRows, eraseEntries, writeEntries } from './entry-rows.ts'
import { newId } from './ids.ts'
import { askToKeep, type KeepPromise, promised } from './persistence.ts'
import { readEntries } from './read-entries.ts'
import { startReplay } from './replay.ts'
import type { Besides } from './write-backup.ts'

/** What an entry is written with: its time, later than that of every entry known, and names for new things. */
export interface Writing {
  readonly written: string
  readonly newId: () => string
}

/** What came of an append: on the disk, confirmed by the browser; or in memory, and written as soon as it can be. */
export type Saved = { readonly kind: 'kept' } | { readonly kind: 'memory' }

/** What opening found: one fault for each stored entry that could not be read. Those entries stay where they are. */
export interface Opened {
  readonly record: KeeperRecord
  readonly faults: readonly Fault[]
}

/**
 * The keeper's record in this browser: entries in IndexedDB that only grow, and the record they come to. What the
 * browser refuses, loses or clears is held in memory and written again when it can be.
 */
export interface KeeperStore {
  /** The record as stored when the page opened; resolves in every case, with what memory has where there is no store. */
  readonly opened: Promise<Opened>
  /** The record as it stands: what is stored, other tabs' entries and what is in memory only. Same identity until it changes. */
  readonly record: () => KeeperRecord
  /** Every entry as it stands, for a backup or a merge. */
  readonly entries: () => readonly RecordEntry[]
  /**
   * Adds entries, all or none, in one transaction. Resolves when the browser has confirmed them or they are held in
   * memory; the listeners hear of them then. An entry with a known id adds nothing.
   *
   * @param meanwhile called with the record to come while the browser writes, to work out what will be shown
   */
  readonly append: (
    entries: readonly RecordEntry[],
    meanwhile?: (coming: KeeperRecord) => void,
  ) => Promise<Saved>
  /** For a backup: rows that cannot be read, and the checks under way, read in one transaction. Nothing where there is no store. */
  readonly besides: () => Promise<Besides>
  /** Adds checks of a backup, all or none; one of which something is stored here stays as it is. False where the browser refused. */
  readonly takeCases: (events: readonly StoredEvent[]) => Promise<boolean>
  /**
   * Deletes every entry about one animal, or everything, from the disk and from memory, here and in other tabs. It
   * cannot be undone. False where the browser did not do it; then nothing is gone.
   */
  readonly erase: (animalId?: string) => Promise<boolean>
  /** What to make the next entries with, at the clock's `now` (an ISO 8601 instant). */
  readonly writing: (now: string) => Writing
  /** Calls back when this tab or another one has changed the record, until the returned function is called. */
  readonly onChange: (listener: (record: KeeperRecord) => void) => () => void
  /** Whether everything is on the disk; why not, where it is not. As `Store.status`. */
  readonly status: () => StoreStatus
  readonly onStatus: (listener: (status: StoreStatus) => void) => () => void
  /** Whether the browser promised to keep the data. It is asked at the first weigh-in of a visit. */
  readonly keepPromise: () => KeepPromise
  readonly onKeepPromise: (listener: (promise: KeepPromise) => void) => () => void
  /** The last backup made here, for `backupDue`; undefined where none was made. */
  readonly lastBackup: () => BackupMark | undefined
  /** Notes that a backup file of the entries as they stand was handed to the keeper. */
  readonly noteBackup: (at: string) => Promise<Saved>
  /** Lets go of the database and of the other tabs. */
  readonly close: () => void
}

const idsIn = (data: unknown): string[] =>
  Array.isArray(data) ? data.filter(one => typeof one === 'string') : []

/** From how many entries on another tab's news is read whole instead of one by one. */
const READ_WHOLE_FROM = 50

/** The last millisecond that a year of four digits has: no later instant can be read again. */
const LAST_MS = Date.UTC(9999, 11, 31, 23, 59, 59, 999)

/**
 * Opens the record. Import this module lazily: it brings the schemas along. Begins to read at once; wait for
 * `opened` before showing it.
 */
export function openKeeperStore(name = 'duskcheck', options: StoreOptions = {}): KeeperStore {
  /** Every entry known here, so that all can be written again. */
  const held = new Map<string, RecordEntry>()
  /** Those that the browser has not confirmed. */
  const waiting = new Map<string, RecordEntry>()
  let replay = startReplay()
  const changeListeners = new Set<(record: KeeperRecord) => void>()
  const promiseListeners = new Set<(promise: KeepPromise) => void>()
  const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(`${name}.record`)
  /** How many entries are on the disk, damaged ones too; undefined until they were read. */
  let confirmed: number | undefined
  let latestMs = 0
  let mark: BackupMark | undefined
  let promise: KeepPromise = 'unknown'
  let wasAsked = false

  let told = replay.record()
  const take = (entries: readonly RecordEntry[]): KeeperRecord => {
    for (const entry of entries) {
      held.set(entry.entryId, entry)
      latestMs = Math.max(latestMs, Date.parse(entry.written))
    }
    return replay.add(entries)
  }
  const tellChange = () => {
    const now = replay.record()
    if (now === told) return
    told = now
    for (const listener of changeListeners) listener(now)
  }
  const hold = (entries: readonly RecordEntry[]) => {
    take(entries)
    tellChange()
  }

  /** Forgets entries for good: what is left makes the record anew. */
  const forget = (entryIds: Iterable<string>) => {
    for (const entryId of entryIds) {
      held.delete(entryId)
      waiting.delete(entryId)
    }
    replay = startReplay()
    replay.add(held.values())
    tellChange()
  }

  const tellPromise = (next: KeepPromise) => {
    if (next === promise) return
    promise = next
    for (const listener of promiseListeners) listener(next)
  }

  /** Reads what is stored and not known here; gives a fault for each damaged row. */
  const readAll = async (): Promise<readonly Fault[]> => {
    const done = await use(database =>
      Promise.all([database.getAll('entries'), database.get('marks', 'backup')]),
    )
    if (!done) return []
    const [rows, storedMark] = done.value
    const { entries, faults } = readEntries(rows.filter(row => !held.has(row.entryId)))
    confirmed = rows.length
    mark ??= storedMark
    hold(entries)
    return faults
  }

  /** Writes what waits, and everything where the store was cleared. */
  const writeAll = async (): Promise<Saved> => {
    if (confirmed === undefined) await readAll()
    const before = confirmed
    if (before === undefined) return { kind: 'memory' }
    const fresh = [...waiting.values()]
    const done = await use(database => writeEntries(database, fresh, held, before))
    if (!done) return { kind: 'memory' }
    confirmed = done.value.count
    for (const entry of fresh) waiting.delete(entry.entryId)
    tellKept()
    if (fresh.length > 0) channel?.postMessage(fresh.map(entry => entry.entryId))
    if (done.value.hasUnread) await readAll()
    return { kind: 'kept' }
  }

  const { status, onStatus, inTurn, use, tellKept, close } = connectTo(name, options, writeAll)

  /** Reads entries that another tab says it has written. */
  const readNews = async (entryIds: readonly string[]): Promise<void> => {
    const unknown = entryIds.filter(entryId => !held.has(entryId))
    if (unknown.length === 0 || confirmed === undefined) return
    if (unknown.length >= READ_WHOLE_FROM) {
      await readAll()
      return
    }
    const done = await use(database => Promise.all(unknown.map(entryId => database.get('entries', entryId))))
    const { entries } = readEntries(done?.value.filter(row => row !== undefined) ?? [])
    confirmed += entries.length
    hold(entries)
  }
  channel?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const entryIds = idsIn(data)
    const { erased } = Object(data) as { erased?: unknown }
    if (erased === undefined) void inTurn(() => readNews(entryIds))
    else
      void inTurn(async () => {
        // Before anything of it could be written again as if the browser had lost it.
        forget(idsIn(erased))
        const done = await use(database => database.count('entries'))
        confirmed = done?.value ?? confirmed
      })
  })

  const opened = inTurn(async (): Promise<Opened> => {
    const faults = await readAll()
    if (confirmed !== undefined) tellKept()
    return { record: replay.record(), faults }
  })
  void promised().then(known => {
    if (!wasAsked) tellPromise(known)
  })

  return {
    opened,
    record: () => replay.record(),
    entries: () => [...held.values()],
    append: (entries, meanwhile) =>
      inTurn(async () => {
        const fresh = entries.filter(entry => !held.has(entry.entryId))
        for (const entry of fresh) waiting.set(entry.entryId, entry)
        const saving = writeAll()
        // By then the browser has been asked to write, and the page would only wait for it.
        if (meanwhile) setTimeout(() => meanwhile(take(fresh)))
        const saved = await saving
        hold(fresh)
        if (!wasAsked && fresh.some(entry => entry.kind === 'weigh-in')) {
          wasAsked = true
          void askToKeep().then(tellPromise)
        }
        return saved
      }),
    besides: () =>
      inTurn(async (): Promise<Besides> => {
        const done = await use(allRows)
        if (!done) return { unread: [], cases: [] }
        const { entries, events } = done.value
        return { unread: entries.filter(({ entryId }) => !held.has(entryId)), cases: events }
      }),
    takeCases: events =>
      inTurn(async () => (await use(database => addCases(database, events))) !== undefined),
    erase: animalId =>
      inTurn(async () => {
        const gone = [...held.values()]
          .filter(entry => animalId === undefined || entry.animalId === animalId)
          .map(entry => entry.entryId)
        const done = await use(database => eraseEntries(database, animalId === undefined ? undefined : gone))
        if (!done) return false
        confirmed = done.value
        if (animalId === undefined) mark = undefined
        forget(gone)
        channel?.postMessage({ erased: gone })
        return true
      }),
    writing: now => {
      latestMs = Math.min(Math.max(Date.parse(now), latestMs + 1), LAST_MS)
      return { written: new Date(latestMs).toISOString(), newId }
    },
    onChange: listener => {
      changeListeners.add(listener)
      return () => changeListeners.delete(listener)
    },
    status,
    onStatus,
    keepPromise: () => promise,
    onKeepPromise: listener => {
      promiseListeners.add(listener)
      return () => promiseListeners.delete(listener)
    },
    lastBackup: () => mark,
    noteBackup: at =>
      inTurn(async (): Promise<Saved> => {
        const noted: BackupMark = { name: 'backup', at, writtenUpTo: new Date(latestMs).toISOString() }
        mark = noted
        const done = await use(database => database.put('marks', noted))
        return { kind: done ? 'kept' : 'memory' }
      }),
    close: () => {
      channel?.close()
      changeListeners.clear()
      promiseListeners.clear()
      close()
    },
  }
}
