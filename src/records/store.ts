import type { ProtocolStamp, StoredEvent } from '../../shared/stored-event.ts'
import { casesOf, type StoredCase } from './cases.ts'
import { connectTo, type StoreOptions, type StoreStatus } from './connection.ts'
import { addMissing, keyOf } from './database.ts'
import { newId } from './ids.ts'

export type { StoreOptions, StoreStatus, WhyMemory } from './connection.ts'

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

/** A name for a new case that no other case has. */
export const newCaseId = newId

/**
 * Opens the store of cases under way: an append-only list of events in IndexedDB. What the browser refuses, loses or
 * clears is held in memory and written again when it can be.
 */
export function openStore(name = 'duskcheck', options: StoreOptions = {}): Store {
  /** All events of this visit, so that they can be written again. */
  const held = new Map<string, StoredEvent>()
  /** Keys of those that the browser has not confirmed. */
  const waiting = new Set<string>()

  /** Writes what is missing; says what has lost its place to another tab. */
  const writeAll = async (): Promise<Appended> => {
    const done = await use(database => addMissing(database, [...held.values()], waiting))
    if (!done) return { kind: 'memory' }
    const refused = done.value
    const refusedKeys = new Set(refused.map(keyOf))
    for (const key of waiting) if (!refusedKeys.has(key)) waiting.delete(key)
    if (refused.length > 0) return { kind: 'clash', refused }
    tellKept()
    return { kind: 'kept' }
  }

  const { status, onStatus, inTurn, use, tellKept, close } = connectTo(name, options, writeAll)

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
    const done = await use(database => database.getAll('events'))
    if (done && waiting.size === 0) tellKept()
    const stored = done?.value ?? []
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
    status,
    onStatus,
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
        const done = await use(database => database.clear('events'))
        if (!done) return false
        held.clear()
        waiting.clear()
        tellKept()
        return true
      }),
    close,
  }
}
