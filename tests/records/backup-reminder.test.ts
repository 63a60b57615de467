import { expect, test } from 'vitest'
import { backupDue } from '../../src/records/backup-reminder.ts'
import { instantOf, weighInEntry } from './entries.ts'

const entries = [1, 2, 3].map(minute => weighInEntry(`w${minute}`, 'dune', `item-${minute}`, minute))
const days = (count: number) => new Date(Date.parse(instantOf(1)) + count * 86_400_000).toISOString()

test('an empty record needs no backup', () => {
  expect(backupDue([], undefined, days(400))).toEqual({ isDue: false, entriesSince: 0, waitingDays: 0 })
})

test('counts what is in no file yet, and is due from the threshold on', () => {
  expect(backupDue(entries, undefined, days(0), { entries: 3, days: 30 }).isDue).toBe(true)
  expect(backupDue(entries, undefined, days(0), { entries: 4, days: 30 }).isDue).toBe(false)
  const mark = { writtenUpTo: instantOf(1) }
  expect(backupDue(entries, mark, days(0), { entries: 3, days: 30 })).toMatchObject({
    isDue: false,
    entriesSince: 2,
  })
})

test('one entry that has waited long enough is enough', () => {
  expect(backupDue(entries, undefined, days(29)).isDue).toBe(false)
  expect(backupDue(entries, undefined, days(30))).toMatchObject({ isDue: true, waitingDays: 30 })
})

test('what is in the file does not wait', () => {
  expect(backupDue(entries, { writtenUpTo: instantOf(3) }, days(400)).isDue).toBe(false)
})
