/** The record: which of its screens is shown, what was just done and how to take it back. Loaded after the first screens. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useReducer, useRef, useState } from 'preact/hooks'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord, KeeperRecord, RecordEntry } from '../../../shared/record.ts'
import { undo } from '../../records/actions.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { AnimalScreen } from './AnimalScreen.tsx'
import { AnimalsScreen } from './AnimalsScreen.tsx'
import { EventScreen } from './EventScreen.tsx'
import { levelBy, type RecordContent, type Room, reportOf } from './keeper.ts'
import { More } from './More.tsx'
import { WeighScreen } from './WeighScreen.tsx'
import { memoryWords } from './words.ts'

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
  const isSaving = useRef(false)
  /** The screen that a save goes on to is shown at once, before the address has followed. */
  const left = useRef<{ readonly from: string; readonly to: string } | undefined>(undefined)
  if (left.current?.from !== hash) left.current = undefined
  const at = left.current?.to ?? hash
  const [, drawAgain] = useReducer((count: number) => count + 1, 0)
  useEffect(() => {
    const stops = [
      store.onChange(next => {
        // What is saved here is shown together with the screen after it.
        if (!isSaving.current) setRecord(next)
      }),
      store.onStatus(drawAgain),
      store.onKeepPromise(drawAgain),
    ]
    void store.opened.then(opened => {
      setRecord(store.record())
      setUnread(opened.faults.length)
      setOpen(true)
    })
    return () => {
      for (const stop of stops) stop()
    }
  }, [store])
  const hashNow = useRef(hash)
  hashNow.current = hash
  const room = useMemo<Room>(
    () => ({
      record,
      content,
      clock,
      locale,
      store,
      go: onGo,
      tell: said => setDone({ said }),
      save: async (said, make, to) => {
        const entry = make(store.writing(clock().instant))
        isSaving.current = true
        await store.append([entry], coming => workOut(coming, entry.animalId, content, clock()))
        isSaving.current = false
        if (to !== undefined) left.current = { from: hashNow.current, to }
        setRecord(store.record())
        setDone({ said, entry })
        // The address follows once the new picture is painted.
        if (to !== undefined) requestAnimationFrame(() => setTimeout(() => onGo(to)))
        return entry
      },
    }),
    [record, content, clock, locale, store, onGo],
  )
  const check = useRef(onCheck)
  check.current = onCheck
  // The same picture as before is not drawn again, whatever else of the app is.
  const shown = useMemo(
    () => (isOpen ? <Shown room={room} hash={at} onCheck={kept => check.current(kept)} /> : <Opening />),
    [isOpen, room, at],
  )
  const takeBack = async ({ said, entry }: Done) => {
    if (entry === undefined) return
    await store.append([undo(store.writing(clock().instant), entry, store.entries())])
    setDone({ said: `Taken back. (${said})` })
  }
  const status = store.status()
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
        {status.kind === 'memory' ? (
          <p class="done">
            <span>{memoryWords[status.why]} All lasts until this page is closed.</span>
            <a class="review-change" href="#keep">
              Save a file
            </a>
          </p>
        ) : null}
        {unread === 0 ? null : (
          <p>{unread === 1 ? '1 entry' : `${unread} entries`} could not be read. Nothing of it is deleted.</p>
        )}
      </div>
      {shown}
    </>
  )
}

/** Works out what the screens will say of an animal: they ask for it again and find it done. */
function workOut(record: KeeperRecord, animalId: string, content: RecordContent, now: Moment): void {
  const kept = record.animals.find(one => one.animalId === animalId)
  if (kept === undefined) return
  reportOf(kept, content, now)
  levelBy(kept, content, now)
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
  if (view === '#shelf')
    return <More>{({ ShelfScreen }) => <ShelfScreen room={room} cards={one === 'cards'} />}</More>
  if (view === '#keep' && one === 'delete')
    return <More>{({ DeleteScreen }) => <DeleteScreen room={room} />}</More>
  if (view === '#keep') return <More>{({ KeepScreen }) => <KeepScreen room={room} />}</More>
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
      return <More>{({ PastScreen }) => <PastScreen room={room} kept={kept} />}</More>
    case 'look':
      return <More>{({ LookScreen }) => <LookScreen room={room} kept={kept} />}</More>
    case 'notebook':
      return <More>{({ NotebookScreen }) => <NotebookScreen room={room} kept={kept} />}</More>
    case 'delete':
      return <More>{({ DeleteScreen }) => <DeleteScreen room={room} kept={kept} />}</More>
    case 'about':
      return <More>{({ AboutScreen }) => <AboutScreen room={room} kept={kept} />}</More>
    default:
      return <AnimalScreen key={one} room={room} kept={kept} onCheck={onCheck} />
  }
}
