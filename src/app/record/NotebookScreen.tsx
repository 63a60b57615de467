/** A notebook, typed in fast: a day that moves on by itself, a number, Enter. Every line is saved at once. */
import type { VNode } from 'preact'
import { useRef, useState } from 'preact/hooks'
import type { AnimalRecord, Kept, KeptWeighIn } from '../../../shared/record.ts'
import { remove, saveWeighIn } from '../../records/actions.ts'
import { checkWeighIn } from '../../records/check-input.ts'
import { dayOf } from '../../triage/calendar.ts'
import type { Room } from './keeper.ts'
import { FORM, Form, Input, LineButton, Page, Select } from './parts.tsx'
import { dayAfter, doubtWords, readDay, readGrams, sentence, stepFor } from './read-fields.ts'
import { useFocus } from './use-focus.ts'
import { lastStep } from './WeighScreen.tsx'
import { dayWords, numberWords } from './words.ts'

const GAPS = [
  ['1', '1 day later'],
  ['3', '3 days later'],
  ['7', '7 days later'],
  ['14', '14 days later'],
  ['30', '30 days later'],
] as const

export function NotebookScreen({ room, kept }: { readonly room: Room; readonly kept: AnimalRecord }): VNode {
  const { clock, locale, save } = room
  const now = clock()
  const today = dayOf(Date.parse(now.instant), now.zone)
  const [day, setDay] = useState('')
  const [weight, setWeight] = useState('')
  const [gap, setGap] = useState('7')
  const [added, setAdded] = useState<readonly string[]>([])
  const [faults, setFaults] = useState<{ weight?: string; day?: string }>({})
  const step = useRef(lastStep(room, kept))
  useFocus(day === '' ? 'day' : 'weight', added.length)
  const { grams } = numberWords(locale)

  const add = async () => {
    const mass = readGrams(weight)
    const at = readDay(day, clock())
    if ('fault' in mass || 'fault' in at) {
      setFaults({
        ...('fault' in mass ? { weight: mass.fault } : {}),
        ...('fault' in at ? { day: at.fault } : {}),
      })
      return
    }
    step.current = stepFor(mass.value, step.current)
    const weighIn = { at: at.value, massGrams: mass.value, scaleStepGrams: step.current }
    const { faults: found, needsConfirm } = checkWeighIn(weighIn, kept, clock().instant)
    const [fault] = found
    const doubts = needsConfirm.map(doubt => doubtWords(doubt, now, locale)).join(' ')
    if (fault !== undefined || (doubts !== '' && doubts !== faults.day)) {
      setFaults({ day: fault === undefined ? doubts : sentence('Day', { ...fault, value: day }) })
      return
    }
    setFaults({})
    setWeight('')
    const next = dayAfter(day, Number(gap))
    // Days are compared as text, and no weighing lies in the future.
    setDay([next, today].sort()[0] ?? today)
    const entry = await save(
      `Saved: ${grams(mass.value)}, ${dayWords(at.value, now.zone, locale)}.`,
      writing => saveWeighIn(writing, kept.animalId, weighIn),
    )
    const { itemId } = 'itemId' in entry ? entry : { itemId: undefined }
    // A fast typist is a line ahead of the store.
    if (itemId !== undefined) setAdded(before => [itemId, ...before])
  }
  const lines = added.flatMap(itemId => kept.weighIns.find(one => one.itemId === itemId) ?? [])
  return (
    <Page
      title={`Weights of ${kept.animal.name} from paper`}
      back={{ label: 'Done', href: `#animal/${kept.animalId}` }}
      main={{ label: 'Next line', form: FORM }}
    >
      <p class="question-hint">
        Begin with the oldest. Type a weight and press Enter: it is saved, and the day moves on.
      </p>
      <Form look="notebook" onSend={add}>
        <Input name="day" kind="date" label="Day" value={day} onInput={setDay} fault={faults.day} />
        <Input
          name="weight"
          kind="number"
          label="Weight"
          unit="g"
          value={weight}
          onInput={setWeight}
          fault={faults.weight}
        />
      </Form>
      <Select name="gap" label="The next line is" value={gap} options={GAPS} onChoose={setGap} />
      <p role="status">{lines.length === 0 ? '' : `${lines.length} in so far.`}</p>
      <ol class="past" reversed>
        {lines.map(line => (
          <Line key={line.itemId} room={room} kept={kept} line={line} />
        ))}
      </ol>
      <p>
        Do you have them in a file? <a href="#keep">Read a table of weights</a>.
      </p>
    </Page>
  )
}

function Line(props: { room: Room; kept: AnimalRecord; line: Kept<KeptWeighIn> }): VNode {
  const { room, kept, line } = props
  const { clock, locale, save } = room
  const words = `${numberWords(locale).grams(line.massGrams)}, ${dayWords(line.at, clock().zone, locale)}`
  return (
    <li class="past-row">
      <p class="past-words">{words}</p>
      <LineButton
        words="Delete"
        of={words}
        onPress={() => save(`Deleted: ${words}.`, writing => remove(writing, kept.animalId, line.itemId))}
      />
    </li>
  )
}
