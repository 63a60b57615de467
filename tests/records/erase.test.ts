import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import type { RecordEntry } from '../../shared/record.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'
import { openDatabase } from '../../src/records/database.ts'
import { openKeeperStore } from '../../src/records/keeper-store.ts'
import { parseBackup } from '../../src/records/read-backup.ts'
import { backupText } from '../../src/records/write-backup.ts'
import { animalEntry, weighInEntry } from './entries.ts'

const nobody = { onBlocked: () => {}, onGone: () => {} }
const AT = '2026-11-25T19:00:00Z'

async function withTwo(name: string) {
  const store = openKeeperStore(name)
  await store.opened
  await store.append([
    animalEntry('a', 'dune', 0),
    weighInEntry('b', 'dune', 'one', 1),
    animalEntry('c', 'ember', 2),
  ])
  return store
}

test('an animal that is erased is gone from memory, from the disk and from another tab', async () => {
  const store = await withTwo('erase-one')
  const other = openKeeperStore('erase-one')
  await other.opened
  expect(await store.erase('dune')).toBe(true)
  expect(store.record().animals.map(({ animalId }) => animalId)).toEqual(['ember'])
  await expect.poll(() => other.record().animals.map(({ animalId }) => animalId)).toEqual(['ember'])
  // What the other tab writes next does not bring it back.
  await other.append([weighInEntry('d', 'ember', 'two', 3)])
  const database = await openDatabase('erase-one', nobody)
  expect(await database.getAllKeys('entries')).toEqual(['c', 'd'])
  database.close()
})

test('when all is erased nothing of it comes back', async () => {
  const store = await withTwo('erase-all')
  expect(await store.erase()).toBe(true)
  await store.append([animalEntry('e', 'flint', 4)])
  store.close()
  const again = openKeeperStore('erase-all')
  const { record } = await again.opened
  expect(record.animals.map(({ animalId }) => animalId)).toEqual(['flint'])
})

test('a backup has rows that cannot be read and the checks under way, as they are', async () => {
  const store = await withTwo('besides')
  const database = await openDatabase('besides', nobody)
  const odd = { entryId: 'odd', kind: 'of a later version' }
  await database.put('entries', odd as unknown as RecordEntry)
  const began: StoredEvent = {
    caseId: 'check',
    seq: 0,
    at: AT,
    protocol: { species: 'invented', version: '1', hash: 'h' },
    kind: 'began',
  }
  await database.put('events', began)
  const backup = parseBackup(backupText(store.entries(), AT, await store.besides()))
  expect(backup.ok && backup.value.unread).toEqual([odd])
  expect(backup.ok && backup.value.cases).toEqual([began])

  // Into an empty browser it comes whole; where the check is known already, it stays as it is.
  const other = openKeeperStore('besides-other')
  await other.opened
  expect(await other.takeCases([began])).toBe(true)
  expect(await other.takeCases([{ ...began, at: '2027-01-01T00:00:00Z' }])).toBe(true)
  expect((await other.besides()).cases).toEqual([began])
  database.close()
})
