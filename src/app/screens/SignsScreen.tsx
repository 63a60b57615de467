/** One page of urgent signs. It stands apart from the other questions so that the first load carries only this kind. */
import type { VNode } from 'preact'
import { useRef, useState } from 'preact/hooks'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { LogEntry } from '../../wizard/log.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { SeveralList } from '../parts/SeveralList.tsx'
import { firstLabels as labels } from '../wording/first-labels.ts'

export interface SignsScreenProps {
  readonly question: Question
  readonly words: QuestionWords
  /** What was answered before and may stand. */
  readonly draft: LogEntry | undefined
  /** Lines above the question. */
  readonly notes: readonly string[]
  readonly clock: () => Moment
  readonly onAnswer: (entry: LogEntry) => void
  readonly onBack: () => void
}

const FORM = 'question-form'

export function SignsScreen({
  question,
  words,
  draft,
  notes,
  clock,
  onAnswer,
  onBack,
}: SignsScreenProps): VNode {
  const [ticked, setTicked] = useState(() => (draft?.answer.kind === 'several' ? draft.answer.chosen : []))
  const answer = (rest: 'no' | 'cannot-tell') =>
    onAnswer({
      question: question.id,
      answer: { kind: 'several', chosen: ticked, rest, given: clock().instant },
    })
  const [lookedFirst, setLookedFirst] = useState(false)
  const formElement = useRef<HTMLFormElement>(null)
  const some = ticked.length > 0
  // Not telling may count as much as seeing it, so it waits until it was shown how to look.
  const cannot =
    words.howTo === undefined
      ? { label: some ? labels.cannotTellRest : labels.cannotTell, onPress: () => answer('cannot-tell') }
      : lookedFirst
        ? {
            label: some ? labels.stillCannotTellRest : labels.stillCannotTell,
            onPress: () => answer('cannot-tell'),
          }
        : {
            label: labels.lookFirst,
            onPress: () => {
              setLookedFirst(true)
              requestAnimationFrame(() => {
                const summary = formElement.current?.querySelector('summary')
                summary?.focus()
                summary?.scrollIntoView?.({ block: 'center' })
              })
            },
          }
  return (
    <>
      <main class="main">
        <form
          class="question-form"
          id={FORM}
          ref={formElement}
          onSubmit={event => {
            event.preventDefault()
            answer('no')
          }}
        >
          {notes.map(note => (
            <p key={note} class="question-back-note">
              {note}
            </p>
          ))}
          <SeveralList
            name={FORM}
            title={words.ask}
            hint={`${labels.tickAll} ${labels.lines(question.options.length)}`}
            options={question.options.map((value, at) => ({
              value,
              label: words.options[at]?.text ?? value,
              ...(words.options[at]?.hint === undefined ? {} : { hint: words.options[at].hint }),
            }))}
            chosen={ticked}
            onChange={setTicked}
          />
          {words.howTo === undefined ? null : (
            <Disclosure summary={lookedFirst ? labels.lookFirstLead : labels.notLooked} open={lookedFirst}>
              <ul>
                {words.howTo.map(line => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              <p>{labels.pageWaits}</p>
            </Disclosure>
          )}
        </form>
      </main>
      <ActionBar
        flows
        back={{ label: labels.back, onPress: onBack }}
        other={cannot}
        main={{ label: some ? labels.thisIsWhatISee : labels.noneOfThese, form: FORM }}
      />
    </>
  )
}
