/** Keeping the record: whether this browser keeps it, a backup file out and in, weights as a table out and in. */
import type { VNode } from 'preact'
import { type BackupDue, backupDue } from '../../records/backup-reminder.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import type { Preview } from '../../records/preview.ts'
import { backupName, backupText } from '../../records/write-backup.ts'
import { dayOf } from '../../triage/calendar.ts'
import type { Room } from './keeper.ts'
import { Page } from './parts.tsx'
import { saveFile } from './save-file.ts'
import { useDesk } from './use-desk.ts'
import { dayWords } from './words.ts'

/** Saving a file never waits for the network; taking one in may. */
const loadDesk = () => import('./desk.tsx')

/** Whether this browser keeps the record, in words. */
export function keepWords(store: KeeperStore): string {
  if (store.status().kind === 'memory')
    return 'This browser keeps nothing at the moment. The record lasts until this page is closed. Save it to a file now.'
  return {
    persisted: 'This browser has promised to keep the record.',
    'not-promised':
      'This browser keeps the record, but gives no promise. It may clear it when room gets short. Keep a backup file as well.',
    unknown: 'This browser keeps the record. It has not said for how long. Keep a backup file as well.',
  }[store.keepPromise()]
}

/** "23 entries are in no backup file yet." */
export function dueWords({ entriesSince }: BackupDue): string {
  return `${entriesSince === 1 ? '1 entry is' : `${entriesSince} entries are`} in no backup file yet.`
}

export function KeepScreen({ room }: { readonly room: Room }): VNode {
  const { store, clock, locale, tell } = room
  const { part, words } = useDesk(loadDesk)
  const now = clock()
  const last = store.lastBackup()
  const due = backupDue(store.entries(), last, now.instant)

  const backUp = async () => {
    const { instant, zone } = clock()
    saveFile(
      backupName(dayOf(Date.parse(instant), zone)),
      'application/json',
      backupText(store.entries(), instant),
    )
    await store.noteBackup(instant)
    tell('The backup file is saved where this device keeps downloads.')
  }
  const take = async (entries: Preview['entries']) => {
    await store.append(entries)
    tell(`Taken in: ${entries.length === 1 ? '1 entry' : `${entries.length} entries`}.`)
  }
  return (
    <Page title="Keep and move the record" back={{ label: 'Animals', href: '#animals' }}>
      <p role="status">{keepWords(store)}</p>
      <section class="section" aria-labelledby="backup-title">
        <h2 class="section-title" id="backup-title">
          Backup file
        </h2>
        <p>One file holds everything. It can be read here or on another device.</p>
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
        {part ? <part.BackupPart room={room} onTake={take} /> : <p role="status">{words}</p>}
      </section>
      {part ? <part.TablePart room={room} onTake={take} /> : null}
    </Page>
  )
}
