import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { BACKUP_VERSION } from '../../shared/backup-format.ts'
import { recordEntrySchema } from '../../shared/record.ts'
import { MIGRATIONS, type Migrations, migrate } from '../../src/records/backup-migrations.ts'
import { parseBackup, readBackup } from '../../src/records/read-backup.ts'
import { backupText } from '../../src/records/write-backup.ts'
import { animalEntry, dailyWeighIns, instantOf, someEntries, weighInEntry } from './entries.ts'
import { fileOf, hugeFile, PICTURE } from './files.ts'

const entries = [animalEntry('a1', 'dune', 0), weighInEntry('w1', 'dune', 'one', 1)]
const text = backupText(entries, instantOf(5))
const accepted = (result: ReturnType<typeof parseBackup>) =>
  result.ok ? [] : result.faults.map(({ field, accepted }) => `${field}: ${accepted}`)

test('what was written is read again, whatever the entries', async () => {
  await fc.assert(
    fc.asyncProperty(someEntries, async drawn => {
      const read = await readBackup(fileOf(backupText(drawn, instantOf(5)), 'backup.json'))
      expect(read.ok && read.value.entries).toEqual(drawn)
    }),
    { numRuns: 30 },
  )
})

describe('refused with a sentence', () => {
  test('a file cut off anywhere', () => {
    for (let length = 1; length < text.trimEnd().length; length += 1) {
      expect(parseBackup(text.slice(0, length)).ok).toBe(false)
    }
    expect(accepted(parseBackup(text.slice(0, text.length / 2)))).toEqual([
      'file: a whole backup file; this one breaks off, so copy it again',
    ])
  })

  test('a file of a newer version', () => {
    const newer = text.replace(`"version": ${BACKUP_VERSION}`, `"version": ${BACKUP_VERSION + 1}`)
    expect(parseBackup(newer)).toEqual({
      ok: false,
      faults: [
        {
          field: 'version',
          value: '2',
          accepted: 'up to version 1; a newer Duskcheck made this file, so load the page again and retry',
        },
      ],
    })
  })

  test.each([
    ['{"hello": 1}', 'file: a backup file made by Duskcheck'],
    ['[]', 'file: a backup file made by Duskcheck'],
    ['date,weight\n', 'file: a backup file made by Duskcheck'],
    [text.replace('"version": 1', '"version": "1"'), 'version: a version from 1 to 1'],
    [text.replace('"version": 1,', ''), 'version: a version from 1 to 1'],
    [text.replace('"version": 1', '"version": 0'), 'version: a version from 1 to 1'],
    [text.replace('"massGrams": 50', '"massGrams": 6000'), 'entries.1.weighIn.massGrams: at most 500'],
    [
      text.replace('"massGrams": 50', '"massGrams": 50, "x": 1'),
      'entries.1.weighIn: only the fields of the published schema',
    ],
    [
      text.replace('"kind": "weigh-in"', '"kind": "danced"'),
      'entries.1.kind: the form the published schema gives',
    ],
  ])('%s', (damaged, sentence) => {
    expect(damaged).not.toBe(text)
    expect(accepted(parseBackup(damaged))).toEqual([sentence])
  })

  test('a picture, and a file of 50 MB', async () => {
    expect(accepted(await readBackup(fileOf(PICTURE)))[0]).toMatch(/^file: a text file/)
    expect(accepted(await readBackup(hugeFile(50_000_000)))).toEqual([
      'file: a file below 50 MB; nothing was read',
    ])
  })

  test('many faults, of which the first twenty are named and the rest counted', () => {
    const damaged = backupText(dailyWeighIns(30), instantOf(5)).replaceAll('"massGrams": ', '"massGrams": -')
    const result = parseBackup(damaged)
    expect(result.ok ? [] : result.faults).toHaveLength(21)
    expect(result.ok ? undefined : result.faults.at(-1)?.value).toBe('10 more faults')
  })
})

describe('older versions', () => {
  // There is one version so far: the steps are tried with made-up ones.
  const steps: Migrations = {
    [-1]: ({ list, ...rest }) => ({ ...rest, items: list }),
    0: ({ items, ...rest }) => ({ ...rest, entries: items }),
  }

  test('go up step by step, and what comes out is checked like any other file', () => {
    const { entries: list, ...head } = JSON.parse(text)
    expect(migrate({ ...head, version: -1, list }, -1, 1, steps)).toEqual(JSON.parse(text))
    expect(parseBackup(JSON.stringify({ ...head, version: 0, items: list }), steps)).toMatchObject({
      ok: true,
    })
    expect(accepted(parseBackup(JSON.stringify({ ...head, version: 0, items: [5] }), steps))).toHaveLength(1)
  })

  test('without a step are refused', () => {
    expect(migrate({ version: -1 }, -1, 1, { 0: file => ({ ...file }) })).toBeUndefined()
  })

  test('every version below the present one has its step', () => {
    expect(Object.keys(MIGRATIONS).map(Number)).toEqual(
      Array.from({ length: BACKUP_VERSION - 1 }, (_, at) => at + 1),
    )
  })
})

test('the test entries are entries', () => {
  for (const entry of [...entries, ...dailyWeighIns(3)])
    expect(recordEntrySchema.safeParse(entry).success).toBe(true)
})
