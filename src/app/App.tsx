/** The app: which screen is shown, and what every screen has in common. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { Moment } from '../../shared/moment.ts'
import { useBackSteps } from './back-steps.ts'
import type { FirstContent } from './content/first.ts'
import type { ClinicRoom, LaterContent, RecordRoom, Rest, Search } from './content/later.ts'
import type { Doors } from './doors.ts'
import { Notice } from './parts/Notice.tsx'
import { TopBar } from './parts/TopBar.tsx'
import { type Begun, Start } from './Start.tsx'
import { saveFile } from './save-file.ts'
import { AskScreen } from './screens/AskScreen.tsx'
import { PhoneScreen } from './screens/PhoneScreen.tsx'
import { SignsScreen } from './screens/SignsScreen.tsx'
import { useArrived } from './use-arrived.ts'
import { type Store, useWizard, type Wizard } from './use-wizard.ts'
import { firstLabels as labels } from './wording/first-labels.ts'

export interface AppProps {
  readonly first: FirstContent
  readonly doors: Doors
  /** The chart and its screens. */
  readonly rest: Promise<Rest>
  /** The words behind the danger screens. */
  readonly later: Promise<LaterContent>
  /** The search of the start page, which comes between the two. */
  readonly search?: Promise<Search>
  /** The keeper's record. */
  readonly record?: Promise<RecordRoom>
  /** What a clinic sends and receives. */
  readonly clinic?: Promise<ClinicRoom>
  readonly store?: Store
  /** The time and zone; the browser's own where none is given. */
  readonly clock?: () => Moment
  readonly locale?: string
}

/** The browser's time zone, asked again each minute: asking takes longer than drawing a button. */
const zoneNow = { zone: '', untilMs: 0 }

const browserClock = (): Moment => {
  const now = new Date()
  if (now.getTime() >= zoneNow.untilMs || now.getTime() < zoneNow.untilMs - 60_000) {
    zoneNow.zone = new Intl.DateTimeFormat().resolvedOptions().timeZone
    zoneNow.untilMs = now.getTime() + 60_000
  }
  return { instant: now.toISOString(), zone: zoneNow.zone }
}

/** Dates stand inside English sentences, so they are English whatever the browser speaks. */
function browserLocale(): string {
  const { language } = globalThis.navigator
  return language.startsWith('en') ? language : 'en-GB'
}

