/** What the check comes to: what to put right first, what could not be judged, what looks right, when to look again. */
import type { VNode } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import { checkEnclosure, type EnclosureCheck } from '../../enclosure/check.ts'
import { saveReading } from '../../records/actions.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { Notice } from '../parts/Notice.tsx'
import { type Section, SectionList, Sections } from '../parts/Sections.tsx'
import { Form, Page, Select } from '../record/parts.tsx'
import { dayWords } from '../record/words.ts'
import type { Desk } from './desk.ts'
import { readDrafts } from './drafts.ts'
import { FaultPart } from './FaultPart.tsx'
import { readingsOf } from './prefill.ts'
import { AirAndLight, ReadingPart } from './ReadingsPart.tsx'
import { SIGNS_FIRST } from './signs-first.ts'
import { numbersFor, rangeWords } from './words.ts'

/** So many things to put right stand open: one change at a time is what anybody can do. */
const MOST_OPEN = 3

export function ResultScreen({ desk }: { readonly desk: Desk }): VNode {
  const { enclosure, drafts, concern, concerns, clock, locale, kept, at } = desk
  const now = clock()
  const nowMs = Date.parse(now.instant)
  // One instant for what is shown: the recheck must not move while it is read.
  const [shown] = useState(now)
  const { given, faults } = useMemo(() => readDrafts(enclosure, drafts, nowMs), [enclosure, drafts, nowMs])
  const check = useMemo(
    () => checkEnclosure(enclosure, given, nowMs, concern),
    [enclosure, given, nowMs, concern],
  )
  const unread = enclosure.items.filter(({ id }) => faults[id] !== undefined)
  const worry = concerns.find(({ id }) => id === concern)?.name
  const { length } = check.faults
  return (
    <Page
      title={
        length === 0
          ? 'Nothing to put right in what you told'
          : `${length === 1 ? 'One thing' : `${length} things`} to put right`
      }
      back={{ label: 'All parts', href: at() }}
      main={{ label: 'Print', onPress: () => globalThis.print() }}
    >
      <p class="question-hint">
        {kept ? `The home of ${kept.animal.name}, ` : ''}
        {dayWords(shown.instant, shown.zone, locale)}
        {worry === undefined ? '' : `. First what can cause: ${worry}`}
      </p>
      <Notice>
        <p>
          {SIGNS_FIRST}{' '}
          <a class="no-print" href="#start">
            Start a check
          </a>
        </p>
      </Notice>
      {unread.length === 0 ? null : (
        <Notice title="Not read">
          {unread.map(item => (
            <p key={item.id}>
              {item.ask} {faults[item.id]}
            </p>
          ))}
        </Notice>
      )}
      <Sections sections={sectionsOf(desk, check, shown)} />
      <KeepPart desk={desk} readings={readingsOf(enclosure, given, drafts, shown.instant)} />
    </Page>
  )
}

