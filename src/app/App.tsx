/** The app: which screen is shown, and what every screen has in common. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { Frame, Words } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Protocol, prepare } from '../triage/prepare.ts'
import { Notice } from './parts/Notice.tsx'
import { TopBar } from './parts/TopBar.tsx'
import { PhoneScreen } from './screens/PhoneScreen.tsx'
import { QuestionScreen } from './screens/QuestionScreen.tsx'
import { StartScreen } from './screens/StartScreen.tsx'
import { type Store, useWizard, type Wizard } from './use-wizard.ts'
import { type Book, bookOf, type LaterWords } from './wording/book.ts'
import { pastDay } from './wording/dates.ts'
import { labels } from './wording/labels.ts'
import { progressNotes } from './wording/progress.ts'

export interface AppProps {
  readonly protocol: Protocol
  readonly frame: Frame
  readonly dangerWords: Words
  readonly later: Promise<LaterWords>
  readonly store?: Store
  /** The time and zone; the browser's own where none is given. */
  readonly clock?: () => Moment
  readonly locale?: string
}

type LaterScreens = typeof import('./later-screens.tsx')

/** The first load decides without care; the outcome needs the whole. */
function whole(protocol: Protocol, later: LaterWords | undefined): Protocol {
  const care = later?.care
  if (!care) return protocol
  const rules = protocol.logic.rules.map((rule, at) => ({ ...rule, ...care.rules[at] }))
  return prepare({ ...protocol.logic, rules, carePlans: care.carePlans })
}

const browserClock = (): Moment => ({
  instant: new Date().toISOString(),
  zone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
})

/** Dates stand inside English sentences, so they are English whatever the browser speaks. */
function browserLocale(): string {
  const { language } = globalThis.navigator
  return language.startsWith('en') ? language : 'en-GB'
}

export function App(props: AppProps): VNode {
  const { frame, dangerWords, store } = props
  const clock = props.clock ?? browserClock
  const locale = useMemo(() => props.locale ?? browserLocale(), [props.locale])
  const [later, setLater] = useState<LaterWords & { readonly screens: LaterScreens }>()
  useEffect(() => {
    props.later
      .then(async words => setLater({ ...words, screens: await import('./later-screens.tsx') }))
      .catch(() => {})
  }, [props.later])
  const protocol = useMemo(() => whole(props.protocol, later), [props.protocol, later])
  const screens = later?.screens
  const book = useMemo(
    () => bookOf(protocol.logic, frame, dangerWords, later),
    [protocol, frame, dangerWords, later],
  )
  const wizard = useWizard(props.protocol, clock, store)
  const [hash, goTo] = useHash()
  const [view, example] = hash.split('/')
  const { place, context } = wizard
  const leave = () => goTo('')

  const asked = place.at === 'question' ? place.question : undefined
  const screenKey = view !== '' ? hash : asked === undefined ? place.at : `${asked} ${context.log.length}`
  // Where the last screens are still on their way, what is shown is another screen.
  const awaited = !screens && (view === '#answers' || view === '#example' || place.at === 'outcome')
  const key = awaited ? `${screenKey} awaited` : screenKey
  useArrival(key)

  const screen = (): VNode => {
    if (view === '#phone') return <PhoneScreen frame={frame} onBack={leave} />
    if (view === '#example')
      return screens ? (
        <screens.Example
          book={book}
          protocol={protocol}
          concern={example}
          clock={clock}
          locale={locale}
          onBack={leave}
        />
      ) : (
        <Waiting />
      )
    if (view === '#answers')
      return screens ? (
        <screens.ReviewScreen
          book={book}
          log={context.log}
          now={context.now}
          locale={locale}
          onBack={leave}
          onChange={question => {
            wizard.change(question)
            leave()
          }}
        />
      ) : (
        <Waiting />
      )
    if (view === '#start' || place.at === 'start')
      return (
        <Start
          frame={frame}
          wizard={wizard}
          store={store}
          onLeave={leave}
          screens={screens}
          speciesQuestion={protocol.logic.questions[protocol.logic.speciesQuestion]?.id}
        />
      )
    if (asked === undefined)
      return screens ? (
        <screens.Outcome protocol={protocol} book={book} wizard={wizard} clock={clock} locale={locale} />
      ) : (
        <Waiting />
      )
    return (
      <Ask
        key={screenKey}
        book={book}
        wizard={wizard}
        question={asked}
        clock={clock}
        locale={locale}
        screens={screens}
      />
    )
  }

  return (
    <div class="page">
      <TopBar name={labels.appName} homeHref="#start" phoneLabel={labels.phone} phoneHref="#phone" />
      {wizard.refused ? (
        <div class="status-line">
          <Notice spoken="atOnce">
            <p>{labels.notSaved}</p>
          </Notice>
        </div>
      ) : null}
      {screen()}
    </div>
  )
}