export function App(props: AppProps): VNode {
  const { first, store } = props
  const { part } = first
  const clock = props.clock ?? browserClock
  const locale = useMemo(() => props.locale ?? browserLocale(), [props.locale])
  const rest = useArrived(props.rest)
  const later = useArrived(props.later)
  const search = useArrived(props.search)
  const record = useArrived(props.record)
  const clinic = useArrived(props.clinic)
  const screens = rest?.screens
  const knowledge = useMemo(() => rest?.screens.knowledgeOf(first, rest, later), [first, rest, later])
  const engine = useMemo(() => rest?.screens.engineFor(rest), [rest])

  const keptOf = (animalId: string | undefined) =>
    record?.keeper.record().animals.find(one => one.animalId === animalId)
  const arrived = useRef(record)
  arrived.current ??= record
  /** The record, read from the disk; a check of one of its animals goes on with what it knows. */
  const recordRead = async () => {
    arrived.current = await props.record?.catch(() => undefined)
    await arrived.current?.keeper.opened
  }
  const baseOf = (animalId: string) => {
    const { current: record } = arrived
    const kept = record?.keeper.record().animals.find(one => one.animalId === animalId)
    return kept && rest && record?.caseOf(kept, rest.logic.weight, clock())
  }
  const latest = useRef<Wizard | undefined>(undefined)
  const steps = useBackSteps(() => latest.current ?? wizard)
  const wizard = useWizard({ part, engine, clock, store, onForward: steps.forward, baseOf, recordRead })
  latest.current = wizard
  const back = () => void wizard.back().then(steps.stepped)
  const { place, context } = wizard
  const [view, example] = steps.view.split('/')
  const { leave } = steps
  const [begun, setBegun] = useState<Begun>()

  const waiting = <Waiting first={place.at === 'awaited' && place.isNow ? first.frame.phoneNow : undefined} />
  const screen = (): VNode => {
    // What is behind the danger screens.
    const behind = { clock, locale, wizard, waiting }
    const known = screens && knowledge ? { screens, knowledge } : undefined
    const whole = known?.knowledge.isWhole ? known : undefined
    switch (view) {
      case '#phone':
        return <PhoneScreen frame={first.frame} onBack={leave} />
      case '#example':
        return whole ? (
          <whole.screens.Example {...behind} knowledge={whole.knowledge} concern={example} onBack={leave} />
        ) : (
          waiting
        )
      case '#answers':
        return whole ? (
          <whole.screens.Review {...behind} knowledge={whole.knowledge} onBack={leave} />
        ) : (
          waiting
        )
      case '#delete':
        return (
          <AskScreen
            title={labels.deleteTitle}
            lines={[labels.deleteLead]}
            failed={labels.deleteFailed}
            yes={labels.deleteYes}
            no={labels.deleteNo}
            onYes={async () => {
              const isDone = await wizard.deleteAll()
              if (isDone) leave()
              return isDone
            }}
            onNo={leave}
          />
        )
      case '#animals':
      case '#animal':
      case '#shelf':
      case '#keep':
        return record && whole ? (
          <record.Record
            hash={steps.view}
            protocol={whole.knowledge.protocol}
            frame={whole.knowledge.book.frame}
            store={record.keeper}
            clock={clock}
            locale={locale}
            onGo={goTo}
            onCheck={({ animalId }) => void wizard.begin({ thisAnimal: true }, undefined, animalId)}
          />
        ) : (
          waiting
        )
      case '#clinic':
      case '#clinic-link':
      case '#history':
      case '#prepare':
        return clinic && whole ? (
          <clinic.Clinic
            hash={steps.view}
            content={clinic.content}
            protocol={whole.knowledge.protocol}
            book={whole.knowledge.book}
            wizard={wizard}
            kept={keptOf(wizard.of)}
            clock={clock}
            locale={locale}
            onBack={leave}
            onStart={concern => {
              if (concern === undefined) steps.leaveAll()
              else void wizard.begin({ thisAnimal: true, concerns: [concern] })
            }}
          />
        ) : (
          waiting
        )
      case '#enclosure':
        return record && whole ? (
          <whole.screens.Enclosure
            {...behind}
            knowledge={whole.knowledge}
            hash={steps.view}
            store={record.keeper}
            onGo={goTo}
          />
        ) : (
          waiting
        )
      case '':
        break
      default:
        return start()
    }
    if (place.at === 'start') return start()
    if (place.at === 'awaited') return waiting
    if (place.at === 'outcome')
      return whole ? (
        <whole.screens.Outcome
          {...behind}
          knowledge={whole.knowledge}
          home={record?.home}
          clinic={clinic}
          onBack={back}
        />
      ) : (
        waiting
      )
    const at = part.screens.findIndex(({ id }) => id === place.question)
    const question = part.screens[at]
    const words = first.questions[place.question]
    if (!question || !words)
      return known ? (
        <known.screens.Ask {...behind} knowledge={known.knowledge} question={place.question} onBack={back} />
      ) : (
        waiting
      )
    const { draft, log, now } = context
    const stands = draft?.question === question.id ? draft : undefined
    const old = stands ? undefined : log.find(entry => entry.question === question.id)
    return (
      <SignsScreen
        question={question}
        words={words}
        draft={stands}
        notes={[
          labels.signsPage(at + 1, part.screens.length),
          ...(old && screens ? [screens.lapsedNote(old, now, locale)] : []),
        ]}
        clock={clock}
        onAnswer={entry => void wizard.answer(entry)}
        onBack={back}
      />
    )
  }
  const start = (): VNode => (
    <Start
      first={first}
      doors={props.doors}
      wizard={wizard}
      clock={clock}
      locale={locale}
      screens={screens}
      search={search}
      asked={view === '#anew' ? begun : undefined}
      onAsk={next => {
        setBegun(next)
        steps.open('#anew')
      }}
      onLeave={steps.leaveAll}
    />
  )

  const asked = place.at === 'question' ? `${place.question} ${context.log.length}` : place.at
  const shown = screen()
  // Where the last screens are still on their way, what is shown is another screen.
  const key = `${steps.view || asked}${shown === waiting ? ' awaited' : ''}`
  useArrival(key)
  const room = ROOM.exec(key)
  // A check of an animal of the record is kept with it, once it comes to its outcome.
  const { at: standsAt } = place
  useEffect(() => {
    if (standsAt !== 'outcome' || !record || !knowledge?.isWhole || wizard.of === undefined) return
    const checkId = `check ${context.log[0]?.answer.given}`
    void record.keepCheck(record.keeper, wizard.of, knowledge.protocol, { checkId, ...context })
  }, [standsAt, context, record, knowledge, wizard.of])
  return (
    <div class="page">
      <TopBar name={labels.appName} homeHref="#start" phoneLabel={labels.phone} phoneHref="#phone" />
      {wizard.refused ? (
        <div class="status-line">
          <Notice spoken="atOnce">
            <p>{labels.notSaved}</p>
            {store?.exportText === undefined ? null : (
              <button class="action" type="button" onClick={() => void saveAnswers(store.exportText)}>
                {labels.saveFile}
              </button>
            )}
          </Notice>
        </div>
      ) : null}
      <Keyed key={room ? (room[1] ?? 'record') : key}>{shown}</Keyed>
    </div>
  )
}

/** The record and the check of a home keep what was just done from one of their screens to the next. */
const ROOM = /^#(?:animals?|shelf|keep|(enclosure))(?:\/|$)(?!.*awaited)/

const goTo = (hash: string) => {
  globalThis.location.hash = hash
}

/** All that is kept of the checks, as a file. */
async function saveAnswers(exportText: (() => Promise<string>) | undefined): Promise<void> {
  if (exportText) saveFile('duskcheck-answers.json', 'application/json', await exportText())
}

/** A screen of its own: nothing of the one before stays in its fields. */
function Keyed({ children }: { readonly children: VNode }): VNode {
  return children
}

/** A new screen: to its top, its heading focused and in the title. */
function useArrival(key: string): void {
  const at = useRef<string | undefined>(undefined)
  useEffect(() => {
    const before = at.current
    at.current = key
    const heading = document.querySelector<HTMLElement>('h1')
    document.title = heading?.textContent ? `${heading.textContent} · ${labels.appName}` : labels.appName
    // The first screen of a visit is where the reader is already.
    if (before === undefined || before === key) return
    globalThis.scrollTo(0, 0)
    heading?.focus({ preventScroll: true })
  }, [key])
}

/** What is on its way is not there yet; whom to phone at once is said already. */
function Waiting({ first }: { readonly first: string | undefined }): VNode {
  return (
    <main class="main">
      <h1 tabIndex={-1}>{first ?? labels.appName}</h1>
      <p role="status">{labels.wait}</p>
    </main>
  )
}
