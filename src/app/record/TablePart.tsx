/** Weights as a table (CSV), out and in: what the file leaves open is asked, and what would change is shown first. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Fault } from '../../../shared/result.ts'
import type { FileQuestion, ReadOptions, WeightsRead } from '../../records/csv/read-weights.ts'
import type { Preview } from '../../records/preview.ts'
import { dayOf } from '../../triage/calendar.ts'
import { saveFile } from '../save-file.ts'
import { Faults, FileField } from './FilePart.tsx'
import type { Room } from './keeper.ts'
import { PreviewPart } from './PreviewPart.tsx'
import { Select } from './parts.tsx'
import { dayWords } from './words.ts'

/** The table reader comes when a table does. */
const csv = {
  read: () => import('../../records/csv/read-weights.ts'),
  plan: () => import('../../records/csv/plan-weights.ts'),
  write: () => import('../../records/csv/write-weights.ts'),
}

type Answers = Pick<ReadOptions, 'dateOrder' | 'unit'>
const UNITS = ['g', 'kg', 'oz', 'lb'] as const

/** A table that was handed over, how far it was understood, and what was answered so far. */
interface Given {
  readonly text: string | File
  readonly answers: Answers
  readonly read?: WeightsRead
  readonly preview?: Preview
  readonly close?: number
}

export function TablePart(props: {
  readonly room: Room
  readonly onTake: (entries: Preview['entries']) => Promise<void>
}): VNode {
  const { room, onTake } = props
  const { store, clock, locale, record } = room
  const [given, setGiven] = useState<Given>()
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const [pasted, setPasted] = useState('')
  const { zone } = clock()

  const plan = async (text: Given['text'], answers: Answers, read: WeightsRead, animalId?: string) => {
    if (read.kind === 'refused') {
      setFaults(read.faults)
      setGiven(undefined)
      return
    }
    setFaults([])
    setGiven({ text, answers, read })
    if (read.kind === 'asks' || (!read.namesAnimals && animalId === undefined)) return
    const { instant: now } = clock()
    const { planWeights } = await csv.plan()
    const planned = planWeights(store.record(), read.rows, {
      writing: store.writing(now),
      now,
      ...(animalId === undefined ? {} : { fallback: { kind: 'known', animalId } }),
    })
    if (planned.ok)
      setGiven({ text, answers, read, preview: planned.value, close: planned.value.closeInTime.length })
    else {
      setFaults(planned.faults)
      setGiven(undefined)
    }
  }
  const read = async (text: Given['text'], answers: Answers) => {
    const { parseWeights, readWeights } = await csv.read()
    const options = { zone, ...answers }
    await plan(
      text,
      answers,
      typeof text === 'string' ? parseWeights(text, options) : await readWeights(text, options),
    )
  }
  const save = async () => {
    const { writeWeights } = await csv.write()
    const day = dayOf(Date.parse(clock().instant), zone)
    saveFile(`duskcheck-weights-${day}.csv`, 'text/csv', writeWeights(store.record()))
    room.tell('The table is saved where this device keeps downloads.')
  }
  const found = given?.read
  return (
    <section class="section" aria-labelledby="table-title">
      <h2 class="section-title" id="table-title">
        Weights as a table
      </h2>
      <p>A CSV file, as every spreadsheet writes and reads it.</p>
      <p>
        <button class="action" type="button" onClick={() => void save()}>
          Save all weights as a table
        </button>
      </p>
      <FileField
        name="table"
        label="Read a table of weights"
        accept=".csv,.txt,.tsv,text/csv"
        onFile={file => void read(file, {})}
      />
      <div class="field">
        <label class="field-label" for="pasted">
          Or paste it here
        </label>
        <p class="field-hint" id="pasted-hint">
          A first line with names such as date, weight, animal, and a line for each weight.
        </p>
        <textarea
          class="field-input"
          id="pasted"
          rows={4}
          aria-describedby="pasted-hint"
          value={pasted}
          onInput={event => setPasted(event.currentTarget.value)}
        />
        <p>
          <button class="action" type="button" onClick={() => void read(pasted, {})}>
            Read what is pasted
          </button>
        </p>
      </div>
      <Faults faults={faults} />
      {given && found?.kind === 'asks'
        ? found.questions.map(question => (
            <Question
              key={question.kind}
              question={question}
              locale={locale}
              onAnswer={answer => void read(given.text, { ...given.answers, ...answer })}
            />
          ))
        : null}
      {given && found?.kind === 'read' && !found.namesAnimals && !given.preview ? (
        <Select
          name="whose"
          label="Whose weights are these?"
          value=""
          options={[
            ['', 'Choose'],
            ...record.animals.map(({ animalId, animal }) => [animalId, animal.name] as const),
          ]}
          onChoose={animalId => void plan(given.text, given.answers, found, animalId)}
        />
      ) : null}
      {found?.kind === 'read' && found.withoutWeight.length > 0 ? (
        <p>
          {found.withoutWeight.length === 1 ? '1 line has' : `${found.withoutWeight.length} lines have`} no
          weight and {found.withoutWeight.length === 1 ? 'is' : 'are'} passed over.
        </p>
      ) : null}
      {given?.close ? (
        <p>
          {given.close === 1 ? '1 weight lies' : `${given.close} weights lie`} within two minutes of another
          one.
        </p>
      ) : null}
      {given?.preview ? (
        <PreviewPart
          preview={given.preview}
          onTake={() => {
            const { entries } = given.preview ?? { entries: [] }
            setGiven(undefined)
            void onTake(entries)
          }}
          onLeave={() => setGiven(undefined)}
        />
      ) : null}
    </section>
  )
}

/** What the file leaves open, asked once for all of it. */
function Question(props: {
  question: FileQuestion
  locale: string
  onAnswer: (answer: Answers) => void
}): VNode {
  const { question, locale, onAnswer } = props
  if (question.kind === 'unit')
    return (
      <Select
        name="unit"
        label={`In which unit is \u201c${question.text}\u201d?`}
        value=""
        options={[['', 'Choose'], ...UNITS.map(unit => [unit, unit] as const)]}
        onChoose={value => {
          const unit = UNITS.find(one => one === value)
          if (unit) onAnswer({ unit })
        }}
      />
    )
  const day = (text: string) => dayWords(`${text}T12:00:00Z`, 'UTC', locale)
  return (
    <Select
      name="order"
      label={`Which day is \u201c${question.text}\u201d?`}
      value=""
      options={[
        ['', 'Choose'],
        ['day-first', day(question.dayFirst)],
        ['month-first', day(question.monthFirst)],
      ]}
      onChoose={value => {
        if (value === 'day-first' || value === 'month-first') onAnswer({ dateOrder: value })
      }}
    />
  )
}
