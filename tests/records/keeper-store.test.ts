import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { type IDBPDatabase, openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { type RecordEntry, recordEntrySchema } from '../../shared/record.ts'
import { type KeeperStore, openKeeperStore } from '../../src/records/keeper-store.ts'
import { openStore } from '../../src/records/store.ts'
import { animalEntry, dailyWeighIns, instantOf, weighInEntry } from './entries.ts'
import { began } from './fixtures.ts'

const QUICK = { retryAfterMs: 20, openWithinMs: 100 }
const dune = animalEntry('a1', 'dune', 0)
const first = weighInEntry('w1', 'dune', 'one', 1, 50)
const second = weighInEntry('w2', 'dune', 'two', 2, 51)

let toClose: { close: () => void }[] = []

function open(): KeeperStore {
  const store = openKeeperStore('test', QUICK)
  toClose.push(store)
  return store
}

/** The database as something else than the store sees it. */
async function raw(): Promise<IDBPDatabase> {
  const database = await openDB('test')
  toClose.push(database)
  return database
}

const masses = (store: KeeperStore) =>
  store.record().animals.flatMap(({ weighIns }) => weighIns.map(({ massGrams }) => massGrams))

const refuse = () =>
  vi.spyOn(indexedDB, 'open').mockImplementation(() => {
    throw new DOMException('no', 'SecurityError')
  })

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(() => {
  for (const one of toClose) one.close()
  toClose = []
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

describe('kept', () => {
  test('what was appended is on record at once and at the next visit', async () => {
    const store = open()
    expect(await store.append([dune, first])).toEqual({ kind: 'kept' })
    expect(masses(store)).toEqual([50])
    expect(store.status()).toEqual({ kind: 'kept', again: false })
    store.close()
    const next = open()
    const { record, faults } = await next.opened
    expect(faults).toEqual([])
    expect(record.animals[0]?.weighIns).toEqual([{ at: instantOf(1), massGrams: 50, itemId: 'one' }])
  })

  test('a transaction asks for the disk', async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction')
    await open().append([dune])
    expect(transaction).toHaveBeenCalledWith('entries', 'readwrite', { durability: 'strict' })
  })

  test('an entry with a known id adds nothing', async () => {
    const store = open()
    await store.append([dune, first])
    expect(await store.append([{ ...first, animalId: 'reed' }])).toEqual({ kind: 'kept' })
    expect(await (await raw()).getAll('entries')).toEqual([dune, first])
  })

  test('a store of the version before keeps its cases and gets a record', async () => {
    const before = await openDB('test', 1, {
      upgrade: database => void database.createObjectStore('events', { keyPath: ['caseId', 'seq'] }),
    })
    await before.put('events', { ...began(), caseId: 'one', seq: 0 })
    before.close()
    expect(await open().append([dune])).toEqual({ kind: 'kept' })
    const cases = openStore('test', QUICK)
    toClose.push(cases)
    expect((await cases.newest())?.caseId).toBe('one')
  })

  test('all or nothing: where one entry of many is refused, none is written', async () => {
    const store = open()
    await store.append([dune])
    const { put } = IDBObjectStore.prototype
    let puts = 0
    const refused = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      ...args
    ) {
      puts += 1
      if (puts === 2) throw new DOMException('no room', 'QuotaExceededError')
      return put.apply(this, args)
    })
    expect(await store.append([first, second])).toEqual({ kind: 'memory' })
    expect(await (await raw()).count('entries')).toBe(1)
    expect(store.status()).toEqual({ kind: 'memory', why: 'full' })
    expect(masses(store)).toEqual([50, 51])
    refused.mockRestore()
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
    expect(await (await raw()).count('entries')).toBe(3)
  })
})

describe('two tabs', () => {
  test("see each other's changes", async () => {
    const [one, other] = [open(), open()]
    await Promise.all([one.opened, other.opened])
    const seen = vi.fn()
    other.onChange(seen)
    await one.append([dune, first])
    await vi.waitFor(() => expect(masses(other)).toEqual([50]))
    expect(seen).toHaveBeenLastCalledWith(other.record())
    await other.append([second])
    await vi.waitFor(() => expect(masses(one)).toEqual([50, 51]))
  })

  test('a long import in one is read whole by the other', async () => {
    const [one, other] = [open(), open()]
    await Promise.all([one.opened, other.opened])
    await one.append(dailyWeighIns(120))
    await vi.waitFor(() => expect(masses(other)).toHaveLength(120))
  })

  test('news that never came is caught up with at the next append', async () => {
    vi.stubGlobal('BroadcastChannel', undefined)
    const [one, other] = [open(), open()]
    await Promise.all([one.opened, other.opened])
    await one.append([dune, first])
    expect(masses(other)).toEqual([])
    await other.append([second])
    expect(masses(other)).toEqual([50, 51])
  })

  test('both write at the same moment and nothing is lost', async () => {
    const [one, other] = [open(), open()]
    await Promise.all([one.append([dune, first]), other.append([second])])
    const { record } = await open().opened
    expect(record.animals[0]?.weighIns).toHaveLength(2)
  })
})

