/** A weighing: one number and Save. The day, the scale and a meal are there for who wants them. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { AnimalRecord, KeptWeighIn } from '../../../shared/record.ts'
import { change, saveWeighIn } from '../../records/actions.ts'
import { checkWeighIn } from '../../records/check-input.ts'
import { dayOf } from '../../triage/calendar.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { Notice } from '../parts/Notice.tsx'
import { pastDay } from '../wording/dates.ts'
import type { Room } from './keeper.ts'
import { FORM, Form, Input, Page, Select } from './parts.tsx'
import { doubtWords, readDay, readGrams, sentence, stepFor } from './read-fields.ts'
import { useFocus } from './use-focus.ts'
import { numberWords } from './words.ts'

/** In the place of a weighing's name: a second one right after the first, which was asked for. */
export const AGAIN = 'again'

const STEPS = [0.01, 0.1, 0.5, 1, 2, 5]
const MEALS = ['', 'before', 'after'] as const
const MEAL_WORDS = { '': 'Not said', before: 'Before a meal', after: 'After a meal' }

/** The step of the scale that was used last, for this animal or else for any. */
export function lastStep({ record, content }: Room, kept: AnimalRecord): number {
  const ofAny = record.animals.flatMap(({ weighIns }) => weighIns.at(-1) ?? [])
  const newest = ofAny.sort((one, other) => Date.parse(other.at) - Date.parse(one.at))[0]
  return (
    kept.weighIns.at(-1)?.scaleStepGrams ?? newest?.scaleStepGrams ?? content.policy.defaultScaleStepGrams
  )
}

export function WeighScreen(props: {
  readonly room: Room
  readonly kept: AnimalRecord
  /** The weighing to change; none for a new one. */
  readonly itemId?: string | undefined
}): VNode {
  const { room, kept, itemId } = props
  const { clock, locale, save } = room
  const { name } = kept.animal
  const before = kept.weighIns.find(one => one.itemId === itemId)
  const now = clock()
  const [weight, setWeight] = useState(before ? String(before.massGrams) : '')
  const [day, setDay] = useState(dayOf(Date.parse(before?.at ?? now.instant), now.zone))
  const [step, setStep] = useState(before?.scaleStepGrams ?? lastStep(room, kept))
  const [meal, setMeal] = useState<(typeof MEALS)[number]>(before?.meal ?? '')
  const [faults, setFaults] = useState<{ weight?: string; day?: string }>({})
  const [asked, setAsked] = useState<readonly string[]>([])
  useFocus('weight', 0)
  const { grams } = numberWords(locale)
  const home = `#animal/${kept.animalId}`
  const last = kept.weighIns.at(-1)

  const keep = async () => {
    const mass = readGrams(weight)
    const sameDay = before && day === dayOf(Date.parse(before.at), now.zone)
    const at = sameDay ? { value: before.at } : readDay(day, clock())
    if ('fault' in mass || 'fault' in at) {
      setFaults({
        ...('fault' in mass ? { weight: mass.fault } : {}),
        ...('fault' in at ? { day: at.fault } : {}),
      })
      return
    }
    const weighIn: KeptWeighIn = {
      at: at.value,
      massGrams: mass.value,
      scaleStepGrams: stepFor(mass.value, step),
      ...(meal === '' ? {} : { meal }),
      ...(before?.note === undefined ? {} : { note: before.note }),
    }
    const { faults: found, needsConfirm } = checkWeighIn(weighIn, kept, clock().instant, itemId)
    const [fault] = found
    const doubts = needsConfirm
      .filter(({ kind }) => itemId !== AGAIN || kind !== 'close-in-time')
      .map(doubt => doubtWords(doubt, now, locale))
    setFaults(fault === undefined ? {} : { day: sentence('Day', { ...fault, value: day }) })
    setAsked(doubts)
    // A doubt is asked about once; the same answer again is taken.
    if (fault !== undefined || doubts.join() !== asked.join()) return
    await save(
      `Saved: ${grams(mass.value)} ${pastDay(at.value, clock(), locale)}.`,
      writing =>
        before
          ? change(writing, kept.animalId, before.itemId, { kind: 'weigh-in', weighIn })
          : saveWeighIn(writing, kept.animalId, weighIn),
      home,
    )
  }
  return (
    <Page
      title={before ? `Change a weight of ${name}` : `Weigh ${name}`}
      back={{ label: 'Back', href: home }}
      main={{ label: 'Save', form: FORM }}
    >
      <Form onSend={keep}>
        <Input
          name="weight"
          kind="number"
          label="Weight"
          unit="g"
          hint={
            last && !before
              ? `Last time: ${grams(last.massGrams)} ${pastDay(last.at, now, locale)}.`
              : undefined
          }
          value={weight}
          onInput={setWeight}
          fault={faults.weight}
        />
        <Disclosure
          summary="Another day, the scale, a meal"
          open={before !== undefined || faults.day !== undefined}
        >
          <Input name="day" kind="date" label="Day" value={day} onInput={setDay} fault={faults.day} />
          <Select
            name="step"
            label="Your scale shows steps of"
            value={String(step)}
            options={[...new Set([...STEPS, step])].map(one => [String(one), `${one} g`])}
            onChoose={value => setStep(Number(value))}
          />
          <Select
            name="meal"
            label="Meal"
            value={meal}
            options={MEALS.map(one => [one, MEAL_WORDS[one]])}
            onChoose={value => setMeal(MEALS.find(one => one === value) ?? '')}
          />
        </Disclosure>
      </Form>
      {asked.map(words => (
        <Notice key={words} spoken="atOnce">
          <p>{words}</p>
        </Notice>
      ))}
      <Disclosure summary="How to weigh it">
        <p>Put a small tub on a kitchen scale and set the scale to zero.</p>
        <p>Let it walk in, or lift it in with a hand under its body. Never by the tail.</p>
        <p>Read the number when it sits still. The same scale and hour each time is best.</p>
      </Disclosure>
    </Page>
  )
}
