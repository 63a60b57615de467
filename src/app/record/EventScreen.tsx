/** Something that happened to an animal: what, on which day, and only what belongs to it. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { EVENT_KINDS } from '../../../shared/event-kinds.ts'
import type { AnimalRecord, KeptEvent } from '../../../shared/record.ts'
import { change, saveEvent } from '../../records/actions.ts'
import { checkEvent } from '../../records/check-input.ts'
import { dayOf } from '../../triage/calendar.ts'
import { GeckoDrawing } from '../drawing/GeckoDrawing.tsx'
import type { RegionName } from '../drawing/geckoOutline.ts'
import type { Room } from './keeper.ts'
import { FORM, Form, Input, Page, Select, Tick, Way } from './parts.tsx'
import { doubtWords, readCount, readDay, sentence } from './read-fields.ts'
import { eventNames } from './words.ts'

type Kind = KeptEvent['kind']

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
    <Page title={`What happened to ${kept.animal.name}?`} back={{ label: 'Back', href: home }}>
      <ul class="link-list">
        {EVENT_KINDS.map(one => (
          <Way key={one} to={() => setKind(one)} words={eventNames[one]} />
        ))}
      </ul>
    </Page>
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
  const { clock, save } = room
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
    await save(
      `Saved: ${eventNames[kind].toLowerCase()}.`,
      writing =>
        before
          ? change(writing, kept.animalId, before.itemId, { kind: 'event', event })
          : saveEvent(writing, kept.animalId, event),
      home,
    )
  }
  return (
    <Page title={eventNames[kind]} back={{ label: 'Back', href: home }} main={{ label: 'Save', form: FORM }}>
      <Form onSend={keep}>
        <Input name="day" fault={faults.day} kind="date" label="Day" value={day} onInput={setDay} />
        {kind === 'tail-lost' ? (
          <Select name="share" label="How much came off" value={share} options={SHARES} onChoose={setShare} />
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
            <Input name="food" kind="text" label="Food" value={food} onInput={setFood} />
            <Input
              name="offered"
              fault={faults.offered}
              kind="number"
              label="Offered"
              value={counts.offered}
              onInput={offered => setCounts({ ...counts, offered })}
            />
            <Input
              name="eaten"
              fault={faults.eaten}
              kind="number"
              label="Eaten"
              value={counts.eaten}
              onInput={eaten => setCounts({ ...counts, eaten })}
            />
          </>
        ) : null}
        <Input name="note" kind="text" label="Note" value={note} onInput={setNote} />
      </Form>
    </Page>
  )
}