describe('memory', () => {
  test('a refused store is said, gone on from and written again when it can be', async () => {
    const refused = refuse()
    const store = open()
    expect((await store.opened).record).toEqual({ animals: [] })
    expect(await store.append([dune, first])).toEqual({ kind: 'memory' })
    expect(store.status()).toEqual({ kind: 'memory', why: 'refused' })
    expect(masses(store)).toEqual([50])
    expect(store.entries()).toEqual([dune, first])
    refused.mockRestore()
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
    expect(await (await raw()).count('entries')).toBe(2)
  })

  test('a record that could not be opened at first shows what was stored as soon as it can', async () => {
    await open().append([dune, first])
    const refused = refuse()
    const store = open()
    await store.opened
    await store.append([second])
    expect(masses(store)).toEqual([])
    refused.mockRestore()
    await vi.waitFor(() => expect(masses(store)).toEqual([50, 51]))
    expect(store.status()).toEqual({ kind: 'kept', again: true })
  })

  test('no IndexedDB at all', async () => {
    vi.stubGlobal('indexedDB', undefined)
    expect(await open().append([dune])).toEqual({ kind: 'memory' })
  })

  test('a database deleted under us is written again with all that was kept', async () => {
    const store = open()
    await store.append([dune, first])
    indexedDB.deleteDatabase('test')
    await vi.waitFor(() => expect(store.status()).toEqual({ kind: 'kept', again: true }))
    expect(await (await raw()).count('entries')).toBe(2)
  })

  test('entries cleared under us are written again with the next one', async () => {
    await open().append([dune, first])
    const store = open()
    await store.opened
    await (await raw()).clear('entries')
    expect(await store.append([second])).toEqual({ kind: 'kept' })
    expect(await (await raw()).count('entries')).toBe(3)
  })
})

test('a damaged entry is named and left where it is, and the others are there', async () => {
  await open().append([dune, first])
  await (await raw()).put('entries', { ...second, weighIn: { at: instantOf(2), massGrams: -1 } })
  const store = open()
  const { record, faults } = await store.opened
  expect(record.animals[0]?.weighIns).toHaveLength(1)
  expect(faults).toEqual([{ field: 'entries.w2.weighIn.massGrams', value: '-1', accepted: 'more than 0' }])
  await store.append([weighInEntry('w3', 'dune', 'three', 3)])
  expect(await (await raw()).count('entries')).toBe(4)
})

describe('writing', () => {
  test('is later than every entry known, whatever the clock says', async () => {
    const store = open()
    await store.append([weighInEntry('w9', 'dune', 'nine', 9)])
    const { written } = store.writing(instantOf(5))
    expect(Date.parse(written)).toBeGreaterThan(Date.parse(instantOf(9)))
    expect(store.writing(instantOf(20)).written).toBe(instantOf(20))
  })

  test('is later each time, so that an undo comes after what it undoes', () => {
    const store = open()
    const [one, other] = [store.writing(instantOf(5)), store.writing(instantOf(5))]
    expect(Date.parse(other.written)).toBeGreaterThan(Date.parse(one.written))
    expect(one.newId()).not.toBe(one.newId())
  })
})

test('an entry from the end of time does not make the next ones unreadable', async () => {
  const store = open()
  await store.append([{ ...dune, written: '9999-12-31T23:59:59.999Z' }])
  const { written } = store.writing(instantOf(5))
  expect(recordEntrySchema.safeParse({ ...first, written }).success).toBe(true)
})

describe('the promise of the browser', () => {
  const storage = (answers: { persisted: boolean; persist: boolean }) => {
    const persist = vi.fn(() => Promise.resolve(answers.persist))
    vi.stubGlobal('navigator', { storage: { persisted: () => Promise.resolve(answers.persisted), persist } })
    return persist
  }

  test('is asked for at the first weigh-in and no sooner', async () => {
    const persist = storage({ persisted: false, persist: true })
    const store = open()
    await store.append([dune])
    expect(store.keepPromise()).toBe('unknown')
    expect(persist).not.toHaveBeenCalled()
    const heard = vi.fn()
    store.onKeepPromise(heard)
    await store.append([first])
    await store.append([second])
    await vi.waitFor(() => expect(store.keepPromise()).toBe('persisted'))
    expect(persist).toHaveBeenCalledTimes(1)
    expect(heard).toHaveBeenCalledWith('persisted')
  })

  test('that is not given is said', async () => {
    storage({ persisted: false, persist: false })
    const store = open()
    await store.append([dune, first])
    await vi.waitFor(() => expect(store.keepPromise()).toBe('not-promised'))
  })

  test('given before is known at once', async () => {
    const persist = storage({ persisted: true, persist: true })
    const store = open()
    await vi.waitFor(() => expect(store.keepPromise()).toBe('persisted'))
    await store.append([dune, first])
    expect(persist).not.toHaveBeenCalled()
  })

  test('stays unknown in a browser that knows none', async () => {
    vi.stubGlobal('navigator', {})
    const store = open()
    await store.append([dune, first])
    await new Promise(resolve => setTimeout(resolve, 20))
    expect(store.keepPromise()).toBe('unknown')
  })
})

test('the mark of a backup is there at the next visit, up to the latest entry', async () => {
  const store = open()
  await store.append([dune, second, first] satisfies RecordEntry[])
  expect(store.lastBackup()).toBeUndefined()
  await store.noteBackup(instantOf(30))
  const next = open()
  await next.opened
  expect(next.lastBackup()).toEqual({ name: 'backup', at: instantOf(30), writtenUpTo: instantOf(2) })
})
