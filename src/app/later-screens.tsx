/** The chart with its screens and pictures: all that the danger screens do without, fetched after the first paint. */
import type { VNode } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Moment } from '../../shared/moment.ts'
import type { KeeperStore } from '../records/keeper-store.ts'
import { assess } from '../triage/assess.ts'
import { standingOf } from '../triage/bounds.ts'
import { type Protocol, prepare } from '../triage/prepare.ts'
import type { LogEntry } from '../wizard/log.ts'
import { engineOf } from './chart-run.ts'
import type { FirstContent } from './content/first.ts'
import type { ClinicRoom, LaterContent, RecordRoom, Rest } from './content/later.ts'
import { BodyMap } from './drawing/BodyMap.tsx'
import { ShapeChooser } from './drawing/ShapeChooser.tsx'
import { inventedCase, inventedLog } from './example/invented-log.ts'
import { ActionBar } from './parts/ActionBar.tsx'
import type { Engine } from './run.ts'
import { OutcomeScreen } from './screens/OutcomeScreen.tsx'
import { QuestionScreen } from './screens/QuestionScreen.tsx'
import { ReviewScreen } from './screens/ReviewScreen.tsx'
import { useArrived } from './use-arrived.ts'
import { useDesk } from './use-desk.ts'
import type { Wizard } from './use-wizard.ts'
import { type Book, bookOf } from './wording/book.ts'
import { pastDay, whenWords } from './wording/dates.ts'
import { labels } from './wording/labels.ts'
import { progressNotes } from './wording/progress.ts'

export { GeckoDrawing } from './drawing/GeckoDrawing.tsx'
export { StartSearch } from './screens/StartSearch.tsx'
export { whenWords } from './wording/dates.ts'

/** Everything that was fetched, ready for use. */
export interface Knowledge {
  readonly protocol: Protocol
  readonly book: Book
  /** Whether the words behind the danger screens are all there. */
  readonly isWhole: boolean
}

/** Makes ready what there is so far; the care part of the logic comes with the later words. */
export function knowledgeOf(
  first: FirstContent,
  { logic, frame, dangerWords }: Rest,
  later: LaterContent | undefined,
): Knowledge {
  const rules = logic.rules.map((rule, at) => ({ ...rule, ...later?.care.rules[at] }))
  const whole = later ? { ...logic, rules, carePlans: later.care.carePlans } : logic
  const questions = { ...first.questions, ...dangerWords.questions }
  return {
    protocol: prepare(whole),
    book: bookOf(whole, frame, { ...dangerWords, questions }, later),
    isWhole: later !== undefined,
  }
}

/** Runs cases by the chart of a protocol; made once, it goes on while more words come in. */
export function engineFor({ logic }: Rest): Engine {
  return engineOf(prepare(logic))
}

interface Shared {
  readonly knowledge: Knowledge
  readonly clock: () => Moment
  readonly locale: string
  readonly onBack: () => void
}

/** What is said above a question whose answer has lapsed. */
export function lapsedNote(entry: LogEntry, now: Moment, locale: string): string {
  return labels.lapsed(pastDay(entry.answer.given, now, locale))
}

interface AskProps extends Shared {
  readonly wizard: Wizard
  readonly question: string
  /** What is shown while its words are on their way. */
  readonly waiting: VNode
}

/** One question behind the danger screens. */
export function Ask(props: AskProps): VNode {
  const { wizard, clock, locale } = props
  const { book } = props.knowledge
  const question = book.logicOf(props.question)
  const words = book.question(props.question)
  if (!question || !words) return props.waiting
  const { draft, log, now } = wizard.context
  const stands = draft?.question === question.id ? draft : undefined
  const old = stands ? undefined : log.find(entry => entry.question === question.id)
  const forVet = question.phase === 'handover' || question.forHandover
  const { of, context } = wizard
  const weighed =
    question.kind === 'weights' && of !== undefined ? context.caseFile.weighIns.at(-1) : undefined
  return (
    <QuestionScreen
      question={question}
      words={words}
      draft={stands}
      notes={[
        ...progressNotes(book.frame, question),
        ...(old ? [lapsedNote(old, now, locale)] : []),
        ...(weighed ? [labels.onRecord(weighed.massGrams, pastDay(weighed.at, now, locale))] : []),
        ...(forVet ? [labels.forVet] : []),
      ]}
      pictures={{ BodyMap, ShapeChooser }}
      isOnRecord={weighed !== undefined}
      clock={clock}
      onAnswer={entry => void wizard.answer(entry)}
      onBack={props.onBack}
      {...(forVet ? { onSkip: wizard.skip } : {})}
    />
  )
}

