import type { ProtocolStamp, StoredEvent } from '../../shared/stored-event.ts'
import { casesOf, type StoredCase } from './cases.ts'
import { addMissing, type Database, keyOf, openDatabase } from './database.ts'

/** Why events are in memory only. */
export type WhyMemory =
  /** The browser gives no store: private window, settings, an error of its own. */
  | 'refused'
  /** Another tab of an older version holds the store. */
  | 'blocked'
  /** The connection went while the page was open: cleared, deleted or cut off. */
  | 'lost'
  | 'full'
  /** A newer version of the app has changed the store: this page must be loaded again. */
  | 'newer-version'

export type StoreStatus =
  | { readonly kind: 'opening' }
  /** Everything is written. `again` after a time in which it was not. */
  | { readonly kind: 'kept'; readonly again: boolean }
  | { readonly kind: 'memory'; readonly why: WhyMemory }

/** What came of an append. */
export type Appended =
  /** On the disk, confirmed by the browser. */
  | { readonly kind: 'kept' }
  /** In memory, and written as soon as the browser lets us; the status says why. */
  | { readonly kind: 'memory' }
  /** Another tab went on with this case. Nothing was written: load the case again. `refused` is what has no place. */
  | { readonly kind: 'clash'; readonly refused: readonly StoredEvent[] }

/** What the caller says of an event; the store adds its place. */
export type NewEvent = StoredEvent extends infer Event
  ? Event extends StoredEvent
    ? Omit<Event, 'caseId' | 'seq'>
    : never
  : never

export interface Store {
  readonly status: () => StoreStatus
  /** Calls back at every change of the status until the returned function is called. */
  readonly onStatus: (listener: (status: StoreStatus) => void) => () => void
  /** Adds an event at a place of its case. Resolves when the browser has confirmed it or it is held in memory. */
  readonly append: (caseId: string, seq: number, event: NewEvent) => Promise<Appended>
  /** The case that was gone on with last, finished or not, among those that are wanted. */
  readonly newest: (isWanted?: (one: StoredCase) => boolean) => Promise<StoredCase | undefined>
  readonly finish: (caseId: string, at: string, protocol: ProtocolStamp) => Promise<Appended>
  /** Every case, the one gone on with last first. */
  readonly cases: () => Promise<readonly StoredCase[]>
  /** Everything stored or held, as the text of a JSON file. */
  readonly exportText: () => Promise<string>
  /** Deletes every case, stored and held; false where the browser does not let us. */
  readonly deleteAll: () => Promise<boolean>
  /** Lets go of the database. */
  readonly close: () => void
}

export interface StoreOptions {
  /** How often the browser is asked again while events are in memory only. */
  readonly retryAfterMs?: number
  /** How long an open may take before the page goes on without it. */
  readonly openWithinMs?: number
}

/** How long an open is waited for once the page has gone on without it. */
const WAIT_AGAIN_MS = 250

/** A name for a new case that no other case has. */
export function newCaseId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), byte =>
    byte.toString(16).padStart(2, '0'),
  ).join('')
}

/**
 * Opens the store of cases under way: an append-only list of events in IndexedDB. What the browser refuses, loses or
 * clears is held in memory and written again when it can be.
 */