function sectionsOf(desk: Desk, check: EnclosureCheck, now: ReturnType<Desk['clock']>): Section[] {
  const { enclosure, basisNames, drafts, locale, pages, at } = desk
  const numbers = numbersFor(locale, drafts)
  const part = (fault: EnclosureCheck['faults'][number], place: number) => (
    <FaultPart
      key={fault.id}
      enclosure={enclosure}
      basisNames={basisNames}
      fault={fault}
      now={now}
      locale={locale}
      place={place + 1}
    />
  )
  const open = check.faults.slice(0, MOST_OPEN)
  const folded = check.faults.slice(MOST_OPEN)
  const right = check.readings.filter(({ position }) => position === 'inside')
  const notRight = new Set([...check.faults, ...check.open].map(({ id }) => id))
  const notFound = enclosure.faults.filter(({ id }) => !notRight.has(id))
  const ask = (id: string) => enclosure.items.find(item => item.id === id)?.ask ?? id
  const pageOf = (id: string | undefined) => pages.findLast(({ items }) => items.some(item => item.id === id))
  const sections: (Section | false)[] = [
    check.faults.length > 0 && {
      id: 'put-right',
      title: 'Put this right, in this order',
      more: (
        <>
          {open.map(part)}
          {folded.length === 0 ? null : (
            <Disclosure summary={`Then this (${folded.length})`}>
              {folded.map((fault, place) => part(fault, place + MOST_OPEN))}
            </Disclosure>
          )}
        </>
      ),
    },
    check.readings.length > 0 && {
      id: 'readings',
      title: 'What your readings mean',
      more: (
        <>
          {check.readings.map(reading => (
            <ReadingPart
              key={reading.quantity}
              enclosure={enclosure}
              basisNames={basisNames}
              numbers={numbers}
              reading={reading}
            />
          ))}
          <Disclosure summary="Air, light and powders">
            <AirAndLight enclosure={enclosure} numbers={numbers} check={check} />
          </Disclosure>
        </>
      ),
    },
    check.open.length > 0 && {
      id: 'not-judged',
      title: 'What could not be judged',
      more: (
        <Disclosure summary={`${check.open.length} things, and what would tell them`}>
          <ul class="enclosure-open">
            {check.open.map(({ id, name, missing }) => (
              <li key={id}>
                <strong>{name}?</strong>{' '}
                {missing.map(item => (
                  <a key={item} href={at(pageOf(item)?.id)}>
                    {ask(item)}{' '}
                  </a>
                ))}
              </li>
            ))}
          </ul>
        </Disclosure>
      ),
    },
    {
      id: 'looks-right',
      title: 'What looks right',
      ...(right.length > 0
        ? {
            list: {
              kind: 'reasons' as const,
              items: right.map(
                ({ name, value, unit, used }) =>
                  `${name}: ${numbers.of(value, unit)}, inside ${rangeWords(used, unit, numbers)}`,
              ),
            },
          }
        : {}),
      more:
        notFound.length === 0 ? (
          <p>Nothing yet: too little was told.</p>
        ) : (
          <Disclosure summary={`Looked for and not found (${notFound.length})`}>
            <SectionList kind="reasons" items={notFound.map(({ name }) => name)} />
          </Disclosure>
        ),
    },
  ]
  return sections.filter(section => section !== false)
}

/** Keeps the readings with an animal of the record. */
function KeepPart(props: { desk: Desk; readings: ReturnType<typeof readingsOf> }): VNode | null {
  const { desk, readings } = props
  const { animals, kept, store, clock } = desk
  const [chosen, setChosen] = useState(kept?.animalId ?? animals[0]?.animalId)
  const [said, setSaid] = useState<string>()
  const animal = animals.find(({ animalId }) => animalId === chosen)
  if (said === undefined && (!animal || readings.length === 0)) return null
  const keep = async () => {
    if (!animal) return
    const writing = store.writing(clock().instant)
    const saved = await store.append(readings.map(reading => saveReading(writing, animal.animalId, reading)))
    const count = readings.length === 1 ? '1 reading is' : `${readings.length} readings are`
    setSaid(
      saved.kind === 'kept'
        ? `${count} kept with ${animal.animal.name}.`
        : `${count} kept until this page is closed: this browser keeps nothing at the moment.`,
    )
  }
  return (
    <div class="no-print" role="status">
      {said === undefined ? (
        <Form look="one-line" onSend={keep}>
          {kept ? null : (
            <Select
              name="keep-with"
              label="Keep the readings with"
              value={chosen ?? ''}
              options={animals.map(({ animalId, animal: { name } }) => [animalId, name] as const)}
              onChoose={setChosen}
            />
          )}
          <button class="action" type="submit">
            Keep {readings.length === 1 ? 'the reading' : `${readings.length} readings`} with{' '}
            {animal?.animal.name}
          </button>
        </Form>
      ) : (
        <p>{said}</p>
      )}
    </div>
  )
}
