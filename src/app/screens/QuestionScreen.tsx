/** One question: whatever its kind, one decision, and the way on at the bottom. */
import type { VNode } from 'preact'
import { useRef, useState } from 'preact/hooks'
import { CANNOT_MEASURE, CANNOT_TELL } from '../../../shared/answers.ts'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { LogEntry } from '../../wizard/log.ts'
import type { BodyMap } from '../drawing/BodyMap.tsx'
import type { GeckoShape } from '../drawing/geckoOutline.ts'
import type { ShapeChooser } from '../drawing/ShapeChooser.tsx'
import { type Action, ActionBar } from '../parts/ActionBar.tsx'
import { type Choice, ChoiceList } from '../parts/ChoiceList.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { Field } from '../parts/Field.tsx'
import { SeveralList } from '../parts/SeveralList.tsx'
import { labels, unitWords } from '../wording/labels.ts'
import { regionsIn } from '../wording/regions.ts'
import {
  type AnswerForm,
  allowsNone,
  type FormFaults,
  formOf,
  ON_DATE,
  presetValue,
  readForm,
} from './answer-form.ts'

/** The drawings that help to answer; a plain list stands in until they are there. */
export interface Pictures {
  readonly BodyMap: typeof BodyMap
  readonly ShapeChooser: typeof ShapeChooser
}

export interface QuestionScreenProps {
  readonly pictures?: Pictures
  readonly question: Question
  readonly words: QuestionWords
  /** What was answered before and may stand. */
  readonly draft: LogEntry | undefined
  /** A line above the question: which page of how many, that an answer has lapsed, what it is for. */
  readonly notes: readonly string[]
  readonly clock: () => Moment
  readonly onAnswer: (entry: LogEntry) => void
  readonly onBack: () => void
  readonly onSkip?: () => void
}

const FORM = 'question-form'

/** Content that says itself how to tick needs no second line. */
const TICK = /\btick\b/i

