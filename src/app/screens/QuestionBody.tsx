/** The controls of one question, by its kind. */
import type { VNode } from 'preact'
import { CANNOT_MEASURE, CANNOT_TELL } from '../../../shared/answers.ts'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import { unitWords } from '../../handover/answer-words.ts'
import type { BodyMap } from '../drawing/BodyMap.tsx'
import type { GeckoShape } from '../drawing/geckoShape.ts'
import type { ShapeChooser } from '../drawing/ShapeChooser.tsx'
import { type Choice, ChoiceList } from '../parts/ChoiceList.tsx'
import { Field } from '../parts/Field.tsx'
import { SeveralList } from '../parts/SeveralList.tsx'
import { labels } from '../wording/labels.ts'
import { regionsIn } from '../wording/regions.ts'
import { type AnswerForm, FORM_ID, type FormFaults, ON_DATE, presetValue } from './answer-form.ts'

/** The drawings that help to answer; a plain list stands in until they are there. */
export interface Pictures {
  readonly BodyMap: typeof BodyMap
  readonly ShapeChooser: typeof ShapeChooser
}

/** Content that says itself how to tick needs no second line. */
const TICK = /\btick\b/i

export interface QuestionBodyProps {
  readonly question: Question
  readonly words: QuestionWords
  readonly form: AnswerForm
  readonly faults: FormFaults
  readonly change: (part: Partial<AnswerForm>) => void
  readonly pictures: Pictures | undefined
  /** Earlier weights are on record: only today's is asked. */
  readonly isOnRecord: boolean | undefined
}

export function QuestionBody(props: QuestionBodyProps): VNode {
  const { question, words, form, change, pictures } = props
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
        name: FORM_ID,
        title: words.ask,
        hint: severalHint(words),
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
        name: FORM_ID,
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
            name={FORM_ID}
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
          {form.picked === ON_DATE ? <DayField {...props} name="day" label={labels.date} /> : null}
        </>
      )
    }
    case 'amount':
      return (
        <>
          <Heading words={words} />
          <NumberField {...props} name="number" label={labels.reading} />
        </>
      )
    case 'weights':
      return (
        <>
          <Heading words={words} />
          <NumberField {...props} name="number" label={labels.today} />
          {props.isOnRecord ? null : (
            <>
              <NumberField {...props} name="earlierNumber" label={labels.earlier} hint={labels.earlierHint} />
              <DayField {...props} name="earlierDay" label={labels.earlierDay} />
            </>
          )}
        </>
      )
  }
}

/** How to tick, and how many lines there are: on a small screen the last may be out of sight. */
function severalHint({ help, options }: QuestionWords): string {
  return [
    help,
    help !== undefined && TICK.test(help) ? undefined : labels.tickAll,
    labels.lines(options.length),
  ]
    .filter(part => part !== undefined)
    .join(' ')
}

interface FieldOfForm extends QuestionBodyProps {
  readonly name: 'number' | 'day' | 'earlierNumber' | 'earlierDay'
  readonly label: string
  readonly hint?: string
}

function fieldProps({ name, label, hint, form, faults, change }: FieldOfForm) {
  const fault = faults[name]
  return {
    name,
    label,
    value: form[name],
    onInput: (value: string) => change({ [name]: value }),
    ...(hint === undefined ? {} : { hint }),
    ...(fault === undefined ? {} : { fault }),
  }
}

function NumberField(props: FieldOfForm): VNode {
  return <Field {...fieldProps(props)} kind="number" unit={unitWords(props.question.range?.unit ?? '')} />
}

function DayField(props: FieldOfForm): VNode {
  return <Field {...fieldProps(props)} kind="date" />
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
