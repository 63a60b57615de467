/** Keeping the record: whether this browser keeps it, a backup file out and in, weights as a table out and in. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Fault } from '../../../shared/result.ts'
import type { StoredEvent } from '../../../shared/stored-event.ts'
import { backupDue } from '../../records/backup-reminder.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import { type Preview, previewEntries } from '../../records/preview.ts'
import { readBackup } from '../../records/read-backup.ts'
import { readEntries } from '../../records/read-entries.ts'
import { readRows } from '../../records/rows.ts'
import { backupName, backupText } from '../../records/write-backup.ts'
import { dayOf } from '../../triage/calendar.ts'
import { saveFile } from '../save-file.ts'
import { Faults, FileField } from './FilePart.tsx'
import type { Room } from './keeper.ts'
import { PreviewPart } from './PreviewPart.tsx'
import { Page } from './parts.tsx'
import { TablePart } from './TablePart.tsx'
import { countWords, dayWords, dueWords, memoryWords } from './words.ts'

/** Whether this browser keeps the record, in words. */
export function keepWords(store: KeeperStore): string {
  const status = store.status()
  if (status.kind === 'memory')
    return `${memoryWords[status.why]} The record lasts until this page is closed. Save it to a file now.`
  return {
    persisted: 'This browser has promised to keep the record.',
    'not-promised':
      'This browser keeps the record, but gives no promise. It may clear it when room gets short. Keep a backup file as well.',
    unknown: 'This browser keeps the record. It has not said for how long. Keep a backup file as well.',
  }[store.keepPromise()]
}

export function KeepScreen({ room }: { readonly room: Room }): VNode {
  const { store, clock, locale, tell } = room
  const [preview, setPreview] = useState<Preview>()
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const [cases, setCases] = useState<readonly StoredEvent[]>([])
  const [left, setLeft] = useState(0)
  const now = clock()
  const last = store.lastBackup()
  const due = backupDue(store.entries(), last, now.instant)

  const backUp = async () => {
    const { instant, zone } = clock()
    saveFile(
      backupName(dayOf(Date.parse(instant), zone)),
      'application/json',
      backupText(store.entries(), instant, await store.besides()),
    )
    await store.noteBackup(instant)
    tell('The backup file is saved where this device keeps downloads.')
  }
  const read = async (file: File) => {
    const backup = await readBackup(file)
    setFaults(backup.ok ? [] : backup.faults)
    setPreview(undefined)
    if (!backup.ok) return
    const { entries, unread = [], cases = [] } = backup.value
    // What another version could not read, this one may.
    const more = readEntries(unread)
    const { events } = readRows(cases)
    setCases(events)
    setLeft(unread.length - more.entries.length + cases.length - events.length)
    setPreview(previewEntries(store.entries(), [...entries, ...more.entries]))
  }
  // First the checks, then the record: either whole or not at all, and reading the file again makes up for a halt between.
  const takeBackup = async (entries: Preview['entries']) => {
    const isTaken = cases.length === 0 || (await store.takeCases(cases))
    await take(entries)
    if (!isTaken) tell('The record is taken in. The checks are not: this browser keeps nothing now.')
  }
  const take = async (entries: Preview['entries']) => {
    await store.append(entries)
    setPreview(undefined)
    tell(`Taken in: ${countWords(entries.length)}.`)
  }
  return (
    <Page title="Keep and move the record" back={{ label: 'Animals', href: '#animals' }}>
      <p role="status">{keepWords(store)}</p>
      <section class="section" aria-labelledby="backup-title">
        <h2 class="section-title" id="backup-title">
          Backup file
        </h2>
        <p>One file holds the record and the checks under way. It can be read here or on another device.</p>
        <p>
          {last === undefined
            ? 'No backup was made on this device yet.'
            : `The last one: ${dayWords(last.at, now.zone, locale)}.`}{' '}
          {due.entriesSince === 0 ? '' : dueWords(due)}
        </p>
        <p>
          <button class="action action-main" type="button" onClick={() => void backUp()}>
            Save a backup file
          </button>
        </p>
        <FileField
          name="backup"
          label="Read a backup file"
          accept=".json,application/json"
          onFile={file => void read(file)}
        />
        <Faults faults={faults} />
        {preview === undefined || left === 0 ? null : (
          <p>{countWords(left)} of the file cannot be read here. They stay in the file.</p>
        )}
        {preview === undefined || cases.length === 0 ? null : (
          <p>Checks under way are in the file too. They come with it.</p>
        )}
        {preview === undefined ? null : (
          <PreviewPart
            preview={preview}
            hasMore={cases.length > 0}
            onTake={() => void takeBackup(preview.entries)}
            onLeave={() => setPreview(undefined)}
          />
        )}
      </section>
      <TablePart room={room} onTake={take} />
      <p>
        <a href="#keep/delete">Delete the whole record</a>
      </p>
    </Page>
  )
}
