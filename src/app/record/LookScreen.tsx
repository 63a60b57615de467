/** How its body looks: four looks on one drawing that takes their shape, then what they come to. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { AnimalRecord } from '../../../shared/record.ts'
import {
  bodyCondition,
  CONDITION_PARTS,
  type ConditionLook,
  type ConditionPart,
  type ConditionSeen,
} from '../../measure/bodyCondition.ts'
import { saveReading } from '../../records/actions.ts'
import { GeckoDrawing } from '../drawing/GeckoDrawing.tsx'
import { ActionBar } from '../parts/ActionBar.tsx'
import { ChoiceList } from '../parts/ChoiceList.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { SectionList } from '../parts/Sections.tsx'
import { conditionWords, LENGTH, LOOK, ownIndex, shapeOf } from './condition.ts'
import type { Room } from './keeper.ts'
import { Input, Tick } from './parts.tsx'
import { readCount } from './read-fields.ts'
import { numberWords } from './words.ts'

const CANNOT = 'cantTell'

export function LookScreen({ room, kept }: { readonly room: Room; readonly kept: AnimalRecord }): VNode {
  const { go } = room
  const { animal, animalId, events } = kept
  const home = `#animal/${animalId}`
  const [at, setAt] = useState(0)
  const [looks, setLooks] = useState<Partial<Record<ConditionPart, ConditionLook>>>({})
  // Eggs fill the flanks: who may be carrying them is asked, unless it cannot be.
  const [gravid, setGravid] = useState(false)
  const lost = events.some(({ kind, share }) => kind === 'tail-lost' && share === undefined)
  const tail = animal.tail ?? (lost ? 'unknown' : 'original')
  const seen: ConditionSeen = { looks, tail, gravid }
  const parts = CONDITION_PARTS.filter(part => part !== 'tail' || tail === 'original' || tail === 'unknown')
  const part = parts[at]
  const back = () => (at === 0 ? go(home) : setAt(at - 1))
  const drawing = <GeckoDrawing shape={shapeOf(seen)} pose="straight" sideways neckGuides />
  if (part === undefined)
    return <Result room={room} kept={kept} seen={seen} onGravid={setGravid} onBack={back} drawing={drawing} />
  const { ask, hint, looks: offered } = room.content.condition.parts[part]
  return (
    <>
      <main class="main record">
        <div class="look-picture">{drawing}</div>
        <p class="question-hint">
          Look {at + 1} of {parts.length}
        </p>
        <ChoiceList
          key={part}
          name={`look-${part}`}
          title={ask}
          hint={hint}
          options={[
            ...offered.map(([look, words]) => ({ value: String(look), label: words })),
            { value: CANNOT, label: 'I looked and can’t tell', apart: true },
          ]}
          chosen={looks[part] === undefined ? undefined : String(looks[part])}
          onChoose={value => {
            const look = offered.find(([one]) => String(one) === value)?.[0] ?? CANNOT
            setLooks({ ...looks, [part]: look })
          }}
        />
      </main>
      <ActionBar
        back={{ label: 'Back', onPress: back }}
        main={{ label: 'Continue', onPress: () => setAt(at + 1) }}
      />
    </>
  )
}

const NOT_USED = {
  tailRegrown: 'The tail grew again and stores more fat than the first, so it is not counted.',
  tailLost: 'There is no tail to look at, so the body alone counts.',
  gravid: 'Eggs fill the flanks, so flanks and thighs are not counted.',
}

function Result(props: {
  room: Room
  kept: AnimalRecord
  seen: ConditionSeen
  drawing: VNode
  onGravid: (gravid: boolean) => void
  onBack: () => void
}): VNode {
  const { room, kept, seen, drawing, onGravid, onBack } = props
  const { clock, locale, save, go } = room
  const [length, setLength] = useState('')
  const [fault, setFault] = useState<string>()
  const found = bodyCondition(seen)
  const { step, tailView, bodyView, disagreementSteps, notUsed, missing } = found
  const { massIndex, condition } = room.content
  const index = ownIndex(kept, massIndex)
  const { grams, percent } = numberWords(locale)
  const ownPast = (change: number | undefined) =>
    change === undefined
      ? '. There is no earlier one yet.'
      : `, ${percent(change, true)} against its own past.`
  const reasons = [
    tailView && `By the tail: ${conditionWords(tailView, condition)}.`,
    bodyView && `By the body: ${conditionWords(bodyView, condition)}.`,
    disagreementSteps > 0 && 'The two do not agree. The thinner one counts.',
    ...notUsed.map(({ why }) => NOT_USED[why]),
    missing.length > 0 && `${missing.length === 1 ? 'One look is' : `${missing.length} looks are`} missing.`,
  ].filter(line => typeof line === 'string')
  const keep = async () => {
    const { instant: at } = clock()
    const read = readCount('Length', length, 20, 250)
    if ('fault' in read) {
      setFault(read.fault)
      return
    }
    const { value } = read
    if (value !== undefined)
      await save(`Saved: ${value} mm.`, writing =>
        saveReading(writing, kept.animalId, { at, what: LENGTH, value, unit: 'mm' }),
      )
    if (step !== undefined)
      await save(`Saved: ${conditionWords(step, condition)}.`, writing =>
        saveReading(writing, kept.animalId, { at, what: LOOK, value: step, unit: 'of 5' }),
      )
    go(`#animal/${kept.animalId}`)
  }
  return (
    <>
      <main class="main record">
        <div class="look-picture">{drawing}</div>
        <h1 tabIndex={-1}>
          {step === undefined ? 'This cannot be told yet' : `It looks ${conditionWords(step, condition)}`}
        </h1>
        <SectionList kind="reasons" items={reasons} />
        {step !== undefined && step <= 2 ? (
          <p>So thin a body is worth a check now: go back to its page and start one.</p>
        ) : null}
        {kept.animal.sex === 'male' ? null : (
          <Tick words="She may be carrying eggs" on={seen.gravid} onChange={onGravid} />
        )}
        <Disclosure summary="Measure its length, if you like" open={fault !== undefined}>
          <p>
            From the tip of the snout to the vent, the slit under the tail. Beside a ruler, never stretched.
          </p>
          <Input
            name="length"
            kind="number"
            label="Length, snout to vent"
            unit="mm"
            value={length}
            onInput={setLength}
            fault={fault}
          />
          {index === undefined ? null : (
            <>
              <p>
                Weight over length: {index.gramsPerMillimetre} g per mm
                {ownPast(index.gramsPerMillimetreChangePercent)}
              </p>
              <p>
                Scaled to {massIndex.referenceLengthMillimetres} mm, exponent {massIndex.exponent}:{' '}
                {grams(index.scaledGrams)}
                {ownPast(index.scaledChangePercent)}
              </p>
            </>
          )}
        </Disclosure>
        <p class="question-hint">{condition.caution}</p>
      </main>
      <ActionBar
        back={{ label: 'Back', onPress: onBack }}
        main={{ label: step === undefined && length === '' ? 'Done' : 'Save', onPress: () => void keep() }}
      />
    </>
  )
}
