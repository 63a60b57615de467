/** "Is my enclosure right?": which of its screens is shown, and what was told so far. Fetched when it is opened. */
import enclosure from 'virtual:protocol/enclosure'
import type { VNode } from 'preact'
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Frame } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { itemsFor } from '../../enclosure/check.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import { dayWords } from '../record/words.ts'
import { addStyle } from './add-style.ts'
import { type CaseBehind, type Desk, type DeskPage, LOGGER, RESULT } from './desk.ts'
import { type Draft, type Drafts, readDrafts } from './drafts.ts'
import { LoggerScreen } from './LoggerScreen.tsx'
import { GroupScreen, OverviewScreen } from './PageScreens.tsx'
import { draftsOfCase, draftsOfRecord } from './prefill.ts'
import { ResultScreen } from './ResultScreen.tsx'
import { type ReadLogger, readInWorker } from './read-logger.ts'

export interface EnclosureScreensProps {
  /** `#enclosure`, `#enclosure/<animalId>`, or `#enclosure/-` for no animal, each with a part after it. */
  readonly hash: string
  readonly title: string
  readonly frame: Pick<Frame, 'concerns' | 'basisNames'>
  readonly store: KeeperStore
  readonly clock: () => Moment
  readonly locale: string
  readonly onGo: (hash: string) => void
  /** The case under way, if any: its answers are filled in, its concern comes first. */
  readonly behind?: CaseBehind | undefined
  readonly readLogger?: ReadLogger
}

const VIEW = '#enclosure'
/** Stands for no animal in an address that goes on. */
const NO_ANIMAL = '-'
/** The page of what bears on the concern; no group of the content has this id. */
const FIRST_PAGE = 'first'
/** What bears most on a concern is a handful; the rest stands on its own pages. */
const MOST_FIRST = 8

/** What was told in this visit, by whose home it is: it stays while other screens are looked at. */
const toldSoFar = new Map<string, { readonly drafts: Drafts; readonly concern: string | undefined }>()

export function EnclosureScreens(props: EnclosureScreensProps): VNode {
  const { store, hash, clock, locale, frame, behind } = props
  const [record, setRecord] = useState(store.record)
  const [, one = '', part] = hash.split('/')
  const kept = record.animals.find(({ animalId }) => animalId === one)
  useEffect(() => {
    const stop = store.onChange(setRecord)
    void store.opened.then(() => setRecord(store.record()))
    return stop
  }, [store])
  useEffect(() => {
    void addStyle()
    // The page that waited had the focus on its heading.
    if (document.activeElement === document.body) document.querySelector('h1')?.focus()
  }, [])

  const home = kept?.animalId ?? NO_ANIMAL
  const subject = `${home} ${behind?.caseKey ?? ''}`
  const now = clock()
  const begin = () => ({
    concern: behind?.concerns[0],
    drafts: {
      ...(kept ? draftsOfRecord(enclosure, kept, at => dayWords(at, now.zone, locale)) : {}),
      ...(behind ? draftsOfCase(enclosure, behind.caseFile.answers, Date.parse(now.instant)) : {}),
    },
  })
  const [told, setTold] = useState(() => ({ subject, ...(toldSoFar.get(subject) ?? begin()) }))
  const current = told.subject === subject ? told : { subject, ...(toldSoFar.get(subject) ?? begin()) }
  const { drafts, concern } = current
  const keep = (next: typeof current) => {
    toldSoFar.set(subject, next)
    setTold(next)
  }
  const pages = useMemo(() => pagesFor(concern, frame), [concern, frame])
  const desk: Desk = {
    enclosure,
    drafts,
    faults: readDrafts(enclosure, drafts, Date.parse(now.instant)).faults,
    change: (item: string, draft: Draft) => keep({ ...current, drafts: { ...drafts, [item]: draft } }),
    basisNames: frame.basisNames,
    concern,
    concerns: frame.concerns,
    chooseConcern: next => keep({ ...current, concern: next }),
    kept,
    animals: record.animals,
    store,
    readLogger: props.readLogger ?? readInWorker,
    clock,
    locale,
    at: (to?: string) => (to === undefined && !kept ? VIEW : [VIEW, home, to].filter(Boolean).join('/')),
    go: props.onGo,
    pages,
  }
  const page = pages.find(({ id }) => id === part)
  if (part === RESULT) return <ResultScreen desk={desk} />
  if (part === LOGGER) return <LoggerScreen desk={desk} />
  if (page) return <GroupScreen key={page.id} desk={desk} page={page} />
  return <OverviewScreen desk={desk} title={props.title} />
}

/** A page for each group of the content; before them what bears on the concern, where one was chosen. */
function pagesFor(concern: string | undefined, { concerns }: Pick<Frame, 'concerns'>): DeskPage[] {
  const { groups, items } = enclosure
  const first = concern === undefined ? [] : itemsFor(enclosure, concern).slice(0, MOST_FIRST)
  const name = concerns.find(({ id }) => id === concern)?.name
  const bearing = first.flatMap(id => items.find(item => item.id === id) ?? [])
  const all = groups.map(({ id, name: words }) => ({
    id,
    name: words,
    items: items.filter(({ group }) => group === id),
  }))
  return bearing.length === 0
    ? all
    : [{ id: FIRST_PAGE, name: `First, what bears on: ${name}`, items: bearing }, ...all]
}