/** An outcome looked at later than this after it was made says when it was made. */
const STILL_NOW_MS = 3_600_000

const loadEnclosure = () => import('./enclosure/EnclosureScreens.tsx')

/** The check of the animal's home: desk work, fetched when it is opened. */
export function Enclosure(
  props: Omit<Shared, 'onBack'> & {
    readonly wizard: Wizard
    readonly hash: string
    readonly store: KeeperStore
    readonly onGo: (hash: string) => void
  },
): VNode {
  const { wizard, knowledge } = props
  const { part, words } = useDesk(loadEnclosure)
  const { log, caseFile, now } = wizard.context
  const caseKey = wizard.place.at === 'outcome' ? log[0]?.answer.given : undefined
  if (part)
    return (
      <part.EnclosureScreens
        {...props}
        title={labels.enclosureTitle}
        frame={knowledge.book.frame}
        behind={
          caseKey === undefined
            ? undefined
            : { caseKey, caseFile, concerns: assess(knowledge.protocol, caseFile, now).concerns }
        }
      />
    )
  return (
    <>
      <main class="main">
        <h1 tabIndex={-1}>{labels.enclosureTitle}</h1>
        <p role="status">{words}</p>
      </main>
      <ActionBar back={{ label: labels.back, href: '#start' }} />
    </>
  )
}

/** The outcome of the case under way. */
export function Outcome(
  props: Shared & {
    readonly wizard: Wizard
    /** What is said of its home, once that is there. */
    readonly home: RecordRoom['home'] | undefined
    readonly clinic?: ClinicRoom | undefined
  },
): VNode {
  const { wizard, clock, locale } = props
  const home = useArrived(props.home)
  const { protocol, book } = props.knowledge
  const { caseFile, now, log, skipped } = wizard.context
  const assessment = useMemo(() => assess(protocol, caseFile, now), [protocol, caseFile, now])
  const hasDetails = useMemo(() => {
    const { statuses } = standingOf(protocol, caseFile, now).known
    return protocol.logic.questions.some(
      ({ id, phase, forHandover }, at) =>
        (phase === 'handover' || forHandover) && statuses[at] === 'open' && !skipped.includes(id),
    )
  }, [protocol, caseFile, now, skipped])
  const isOld = Date.parse(clock().instant) - Date.parse(now.instant) > STILL_NOW_MS
  const ofClinic = { assessment, book, now: clock(), locale }
  return (
    <OutcomeScreen
      {...(props.clinic
        ? {
            above: <props.clinic.AboveOutcome {...ofClinic} />,
            numbers: <props.clinic.InOutcome {...ofClinic} />,
          }
        : {})}
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
      onBack={props.onBack}
      home={home && <home.PutRight {...{ book, assessment, caseFile, locale }} of={wizard.of} />}
      {...(isOld
        ? {
            notice: labels.outcomeFrom(whenWords(now.instant, clock(), locale)),
            below: (
              <button class="action" type="button" onClick={() => wizard.resume(log)}>
                {labels.askAgain}
              </button>
            ),
          }
        : {})}
      {...(hasDetails ? { onDetails: wizard.details } : {})}
      onGoOn={() => wizard.resume(log)}
    />
  )
}

/** A finished case of an animal that does not exist. */
export function Example(props: Shared & { readonly concern: string | undefined }): VNode {
  const { clock, locale, onBack } = props
  const { protocol, book } = props.knowledge
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

/** Every answer of the case under way. */
export function Review(props: Shared & { readonly wizard: Wizard }): VNode {
  const { wizard, knowledge, locale, onBack } = props
  const { log, now } = wizard.context
  return (
    <ReviewScreen
      book={knowledge.book}
      log={log}
      now={now}
      locale={locale}
      onBack={onBack}
      onChange={wizard.change}
    />
  )
}
