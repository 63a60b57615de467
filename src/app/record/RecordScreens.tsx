/** The record: which of its screens is shown, what was just done and how to take it back. Loaded after the first screens. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useReducer, useState } from 'preact/hooks'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord, RecordEntry } from '../../../shared/record.ts'
import { undo } from '../../records/actions.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { AboutScreen } from './AboutScreen.tsx'
import { AnimalScreen } from './AnimalScreen.tsx'
import { AnimalsScreen } from './AnimalsScreen.tsx'
import { EventScreen } from './EventScreen.tsx'
import { KeepScreen } from './KeepScreen.tsx'
import type { RecordContent, Room } from './keeper.ts'
import { LookScreen } from './LookScreen.tsx'
import { NotebookScreen } from './NotebookScreen.tsx'
import { PastScreen } from './PastScreen.tsx'
import { Page } from './parts.tsx'
import { useDesk } from './use-desk.ts'
import { WeighScreen } from './WeighScreen.tsx'

export interface RecordScreensProps {
  /** `#animals`, `#animal/<id>` with a part after it, `#shelf`, `#keep`. */
  readonly hash: string
  readonly store: KeeperStore
  readonly content: RecordContent
  readonly clock: () => Moment
  readonly locale: string
  readonly onGo: (hash: string) => void
  /** Begins a check of this animal. */
  readonly onCheck: (kept: AnimalRecord) => void
}

/** What was just done, and the entry that undo would take back. */
interface Done {
  readonly said: string
  readonly entry?: RecordEntry
}

export function RecordScreens(props: RecordScreensProps): VNode {
  const { hash, store, content, clock, locale, onGo, onCheck } = props
  const [isOpen, setOpen] = useState(false)
  const [unread, setUnread] = useState(0)
  const [record, setRecord] = useState(store.record)
  const [done, setDone] = useState<Done>()
  const [, drawAgain] = useReducer((count: number) => count + 1, 0)
  useEffect(() => {
    const stops = [store.onChange(setRecord), store.onStatus(drawAgain), store.onKeepPromise(drawAgain)]
    void store.opened.then(opened => {
      setRecord(store.record())
      setUnread(opened.faults.length)
      setOpen(true)
    })
    return () => {
      for (const stop of stops) stop()
    }
  }, [store])
  const room = useMemo<Room>(
    () => ({
      record,
      content,
      clock,
      locale,
      store,
      go: onGo,
      tell: said => setDone({ said }),
      save: async (said, make) => {
        const entry = make(store.writing(clock().instant))
        await store.append([entry])
        setDone({ said, entry })
        return entry
      },
    }),
    [record, content, clock, locale, store, onGo],
  )
  const takeBack = async ({ said, entry }: Done) => {
    if (entry === undefined) return
    await store.append([undo(store.writing(clock().instant), entry, store.entries())])
    setDone({ said: `Taken back. (${said})` })
  }
  return (
    <>
      <div class="done-place no-print" role="status">
        {done === undefined ? null : (
          <p class="done">
            <span>{done.said}</span>
            {done.entry === undefined ? null : (
              <button class="review-change" type="button" onClick={() => void takeBack(done)}>
                Undo
              </button>
            )}
          </p>
        )}
        {store.status().kind === 'memory' ? (
          <p class="done">
            <span>This browser keeps nothing at the moment. All lasts until this page is closed.</span>
            <a class="review-change" href="#keep">
              Save a file
            </a>
          </p>
        ) : null}
        {unread === 0 ? null : (
          <p>{unread === 1 ? '1 entry' : `${unread} entries`} could not be read. Nothing of it is deleted.</p>
        )}
      </div>
      {isOpen ? <Shown room={room} hash={hash} onCheck={onCheck} /> : <Opening />}
    </>
  )
}

function Opening(): VNode {
  return (
    <main class="main">
      <h1 tabIndex={-1}>Your animals</h1>
      <p role="status">One moment, the record is being read.</p>
    </main>
  )
}

function Shown(props: { room: Room; hash: string; onCheck: (kept: AnimalRecord) => void }): VNode {
  const { room, hash, onCheck } = props
  const [view, one, part, itemId] = hash.split('/')
  if (view === '#shelf') return <Shelf room={room} cards={one === 'cards'} />
  if (view === '#keep') return <KeepScreen room={room} />
  if (view !== '#animal') return <AnimalsScreen room={room} />
  const kept = room.record.animals.find(({ animalId }) => animalId === one)
  if (kept === undefined)
    return (
      <>
        <main class="main">
          <h1 tabIndex={-1}>This animal is not on record</h1>
          <p>It was taken out, or this page is of another device.</p>
        </main>
        <ActionBar main={{ label: 'Your animals', href: '#animals' }} />
      </>
    )
  switch (part) {
    case 'weigh':
      return <WeighScreen key={itemId} room={room} kept={kept} itemId={itemId} />
    case 'happened':
      return <EventScreen key={itemId} room={room} kept={kept} itemId={itemId} />
    case 'past':
      return <PastScreen room={room} kept={kept} />
    case 'look':
      return <LookScreen room={room} kept={kept} />
    case 'notebook':
      return <NotebookScreen room={room} kept={kept} />
    case 'about':
      return <AboutScreen room={room} kept={kept} />
    default:
      return <AnimalScreen key={one} room={room} kept={kept} onCheck={onCheck} />
  }
}

const loadShelf = () => import('./ShelfScreen.tsx')

function Shelf(props: { readonly room: Room; readonly cards: boolean }): VNode {
  const { part, words } = useDesk(loadShelf)
  // Not as a screen of its own: the page that waits becomes the shelf, and its heading keeps the focus.
  if (part) return part.shelfScreen(props)
  return (
    <Page
      title={props.cards ? 'Cage cards' : 'The whole shelf'}
      back={{ label: 'Animals', href: '#animals' }}
    >
      <p role="status">{words}</p>
    </Page>
  )
}
