/** The app: which screen is shown, and what every screen has in common. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { Frame, Words } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { assess } from '../triage/assess.ts'
import { standingOf } from '../triage/bounds.ts'
import type { Protocol } from '../triage/prepare.ts'
import { inventedCase, inventedLog } from './example/invented-log.ts'
import { ActionBar } from './parts/ActionBar.tsx'
import { Notice } from './parts/Notice.tsx'
import { TopBar } from './parts/TopBar.tsx'
import { OutcomeScreen } from './screens/OutcomeScreen.tsx'
import { PhoneScreen } from './screens/PhoneScreen.tsx'
import { QuestionScreen } from './screens/QuestionScreen.tsx'
import { ReviewScreen } from './screens/ReviewScreen.tsx'
import { StartScreen } from './screens/StartScreen.tsx'
import { type Store, useWizard, type Wizard } from './use-wizard.ts'
import { type Book, bookOf, type LaterWords } from './wording/book.ts'
import { pastDay } from './wording/dates.ts'
import { labels } from './wording/labels.ts'

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
  const { protocol, frame, dangerWords, store } = props
  const clock = props.clock ?? browserClock
  const locale = useMemo(() => props.locale ?? browserLocale(), [props.locale])
  const [later, setLater] = useState<LaterWords>()
  useEffect(() => {
    props.later.then(setLater, () => {})
  }, [props.later])
  const book = useMemo(
    () => bookOf(protocol.logic, frame, dangerWords, later),
    [protocol, frame, dangerWords, later],
  )
  const wizard = useWizard(protocol, clock, store)
  const [hash, goTo] = useHash()
  const [view, example] = hash.split('/')
  const { place, context } = wizard
  const leave = () => goTo('')

  const asked = place.at === 'question' ? place.question : undefined
  const key = view !== '' ? hash : asked === undefined ? place.at : `${asked} ${context.log.length}`
  useArrival(key)

  const screen = (): VNode => {
    if (view === '#phone') return <PhoneScreen frame={frame} onBack={leave} />
    if (view === '#example')
      return book.complete ? (
        <Example
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
      return (
        <ReviewScreen
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
      )
    if (view === '#start' || place.at === 'start')
      return <Start frame={frame} wizard={wizard} store={store} onLeave={leave} />
    if (asked === undefined)
      return book.complete ? (
        <Outcome protocol={protocol} book={book} wizard={wizard} clock={clock} locale={locale} />
      ) : (
        <Waiting />
      )
    return <Ask key={key} book={book} wizard={wizard} question={asked} clock={clock} locale={locale} />
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
}): VNode {
  const { wizard, onLeave, frame, store } = props
  const here = wizard.context.log
  const log = here.length > 0 ? here : (store?.unfinished ?? [])
  const begin = (question?: string) => {
    void wizard.begin(question).then(onLeave)
  }
  const resume = () => {
    wizard.resume(log)
    onLeave()
  }
  return (
    <StartScreen
      frame={frame}
      onDoor={begin}
      onNone={() => begin()}
      {...(log.length > 0
        ? { unfinished: { answers: log.length, dropped: store?.dropped ?? 0, onResume: resume } }
        : {})}
    />
  )
}

interface Shared {
  readonly book: Book
  readonly clock: () => Moment
  readonly locale: string
}

function Ask(props: Shared & { wizard: Wizard; question: string }): VNode {
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
    ...(old ? [labels.lapsed(pastDay(old.given, now, locale))] : []),
    ...(forVet ? [labels.forVet] : []),
  ]
  return (
    <QuestionScreen
      question={question}
      words={words}
      draft={stands}
      notes={notes}
      clock={clock}
      onAnswer={entry => void wizard.answer(entry)}
      onBack={() => void wizard.back()}
      {...(forVet ? { onSkip: wizard.skip } : {})}
    />
  )
}

function Outcome(props: Shared & { protocol: Protocol; wizard: Wizard }): VNode {
  const { protocol, wizard, book, clock, locale } = props
  const { caseFile, now, log, skipped } = wizard.context
  const assessment = useMemo(() => assess(protocol, caseFile, now), [protocol, caseFile, now])
  const hasDetails = useMemo(() => {
    const { statuses } = standingOf(protocol, caseFile, now).known
    return protocol.logic.questions.some(
      ({ id, phase, forHandover }, at) =>
        (phase === 'handover' || forHandover) && statuses[at] === 'open' && !skipped.includes(id),
    )
  }, [protocol, caseFile, now, skipped])
  return (
    <OutcomeScreen
      book={book}
      assessment={assessment}
      caseFile={caseFile}
      locale={locale}
      onCare={(question, option) =>
        void wizard.answer({
          question: question.id,
          answer: { kind: 'choice', choice: option, given: clock().instant },
        })
      }
      onBack={() => void wizard.back()}
      {...(hasDetails ? { onDetails: wizard.details } : {})}
      onGoOn={() => wizard.resume(log)}
    />
  )
}

/** A finished case of an animal that does not exist. */
function Example(
  props: Shared & { protocol: Protocol; concern: string | undefined; onBack: () => void },
): VNode {
  const { protocol, book, clock, locale, onBack } = props
  const concern = book.frame.concerns.find(({ id }) => id === props.concern) ?? book.frame.concerns[0]
  const now = useMemo(clock, [clock])
  const caseFile = useMemo(
    () => inventedCase(inventedLog(protocol, book, concern?.id ?? '', now)),
    [protocol, book, concern, now],
  )
  const assessment = useMemo(() => assess(protocol, caseFile, now), [protocol, caseFile, now])
  if (!concern) return <ActionBar back={{ label: labels.back, onPress: onBack }} />
  return (
    <OutcomeScreen
      book={book}
      assessment={assessment}
      caseFile={caseFile}
      locale={locale}
      onBack={onBack}
      notice={`${labels.exampleNotice} ${concern.name}.`}
      below={
        <section class="section" aria-labelledby="others-title">
          <h2 class="section-title" id="others-title">
            {labels.exampleOthers}
          </h2>
          <ul class="link-list">
            {book.frame.concerns
              .filter(({ id }) => id !== concern.id)
              .map(({ id, name }) => (
                <li key={id}>
                  <a class="link-card" href={`#example/${id}`}>
                    <span class="link-card-label">{name}</span>
                  </a>
                </li>
              ))}
          </ul>
        </section>
      }
    />
  )
}