/** Hashes that are screens; any other is a place on the screen that is shown. */
const VIEWS = /^#(?:start|phone|answers|example)(?:\/|$)/

function useHash(): [string, (hash: string) => void] {
  const read = () => (VIEWS.test(globalThis.location.hash) ? globalThis.location.hash : '')
  const [hash, setHash] = useState(read)
  useEffect(() => {
    const heard = () => {
      const { hash: heardHash } = globalThis.location
      if (heardHash === '' || VIEWS.test(heardHash)) setHash(read())
    }
    globalThis.addEventListener('hashchange', heard)
    return () => globalThis.removeEventListener('hashchange', heard)
  })
  const goTo = (next: string) => {
    if (next === hash) return
    globalThis.history.pushState(
      null,
      '',
      next === '' ? globalThis.location.pathname + globalThis.location.search : next,
    )
    setHash(next)
  }
  return [hash, goTo]
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

function Waiting(): VNode {
  return (
    <main class="main">
      <h1 tabIndex={-1}>{labels.appName}</h1>
      <p role="status">{labels.wait}</p>
    </main>
  )
}

function Start(props: {
  frame: Frame
  wizard: Wizard
  store: Store | undefined
  onLeave: () => void
  screens: LaterScreens | undefined
  speciesQuestion: string | undefined
}): VNode {
  const { wizard, onLeave, frame, store, screens, speciesQuestion } = props
  const here = wizard.context.log
  const log = here.length > 0 ? here : (store?.unfinished ?? [])
  const begin = (thisAnimal: boolean, question?: string) => {
    void wizard.begin(thisAnimal, question).then(onLeave)
  }
  // What the start button said of the animal is no answer that anybody gave.
  const given = log.filter(entry => entry.question !== speciesQuestion)
  const resume = () => {
    wizard.resume(log)
    onLeave()
  }
  return (
    <StartScreen
      frame={frame}
      {...(screens ? { picture: <screens.GeckoDrawing /> } : {})}
      onDoor={screen => begin(true, screen)}
      onNone={() => begin(true)}
      onOther={() => begin(false)}
      {...(given.length > 0
        ? { unfinished: { answers: given.length, dropped: store?.dropped ?? 0, onResume: resume } }
        : {})}
    />
  )
}

interface Shared {
  readonly book: Book
  readonly clock: () => Moment
  readonly locale: string
}

function Ask(props: Shared & { wizard: Wizard; question: string; screens: LaterScreens | undefined }): VNode {
  const { book, wizard, clock, locale } = props
  const question = book.logicOf(props.question)
  const words = book.question(props.question)
  if (!question || !words) return <Waiting />
  const { draft, caseFile, now } = wizard.context
  const stands = draft?.question === question.id ? draft : undefined
  const old = stands ? undefined : caseFile.answers[question.id]
  const signPages = book.logic.questions.filter(({ phase }) => phase === 'danger')
  const forVet = question.phase === 'handover' || question.forHandover
  const notes = [
    ...(question.phase === 'danger'
      ? [labels.signsPage(signPages.indexOf(question) + 1, signPages.length)]
      : []),
    ...progressNotes(book.frame, question),
    ...(old ? [labels.lapsed(pastDay(old.given, now, locale))] : []),
    ...(forVet ? [labels.forVet] : []),
  ]
  return (
    <QuestionScreen
      question={question}
      words={words}
      draft={stands}
      notes={notes}
      {...(props.screens ? { pictures: props.screens } : {})}
      clock={clock}
      onAnswer={entry => void wizard.answer(entry)}
      onBack={() => void wizard.back()}
      {...(forVet ? { onSkip: wizard.skip } : {})}
    />
  )
}
