import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { type IDBPDatabase, openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { logOf } from '../../src/records/log.ts'
import { newCaseId, openStore, type Store } from '../../src/records/store.ts'
import { answered, at, began, choice, PROTOCOL } from './fixtures.ts'

const QUICK = { retryAfterMs: 20, openWithinMs: 100 }
const skin = answered(choice('skin', 'pale'), 1)
const eyes = answered(choice('eyes', 'open'), 2)

let stores: Store[] = []
let databases: IDBPDatabase[] = []

function open(): Store {
  const store = openStore('test', QUICK)
  stores.push(store)
  return store
}

/** The database as something else than the store sees it. */
async function raw(): Promise<IDBPDatabase> {
  const database = await openDB('test')
  databases.push(database)
  return database
}

const refuse = () =>
  vi.spyOn(indexedDB, 'open').mockImplementation(() => {
    throw new DOMException('no', 'SecurityError')
  })

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(() => {
  for (const one of [...stores, ...databases]) one.close()
  stores = []
  databases = []
  vi.restoreAllMocks()
})

describe('kept', () => {
  test('what was appended is there for the next visit', async () => {
    const first = open()
    expect(await first.append('one', 0, began())).toEqual({ kind: 'kept' })
    expect(await first.append('one', 1, skin)).toEqual({ kind: 'kept' })
    first.close()
    const found = await open().newest()
    expect(found).toMatchObject({ caseId: 'one', nextSeq: 2, finished: false, faults: [] })
    expect(logOf(found?.events ?? [])).toEqual([choice('skin', 'pale')])
  })

  test('a transaction asks for the disk', async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction')
    await open().append('one', 0, began())
    expect(transaction).toHaveBeenCalledWith('events', 'readwrite', { durability: 'strict' })
  })

  test('the newest case is the one gone on with last, finished or not', async () => {
    const store = open()
    await store.append('old', 0, began(0))
    await store.append('new', 0, began(5))
    await store.append('old', 1, answered(choice('skin', 'pale'), 9))
    expect((await store.newest())?.caseId).toBe('old')
    expect(await store.finish('old', at(10), PROTOCOL)).toEqual({ kind: 'kept' })
    expect(await store.newest()).toMatchObject({ caseId: 'old', finished: true })
    expect((await store.cases()).map(({ caseId, finished }) => [caseId, finished])).toEqual([
      ['old', true],
      ['new', false],
    ])
  })

  test('the file holds every event', async () => {
    const store = open()
    await store.append('one', 0, began())
    await store.append('one', 1, skin)
    expect(JSON.parse(await store.exportText())).toEqual({
      format: 'duskcheck-events',
      version: 1,
      events: [
        { ...began(), caseId: 'one', seq: 0 },
        { ...skin, caseId: 'one', seq: 1 },
      ],
    })
  })

  test('cases get names of their own', () => {
    expect(new Set(Array.from({ length: 100 }, newCaseId)).size).toBe(100)
  })
})

describe('two tabs', () => {
  test('never overwrite each other: the later is told to load the case again', async () => {
    const [one, other] = [open(), open()]
    await one.append('one', 0, began())
    expect((await other.newest())?.nextSeq).toBe(1)
    await one.append('one', 1, skin)
    const refused = { ...eyes, caseId: 'one', seq: 1 }
    expect(await other.append('one', 1, eyes)).toEqual({ kind: 'clash', refused: [refused] })
    const again = await other.newest()
    expect(logOf(again?.events ?? [])).toEqual([choice('skin', 'pale')])
    expect(await other.append('one', again?.nextSeq ?? 0, eyes)).toEqual({ kind: 'kept' })
    expect(logOf((await one.newest())?.events ?? [])).toHaveLength(2)
  })

  test('the same event twice is no clash', async () => {
    const store = open()
    await store.append('one', 0, began())
    expect(await store.append('one', 0, began())).toEqual({ kind: 'kept' })
  })

  test('at the same moment exactly one gets the place', async () => {
    const results = await Promise.all([open().append('one', 0, skin), open().append('one', 0, eyes)])
    expect(results.map(({ kind }) => kind).sort()).toEqual(['clash', 'kept'])
  })
})