export function QuestionScreen(props: QuestionScreenProps): VNode {
  const { question, words, clock } = props
  const [form, setForm] = useState(() => formOf(words, props.draft, clock()))
  const [faults, setFaults] = useState<FormFaults>({})
  const formElement = useRef<HTMLFormElement>(null)
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
      // Where the fault is, so that a keyboard or a screen reader arrives there.
      requestAnimationFrame(() =>
        formElement.current?.querySelector<HTMLElement>('[aria-invalid], input')?.focus(),
      )
    }
  }
  const general = faults.picked ?? faults.ticked

  return (
    <>
      <main class="main">
        <form
          class="question-form"
          id={FORM}
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
          <Body
            question={question}
            words={words}
            form={form}
            faults={faults}
            change={change}
            pictures={props.pictures}
          />
          <div role="alert">{general === undefined ? null : <p class="field-fault">{general}</p>}</div>
          {words.howTo === undefined ? null : (
            <Disclosure summary={labels.notLooked}>
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
      <ActionBar back={{ label: labels.back, onPress: props.onBack }} {...actions(props, form, take)} />
    </>
  )
}

/** A picked line stays while a field beside it is filled in, but not where there are only fields. */
function keptPick(question: Question, form: AnswerForm): Partial<AnswerForm> {
  return question.kind === 'since' || question.kind === 'choice' ? { picked: form.picked } : {}
}

/** The buttons of a question: what else may be said, and the way on. */
function actions(
  props: QuestionScreenProps,
  form: AnswerForm,
  take: (form: AnswerForm) => void,
): { main: Action; other?: Action } {
  const { question, words, onSkip } = props
  const skip = onSkip === undefined ? {} : { other: { label: labels.skip, onPress: onSkip } }
  if (question.kind === 'several') {
    const some = form.ticked.length > 0
    const none = allowsNone(question, words) && !some
    const cannot = {
      label: some ? labels.cannotTellRest : labels.cannotTell,
      onPress: () => {
        const given = props.clock().instant
        props.onAnswer({
          question: question.id,
          answer: { kind: 'several', chosen: form.ticked, rest: CANNOT_TELL, given },
        })
      },
    }
    return {
      main: {
        label: none
          ? (words.noneText ?? labels.noneOfThese)
          : some && question.phase !== 'concern'
            ? labels.thisIsWhatISee
            : labels.goOn,
        form: FORM,
      },
      ...(question.cannotTell ? { other: cannot } : skip),
    }
  }
  const measured = question.kind === 'amount' || question.kind === 'weights'
  const cannot = {
    label: question.kind === 'weights' ? labels.cannotWeigh : labels.cannotMeasure,
    onPress: () => take({ ...form, picked: CANNOT_MEASURE }),
  }
  return {
    main: { label: labels.goOn, form: FORM },
    ...(onSkip ? skip : measured && question.cannotMeasure ? { other: cannot } : {}),
  }
}

interface BodyProps {
  readonly question: Question
  readonly words: QuestionWords
  readonly form: AnswerForm
  readonly faults: FormFaults
  readonly change: (part: Partial<AnswerForm>) => void
  readonly pictures: Pictures | undefined
}

function Body({ question, words, form, faults, change, pictures }: BodyProps): VNode {
  const help = words.help === undefined ? {} : { hint: words.help }
  const options = question.options.map((value, at) => {
    const { text, hint } = words.options[at] ?? { text: value }
    return { value, label: text, ...(hint === undefined ? {} : { hint }) }
  })
  const cannotTell: Choice[] = question.cannotTell
    ? [{ value: CANNOT_TELL, label: labels.cannotTell, apart: true }]
    : []

  switch (question.kind) {
    case 'several': {
      const shared = {
        name: FORM,
        title: words.ask,
        hint:
          words.help === undefined
            ? labels.tickAll
            : TICK.test(words.help)
              ? words.help
              : `${words.help} ${labels.tickAll}`,
        chosen: form.ticked,
        onChange: (ticked: string[]) => change({ ticked }),
      }
      return words.picture === undefined || !pictures ? (
        <SeveralList {...shared} options={options} />
      ) : (
        <pictures.BodyMap
          {...shared}
          options={options.map(option => ({ ...option, regions: regionsIn(option.label) }))}
        />
      )
    }
    case 'choice': {
      const list = {
        name: FORM,
        title: words.ask,
        ...help,
        chosen: form.picked,
        onChoose: (picked: string) => change({ picked }),
      }
      if (words.picture === undefined || words.picture === 'body-map' || !pictures)
        return <ChoiceList {...list} options={[...options, ...cannotTell]} />
      const shaped = options.map((option, at) => ({ ...option, shape: shapeAt(at, options.length) }))
      return <pictures.ShapeChooser {...list} neckGuides options={[...shaped, ...cannotTell]} />
    }
    case 'since': {
      const presets = (words.presets ?? []).map((preset, at) => ({
        value: presetValue(at),
        label: preset.text,
      }))
      const cannot: Choice[] = question.cannotMeasure
        ? [{ value: CANNOT_MEASURE, label: labels.cannotSay, apart: true }]
        : []
      return (
        <>
          <ChoiceList
            name={FORM}
            title={words.ask}
            {...help}
            options={[
              ...presets,
              ...options,
              { value: ON_DATE, label: labels.onDate },
              ...cannotTell,
              ...cannot,
            ]}
            chosen={form.picked}
            onChoose={picked => change({ picked })}
          />
          {form.picked === ON_DATE ? (
            <Field
              name="day"
              label={labels.date}
              kind="date"
              value={form.day}
              onInput={day => change({ day })}
              {...faultOf(faults.day)}
            />
          ) : null}
        </>
      )
    }
    case 'amount':
      return (
        <>
          <Heading words={words} />
          <Field
            name="number"
            label={labels.reading}
            kind="number"
            unit={unitWords(question.range?.unit ?? '')}
            value={form.number}
            onInput={number => change({ number })}
            {...faultOf(faults.number)}
          />
        </>
      )
    case 'weights':
      return (
        <>
          <Heading words={words} />
          <Field
            name="number"
            label={labels.today}
            kind="number"
            unit={unitWords(question.range?.unit ?? '')}
            value={form.number}
            onInput={number => change({ number })}
            {...faultOf(faults.number)}
          />
          <Field
            name="earlier-number"
            label={labels.earlier}
            hint={labels.earlierHint}
            kind="number"
            unit={unitWords(question.range?.unit ?? '')}
            value={form.earlierNumber}
            onInput={earlierNumber => change({ earlierNumber })}
            {...faultOf(faults.earlierNumber)}
          />
          <Field
            name="earlier-day"
            label={labels.earlierDay}
            kind="date"
            value={form.earlierDay}
            onInput={earlierDay => change({ earlierDay })}
            {...faultOf(faults.earlierDay)}
          />
        </>
      )
  }
}

function faultOf(fault: string | undefined): { fault?: string } {
  return fault === undefined ? {} : { fault }
}

function Heading({ words }: { words: QuestionWords }): VNode {
  return (
    <>
      <h1 tabIndex={-1}>{words.ask}</h1>
      {words.help === undefined ? null : <p class="question-hint">{words.help}</p>}
    </>
  )
}

/** Pictures from full to thin, evenly over the options, which stand from mildest to worst. */
function shapeAt(at: number, count: number): Partial<GeckoShape> {
  const worse = count > 1 ? at / (count - 1) : 0
  return { tailWidth: 1.25 - worse, condition: 0.3 - 1.3 * worse }
}
