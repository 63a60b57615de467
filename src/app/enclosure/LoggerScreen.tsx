/** A logger's file: chosen, asked about where it does not tell, then summed up and drawn. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import type { Fault } from '../../../shared/result.ts'
import type { LoggerOutcome } from '../../enclosure/logger.ts'
import { Faults, FileField } from '../record/FilePart.tsx'
import { Form, Input, Page, Select } from '../record/parts.tsx'
import { sentence } from '../record/read-fields.ts'
import type { Desk } from './desk.ts'
import { LoggerResult } from './LoggerResult.tsx'

type Question = Extract<LoggerOutcome, { kind: 'question' }>['question']

const NO_PLACE = '-'

/** Options of a question in plain words, where the file's own names are not what is chosen from. */
const LINES: Readonly<Record<string, string>> = {
  celsius: 'Degrees Celsius (°C)',
  fahrenheit: 'Degrees Fahrenheit (°F)',
  'day-first': 'The day comes first',
  'month-first': 'The month comes first',
}

export function LoggerScreen({ desk }: { readonly desk: Desk }): VNode {
  const { enclosure, readLogger, locale, at } = desk
  const { places } = enclosure.logger
  const [file, setFile] = useState<File>()
  const [answers, setAnswers] = useState<LoggerAnswers>({})
  const [set, setSet] = useState('')
  const [setFault, setSetFault] = useState<string>()
  const [isBusy, setBusy] = useState(false)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const [outcome, setOutcome] = useState<LoggerOutcome>()

  const read = async (given: File, told: LoggerAnswers) => {
    setFile(given)
    setAnswers(told)
    setBusy(true)
    const done = await readLogger(given, enclosure, told)
    setBusy(false)
    setFaults(done.ok ? [] : done.faults)
    setOutcome(done.ok ? done.value : undefined)
  }
  const again = (more: LoggerAnswers) => {
    const told = { ...answers, ...more }
    setAnswers(told)
    if (file) void read(file, told)
  }
  const sendSet = async () => {
    const written = set.trim()
    const value = Number(written.replace(',', '.'))
    const fits = written !== '' && value >= 0 && value <= 60
    setSetFault(
      fits || written === ''
        ? undefined
        : sentence('Thermostat', { value: written, accepted: 'a number from 0 to 60 °C' }),
    )
    const { setCelsius: _old, ...rest } = answers
    if (file && (fits || written === '')) await read(file, fits ? { ...rest, setCelsius: value } : rest)
  }
  const result = outcome?.kind === 'summary' ? outcome.summary : undefined
  return (
    <Page title="A logger’s file" back={{ label: 'All parts', href: at() }}>
      <p>
        A table of times with temperature or humidity, as loggers save it (CSV). It is read on this device and
        not kept.
      </p>
      <Select
        name="logger-place"
        label="Where did the sensor lie?"
        value={answers.place ?? NO_PLACE}
        options={[
          [NO_PLACE, 'Not answered: no ranges are drawn'],
          ...places.map(({ id, name }) => [id, name] as const),
        ]}
        onChoose={place => {
          const { place: _old, ...rest } = answers
          const told = place === NO_PLACE ? rest : { ...rest, place }
          setAnswers(told)
          if (file) void read(file, told)
        }}
      />
      <FileField
        name="logger-file"
        label="The file"
        accept=".csv,.txt,.tsv,text/csv,text/plain"
        // A new file may have other columns; where the sensor lay stays as it was told.
        onFile={given => void read(given, answers.place === undefined ? {} : { place: answers.place })}
      />
      <div role="status">{isBusy ? <p>Reading {file?.name}.</p> : null}</div>
      <Faults faults={faults} />
      {outcome?.kind === 'question' ? (
        <AskPart key={outcome.question.answer} question={outcome.question} onAnswer={again} />
      ) : null}
      {result === undefined ? null : (
        <>
          <LoggerResult summary={result} enclosure={enclosure} place={answers.place} locale={locale} />
          <Form look="one-line" onSend={sendSet}>
            <Input
              name="set-celsius"
              kind="number"
              label="What is the thermostat set to?"
              hint="Leave it empty if you do not know."
              unit="°C"
              value={set}
              onInput={setSet}
              fault={setFault}
            />
            <button class="action" type="submit">
              Read again
            </button>
          </Form>
        </>
      )}
    </Page>
  )
}

/** What the file does not tell, asked once, with what stands in it. */
function AskPart(props: { question: Question; onAnswer: (answers: LoggerAnswers) => void }): VNode {
  const { ask, accepted, seen, answer } = props.question
  const [chosen, setChosen] = useState(accepted[0] ?? '')
  return (
    <Form
      onSend={async () => {
        props.onAnswer({ [answer]: chosen })
      }}
    >
      <Select
        name="logger-question"
        label={ask}
        value={chosen}
        options={accepted.map(one => [one, LINES[one] ?? one] as const)}
        onChoose={setChosen}
      />
      <p class="question-hint">In the file: {seen.join(' · ')}</p>
      <button class="action action-main" type="submit">
        Read it so
      </button>
    </Form>
  )
}
