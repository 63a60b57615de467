/** Something that happened to an animal: what, on which day, and only what belongs to it. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { EVENT_KINDS } from '../../../shared/case-file.ts'
import type { AnimalRecord, KeptEvent } from '../../../shared/record.ts'
import { change, saveEvent } from '../../records/actions.ts'
import { checkEvent } from '../../records/check-input.ts'
import { dayOf } from '../../triage/calendar.ts'
import { GeckoDrawing } from '../drawing/GeckoDrawing.tsx'
import type { RegionName } from '../drawing/geckoOutline.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { Field } from '../parts/Field.tsx'
import type { Room } from './keeper.ts'
import { doubtWords, readCount, readDay, sentence } from './read-fields.ts'
import { Select } from './Select.tsx'
import { eventNames } from './words.ts'

type Kind = KeptEvent['kind']

const FORM = 'happened'

/** Places where skin stays, as the drawing names them. */
const PLACES: readonly (readonly [words: string, regions: readonly RegionName[]])[] = [
  [
    'On its toes',
    ['region-toes-front-left', 'region-toes-front-right', 'region-toes-hind-left', 'region-toes-hind-right'],
  ],
  ['On the tip of the tail', ['region-tail-tip']],
  ['On or around the eyes', ['region-eye-left', 'region-eye-right']],
  ['At the nostrils or mouth', ['region-nostrils', 'region-mouth']],
  ['On the body', ['region-back', 'region-belly']],
]

const SHARES = [
  ['1', 'All of it, or nearly'],
  ['0.75', 'About three quarters'],
  ['0.5', 'About half'],
  ['0.25', 'About a quarter'],
  ['0.1', 'Only the tip'],
] as const

export function EventScreen(props: {
  readonly room: Room
  readonly kept: AnimalRecord
  readonly itemId?: string | undefined
}): VNode {
  const { room, kept } = props
  const before = kept.events.find(({ itemId }) => itemId === props.itemId)
  const [kind, setKind] = useState<Kind | undefined>(before?.kind)
  const home = `#animal/${kept.animalId}`
  if (kind !== undefined) return <EventForm room={room} kept={kept} kind={kind} before={before} home={home} />
  return (
    <>
      <main class="main record">
        <h1 tabIndex={-1}>What happened to {kept.animal.name}?</h1>
        <ul class="link-list">
          {EVENT_KINDS.map(one => (
            <li key={one}>
              <button class="link-card" type="button" onClick={() => setKind(one)}>
                <span class="link-card-label">{eventNames[one]}</span>
              </button>
            </li>
          ))}
        </ul>
      </main>
      <ActionBar back={{ label: 'Back', href: home }} />
    </>
  )
}