export function openStore(
  name = 'duskcheck',
  { retryAfterMs = 5000, openWithinMs = 3000 }: StoreOptions = {},
): Store {
  /** All events of this visit, so that they can be written again. */
  const held = new Map<string, StoredEvent>()
  /** Keys of those that the browser has not confirmed. */
  const waiting = new Set<string>()
  const listeners = new Set<(status: StoreStatus) => void>()
  let status: StoreStatus = { kind: 'opening' }
  let database: Database | undefined
  let opening: Promise<Database> | undefined
  let retry: ReturnType<typeof setTimeout> | undefined
  let closed = false

  const tell = (next: StoreStatus) => {
    if (JSON.stringify(next) === JSON.stringify(status)) return
    status = next
    for (const listener of listeners) listener(status)
  }
  const tellKept = () => {
    if (status.kind !== 'kept') tell({ kind: 'kept', again: status.kind === 'memory' })
  }
  const goOnInMemory = (why: WhyMemory, retryMs = retryAfterMs) => {
    if (closed) return
    tell({ kind: 'memory', why })
    clearTimeout(retry)
    retry = setTimeout(() => void inTurn(writeAll), retryMs)
  }
  const onGone = () => {
    database = undefined
    goOnInMemory('lost', 0)
  }

  const connect = async (): Promise<Database> => {
    if (database) return database
    // An open that hangs goes on; its turn comes when it is through, and until then nobody waits for it again.
    opening ??= openDatabase(name, { onBlocked: () => goOnInMemory('blocked'), onGone })
      .then(opened => {
        if (closed) opened.close()
        database = opened
        if (status.kind === 'memory') goOnInMemory(status.why, 0)
        return opened
      })
      .finally(() => {
        opening = undefined
      })
    return within(opening, status.kind === 'memory' ? Math.min(openWithinMs, WAIT_AGAIN_MS) : openWithinMs)
  }

  /** Writes what is missing; says what has lost its place to another tab. */
  const writeAll = async (): Promise<Appended> => {
    for (const isLastTry of [false, true]) {
      try {
        const refused = await addMissing(await connect(), [...held.values()], waiting)
        const refusedKeys = new Set(refused.map(keyOf))
        for (const key of waiting) if (!refusedKeys.has(key)) waiting.delete(key)
        if (refused.length > 0) return { kind: 'clash', refused }
        clearTimeout(retry)
        tellKept()
        return { kind: 'kept' }
      } catch (error) {
        const why = whyOf(error, database !== undefined)
        // A connection that was cut off under us: one more try with a new one.
        const cutOff = why === 'lost'
        database?.close()
        database = undefined
        if (cutOff && !isLastTry) continue
        goOnInMemory(why)
        return { kind: 'memory' }
      }
    }
    return { kind: 'memory' }
  }

  let last: Promise<unknown> = Promise.resolve()
  /** One piece of work after the other, in the order asked. */
  const inTurn = <Value>(work: () => Promise<Value>): Promise<Value> => {
    const turn = last.then(work)
    last = turn.catch(() => undefined)
    return turn
  }

  const append = (caseId: string, seq: number, event: NewEvent) =>
    inTurn(async (): Promise<Appended> => {
      const stored: StoredEvent = { ...event, caseId, seq }
      const key = keyOf(stored)
      const before = held.get(key)
      if (before && JSON.stringify(before) !== JSON.stringify(stored))
        return { kind: 'clash', refused: [stored] }
      if (!before) {
        held.set(key, stored)
        waiting.add(key)
      }
      const appended = await writeAll()
      if (appended.kind !== 'clash') return appended
      const own = appended.refused.filter(refused => refused.caseId === caseId)
      if (own.length === 0) return { kind: 'kept' }
      for (const refused of own) forget(refused)
      return { kind: 'clash', refused: own }
    })

  const forget = (event: StoredEvent) => {
    held.delete(keyOf(event))
    waiting.delete(keyOf(event))
  }

  /** Rows of the database, damaged ones too; what is held stands in for rows that are not there. */
  const rows = async (): Promise<unknown[]> => {
    let stored: readonly StoredEvent[] = []
    try {
      stored = await (await connect()).getAll('events')
      if (waiting.size === 0) tellKept()
    } catch (error) {
      const why = whyOf(error, database !== undefined)
      database?.close()
      database = undefined
      goOnInMemory(why)
    }
    const found = new Set(stored.map(keyOf))
    return [...stored, ...[...held.values()].filter(event => !found.has(keyOf(event)))]
  }

  const cases = () =>
    inTurn(async () => {
      // Only what was stored needs reading, so the first screens do without the schemas.
      const { readRows } = await import('./rows.ts')
      return casesOf(await rows(), readRows)
    })

  return {
    status: () => status,
    onStatus: listener => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    append,
    cases,
    newest: async (isWanted = () => true) => {
      const newest = (await cases()).find(isWanted)
      // Held from now on, so that it can be written again if the store is cleared.
      for (const event of newest?.events ?? []) if (!held.has(keyOf(event))) held.set(keyOf(event), event)
      return newest
    },
    finish: async (caseId, at, protocol) => {
      const found = (await cases()).find(one => one.caseId === caseId)
      if (found?.finished) return { kind: 'kept' }
      return append(caseId, found?.nextSeq ?? 0, { kind: 'finished', at, protocol })
    },
    exportText: async () => {
      const events = (await cases()).flatMap(one => one.events)
      return `${JSON.stringify({ format: 'duskcheck-events', version: 1, events }, null, 2)}\n`
    },
    deleteAll: () =>
      inTurn(async () => {
        try {
          await (await connect()).clear('events')
        } catch {
          return false
        }
        held.clear()
        waiting.clear()
        tellKept()
        return true
      }),
    close: () => {
      closed = true
      clearTimeout(retry)
      listeners.clear()
      database?.close()
      database = undefined
    },
  }
}

class TookTooLong extends Error {
  override readonly name = 'TookTooLong'
}

function within<Value>(work: Promise<Value>, limitMs: number): Promise<Value> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new TookTooLong()), limitMs)
    work.then(resolve, reject).finally(() => clearTimeout(timer))
  })
}

function whyOf(error: unknown, wasOpen: boolean): WhyMemory {
  if (error instanceof TookTooLong) return 'blocked'
  const { name } = Object(error) as { name?: unknown }
  if (name === 'QuotaExceededError') return 'full'
  if (name === 'VersionError') return 'newer-version'
  return wasOpen ? 'lost' : 'refused'
}