describe('memory', () => {
  test('a refused store is said, gone on from and written again when it can be', async () => {
    const refused = refuse()
    const store = open()
    const seen: string[] = []
    store.onStatus(({ kind }) => seen.push(kind))
    expect(await store.append('one', 0, began())).toEqual({ kind: 'memory' })
    expect(store.status()).toEqual({ kind: 'memory', why: 'refused' })
    await store.append('one', 1, skin)
    expect((await store.newest())?.nextSeq).toBe(2)
    expect(JSON.parse(await store.exportText()).events).toHaveLength(2)
    refused.mockRestore()
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
    expect(seen).toEqual(['memory', 'kept'])
    expect((await open().newest())?.events).toHaveLength(2)
  })

  test('no IndexedDB at all', async () => {
    vi.stubGlobal('indexedDB', undefined)
    expect(await open().append('one', 0, began())).toEqual({ kind: 'memory' })
  })

  test('a database deleted under us is written again with all that was kept', async () => {
    const store = open()
    await store.append('one', 0, began())
    indexedDB.deleteDatabase('test')
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
    expect(await (await raw()).count('events')).toBe(1)
  })

  test('rows cleared under us are written again with the next event, those of a resumed case too', async () => {
    const first = open()
    await first.append('one', 0, began())
    await first.append('one', 1, skin)
    first.close()
    const store = open()
    await store.newest()
    await (await raw()).clear('events')
    expect(await store.append('one', 2, eyes)).toEqual({ kind: 'kept' })
    expect(await (await raw()).count('events')).toBe(3)
  })

  test('a full disk is named', async () => {
    const store = open()
    await store.append('one', 0, began())
    const add = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError')
    })
    expect(await store.append('one', 1, skin)).toEqual({ kind: 'memory' })
    expect(store.status()).toEqual({ kind: 'memory', why: 'full' })
    add.mockRestore()
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
  })

  test('a store of a newer version is left alone', async () => {
    databases.push(await openDB('test', 99))
    expect(await open().append('one', 0, began())).toEqual({ kind: 'memory' })
    expect(stores[0]?.status()).toEqual({ kind: 'memory', why: 'newer-version' })
  })

  test('an open store makes way for a newer version', async () => {
    const store = open()
    await store.append('one', 0, began())
    databases.push(await openDB('test', 99))
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'memory', why: 'newer-version' }))
    expect(await databases[0]?.count('events')).toBe(1)
  })

  test('what was in memory when another tab went on is handed back', async () => {
    const store = open()
    await store.append('one', 0, began())
    const refused = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => {
      throw new DOMException('no', 'UnknownError')
    })
    expect(await store.append('one', 1, skin)).toEqual({ kind: 'memory' })
    refused.mockRestore()
    const database = await raw()
    await database.add('events', { ...eyes, caseId: 'one', seq: 1 })
    const result = await store.append('one', 2, answered(choice('toes', 'dark'), 3))
    expect(result.kind === 'clash' && result.refused.map(({ seq }) => seq)).toEqual([1, 2])
    expect(logOf((await store.newest())?.events ?? [])).toEqual([choice('eyes', 'open')])
  })
})

describe('damage', () => {
  test('a damaged event is skipped and named, and its place is not used again', async () => {
    const store = open()
    await store.append('one', 0, began())
    await store.append('one', 1, skin)
    const database = await raw()
    await database.put('events', { ...eyes, caseId: 'one', seq: 2, entry: { question: 7 } })
    const found = await store.newest()
    expect(logOf(found?.events ?? [])).toEqual([choice('skin', 'pale')])
    expect(found?.nextSeq).toBe(3)
    expect(found?.faults).toContainEqual({
      field: 'events.one.2.entry.question',
      value: '7',
      accepted: 'a value of type string',
    })
    expect(await store.append('one', 3, answered(choice('toes', 'dark')))).toEqual({ kind: 'kept' })
  })

  test('rows of another kind altogether', async () => {
    const store = open()
    await store.append('one', 0, began())
    const database = await raw()
    await database.put('events', { caseId: 5, seq: 'x' })
    await database.put('events', { caseId: 'two', seq: 0, kind: 'danced' })
    const cases = await store.cases()
    expect(cases.find(({ caseId }) => caseId === 'one')?.events).toHaveLength(1)
    expect(cases.filter(({ faults }) => faults.length > 0)).toHaveLength(2)
    expect((await store.newest())?.caseId).toBe('one')
  })
})