function EventForm(props: {
  room: Room
  kept: AnimalRecord
  kind: Kind
  before: AnimalRecord['events'][number] | undefined
  home: string
}): VNode {
  const { room, kept, kind, before, home } = props
  const { clock, save, go } = room
  const now = clock()
  const [day, setDay] = useState(dayOf(Date.parse(before?.at ?? now.instant), now.zone))
  const [share, setShare] = useState(String(before?.share ?? 1))
  const [seen, setSeen] = useState(before?.seen ?? false)
  const [whole, setWhole] = useState(before?.whole ?? true)
  const [stuck, setStuck] = useState<readonly string[]>(before?.stuckAt ?? [])
  const [food, setFood] = useState(before?.food ?? '')
  const [counts, setCounts] = useState({
    offered: before?.offered === undefined ? '' : String(before.offered),
    eaten: before?.eaten === undefined ? '' : String(before.eaten),
  })
  const [note, setNote] = useState(before?.note ?? '')
  const [faults, setFaults] = useState<Readonly<Record<string, string | undefined>>>({})

  const keep = async () => {
    const sameDay = before && day === dayOf(Date.parse(before.at), now.zone)
    const at = sameDay ? { value: before.at } : readDay(day, clock())
    const offered = readCount('Offered', counts.offered, 0, 500)
    const eaten = readCount('Eaten', counts.eaten, 0, 500)
    if ('fault' in at || 'fault' in offered || 'fault' in eaten) {
      const faultOf = (read: object) => ('fault' in read ? String(read.fault) : undefined)
      setFaults({ day: faultOf(at), offered: faultOf(offered), eaten: faultOf(eaten) })
      return
    }
    const event: KeptEvent = {
      at: at.value,
      kind,
      ...(kind === 'tail-lost' && share !== '1' ? { share: Number(share) } : {}),
      ...(kind === 'eggs-laid' ? { seen } : {}),
      ...(kind === 'shed' ? { whole, ...(whole ? {} : { stuckAt: [...stuck] }) } : {}),
      ...(kind === 'meal'
        ? {
            ...(food.trim() === '' ? {} : { food: food.trim().slice(0, 60) }),
            ...(offered.value === undefined ? {} : { offered: offered.value }),
            ...(eaten.value === undefined ? {} : { eaten: eaten.value }),
          }
        : {}),
      ...(note.trim() === '' ? {} : { note: note.trim().slice(0, 2000) }),
    }
    const { faults: found, needsConfirm } = checkEvent(event, kept.animal, clock().instant)
    const doubts = needsConfirm.map(doubt => doubtWords(doubt, now, room.locale)).join(' ')
    if (found.length > 0 || (doubts !== '' && doubts !== faults.day)) {
      const ofDay = found.find(({ field }) => field === 'at')
      const ofEaten = found.find(({ field }) => field === 'eaten')
      setFaults({
        day: ofDay ? sentence('Day', { ...ofDay, value: day }) : doubts === '' ? undefined : doubts,
        eaten: ofEaten && sentence('Eaten', ofEaten),
      })
      return
    }
    await save(`Saved: ${eventNames[kind].toLowerCase()}.`, writing =>
      before
        ? change(writing, kept.animalId, before.itemId, { kind: 'event', event })
        : saveEvent(writing, kept.animalId, event),
    )
    go(home)
  }
  const field = (name: 'day' | 'offered' | 'eaten') => {
    const fault = faults[name]
    return { name, ...(fault === undefined ? {} : { fault }) }
  }
  return (
    <>
      <main class="main record">
        <h1 tabIndex={-1}>{eventNames[kind]}</h1>
        <form
          class="question-form"
          id={FORM}
          onSubmit={event => {
            event.preventDefault()
            void keep()
          }}
        >
          <Field {...field('day')} kind="date" label="Day" value={day} onInput={setDay} />
          {kind === 'tail-lost' ? (
            <Select
              name="share"
              label="How much came off"
              value={share}
              options={SHARES}
              onChoose={setShare}
            />
          ) : null}
          {kind === 'eggs-laid' ? (
            <Tick
              words="I saw the eggs"
              hint="Only eggs that were seen explain a lower weight."
              on={seen}
              onChange={setSeen}
            />
          ) : null}
          {kind === 'shed' ? (
            <>
              <Tick words="All of the skin came off" on={whole} onChange={setWhole} />
              {whole ? null : (
                <fieldset class="choices">
                  <legend class="field-label">Where did skin stay?</legend>
                  <div class="body-map">
                    <div class="body-map-picture">
                      <GeckoDrawing
                        marked={PLACES.flatMap(([, regions]) =>
                          regions.some(region => stuck.includes(region)) ? regions : [],
                        )}
                      />
                    </div>
                    <div class="body-map-list">
                      {PLACES.map(([words, regions]) => (
                        <Tick
                          key={words}
                          words={words}
                          on={regions.some(region => stuck.includes(region))}
                          onChange={on =>
                            setStuck([
                              ...stuck.filter(place => !regions.some(region => region === place)),
                              ...(on ? regions : []),
                            ])
                          }
                        />
                      ))}
                    </div>
                  </div>
                </fieldset>
              )}
            </>
          ) : null}
          {kind === 'meal' ? (
            <>
              <Field name="food" kind="text" label="Food" value={food} onInput={setFood} />
              <Field
                {...field('offered')}
                kind="number"
                label="Offered"
                value={counts.offered}
                onInput={offered => setCounts({ ...counts, offered })}
              />
              <Field
                {...field('eaten')}
                kind="number"
                label="Eaten"
                value={counts.eaten}
                onInput={eaten => setCounts({ ...counts, eaten })}
              />
            </>
          ) : null}
          <Field name="note" kind="text" label="Note" value={note} onInput={setNote} />
        </form>
      </main>
      <ActionBar back={{ label: 'Back', href: home }} main={{ label: 'Save', form: FORM }} />
    </>
  )
}

function Tick(props: { words: string; hint?: string; on: boolean; onChange: (on: boolean) => void }): VNode {
  return (
    <label class="choice">
      <input
        class="choice-input"
        type="checkbox"
        checked={props.on}
        onChange={event => props.onChange(event.currentTarget.checked)}
      />
      <span class="choice-words">
        <span class="choice-label">{props.words}</span>
        {props.hint === undefined ? null : <span class="choice-hint">{props.hint}</span>}
      </span>
    </label>
  )
}
