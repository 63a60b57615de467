/** One question: whatever its kind, one decision, and the way on at the bottom. */
import type { VNode } from 'preact'
import { useRef, useState } from 'preact/hooks'
import { CANNOT_TELL } from '../../../shared/answers.ts'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { LogEntry } from '../../wizard/log.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { labels } from '../wording/labels.ts'
import { type AnswerForm, FORM_ID, type FormFaults, formOf, readForm } from './answer-form.ts'
import { type Pictures, QuestionBody } from './QuestionBody.tsx'
import { looksFirst, questionActions } from './question-actions.ts'

export interface QuestionScreenProps {
  readonly pictures?: Pictures
  readonly question: Question
  readonly words: QuestionWords
  /** What was answered before and may stand. */
  readonly draft: LogEntry | undefined
  /** A line above the question: which page of how many, that an answer has lapsed, what it is for. */
  readonly notes: readonly string[]
  /** Earlier weights are on record: only today's is asked. */
  readonly isOnRecord?: boolean
  readonly clock: () => Moment
  readonly onAnswer: (entry: LogEntry) => void
  readonly onBack: () => void
  readonly onSkip?: () => void
}

export function QuestionScreen(props: QuestionScreenProps): VNode {
  const { question, words, clock } = props
  const [form, setForm] = useState(() => formOf(question, words, props.draft, clock()))
  const [faults, setFaults] = useState<FormFaults>({})
  const [lookedFirst, setLookedFirst] = useState(false)
  const formElement = useRef<HTMLFormElement>(null)
  /** So that a keyboard or a screen reader arrives there. */
  const arriveAt = (...selectors: readonly string[]) =>
    requestAnimationFrame(() => {
      const [found] = selectors.flatMap(
        selector => formElement.current?.querySelector<HTMLElement>(selector) ?? [],
      )
      found?.focus()
      found?.scrollIntoView?.({ block: 'center' })
    })
  const change = (part: Partial<AnswerForm>) => {
    // Whatever is typed or ticked takes the place of "can't tell".
    setForm({ ...form, picked: undefined, ...keptPick(question, form), ...part })
    setFaults({})
  }
  const take = (taken: AnswerForm) => {
    const read = readForm(question, words, taken, clock())
    if (read.ok) props.onAnswer(read.entry)
    else {
      setFaults(read.faults)
      arriveAt('[aria-invalid]', 'input')
    }
  }
  const lookFirst = () => {
    setLookedFirst(true)
    arriveAt('summary')
  }
  const general = faults.picked ?? faults.ticked

  return (
    <>
      <main class="main">
        <form
          class="question-form"
          id={FORM_ID}
          ref={formElement}
          noValidate
          onSubmit={event => {
            event.preventDefault()
            take(form)
          }}
        >
          {props.notes.map(note => (
            <p key={note} class="question-back-note">
              {note}
            </p>
          ))}
          <QuestionBody
            question={question}
            words={words}
            form={form}
            faults={faults}
            change={change}
            pictures={props.pictures}
            isOnRecord={props.isOnRecord}
          />
          <div role="alert">{general === undefined ? null : <p class="field-fault">{general}</p>}</div>
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
        back={{ label: labels.back, onPress: props.onBack }}
        {...questionActions(question, words, form, {
          take,
          cannotTellRest: () =>
            props.onAnswer({
              question: question.id,
              answer: { kind: 'several', chosen: form.ticked, rest: CANNOT_TELL, given: clock().instant },
            }),
          ...(looksFirst(question, words) && !lookedFirst ? { lookFirst } : {}),
          skip: props.onSkip,
        })}
      />
    </>
  )
}

/** A picked line stays while a field beside it is filled in, but not where there are only fields. */
function keptPick(question: Question, form: AnswerForm): Partial<AnswerForm> {
  return question.kind === 'since' || question.kind === 'choice' ? { picked: form.picked } : {}
}
