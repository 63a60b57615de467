/** Everything kept of one animal, newest first, each with a way to change it or take it out. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { AnimalRecord, Kept, KeptEvent } from '../../../shared/record.ts'
import { remove as entryOfRemoval } from '../../records/actions.ts'
import { conditionWords, LENGTH, LOOK } from './condition.ts'
import type { Room } from './keeper.ts'
import { LineButton, Page } from './parts.tsx'
import { dayWords, eventNames, numberWords } from './words.ts'

interface Row {
  readonly itemId: string
  readonly at: string
  readonly words: string
  readonly more?: string | undefined
  /** The screen that changes it. */
  readonly change?: string
}

const AT_ONCE = 60

/** An event with what was said about it. */
export function eventWords(event: KeptEvent): string {
  const parts = [
    event.share === undefined ? '' : `${Math.round(event.share * 100)} % of its length`,
    event.seen === undefined ? '' : event.seen ? 'seen' : 'not seen',
    event.whole === undefined ? '' : event.whole ? 'all of it came off' : 'skin stayed on',
    event.food ?? '',
    event.eaten === undefined ? '' : `${event.eaten} eaten`,
    event.offered === undefined ? '' : `${event.offered} offered`,
    event.note ?? '',
  ].filter(part => part !== '')
  return [eventNames[event.kind], ...parts].join(', ')
}

function rowsOf(kept: AnimalRecord, home: string, { locale, content }: Room): Row[] {
  const { grams } = numberWords(locale)
  const meals = { before: 'before a meal', after: 'after a meal' }
  const rows: Row[] = [
    ...kept.weighIns.map(({ itemId, at, massGrams, meal, note }) => ({
      itemId,
      at,
      words: [grams(massGrams), meal && meals[meal], note].filter(Boolean).join(', '),
      change: `${home}/weigh/${itemId}`,
    })),
    ...kept.events.map((event: Kept<KeptEvent>) => ({
      itemId: event.itemId,
      at: event.at,
      words: eventWords(event),
      change: `${home}/happened/${event.itemId}`,
    })),
    ...kept.readings.map(({ itemId, at, what, value, unit }) => ({
      itemId,
      at,
      words:
        what === LOOK
          ? `Body: ${conditionWords(value, content.condition)}`
          : what === LENGTH
            ? `Length, snout to vent: ${value} mm`
            : `${what} ${value} ${unit}`,
    })),
    ...kept.assessments.map(({ itemId, at }) => ({ itemId, at, words: 'A check' })),
  ]
  return rows.sort((one, other) => Date.parse(other.at) - Date.parse(one.at))
}

export function PastScreen({ room, kept }: { readonly room: Room; readonly kept: AnimalRecord }): VNode {
  const { clock, locale, save } = room
  const [shown, setShown] = useState(AT_ONCE)
  const home = `#animal/${kept.animalId}`
  const rows = rowsOf(kept, home, room)
  const { zone } = clock()
  const remove = async ({ itemId, words }: Row) => {
    await save(`Deleted: ${words}.`, writing => entryOfRemoval(writing, kept.animalId, itemId))
  }
  return (
    <Page
      title={`All entries of ${kept.animal.name}`}
      back={{ label: 'Back', href: home }}
      main={{ label: 'Weigh', href: `${home}/weigh` }}
    >
      {rows.length === 0 ? <p>There is no entry yet. A weight is the best first one.</p> : null}
      <ul class="past">
        {rows.slice(0, shown).map(row => {
          const day = dayWords(row.at, zone, locale)
          return (
            <li key={row.itemId} class="past-row">
              <p class="past-words">
                <span class="past-day">{day}</span>
                {row.words}
              </p>
              {row.change === undefined ? null : (
                <a class="review-change" href={row.change}>
                  Change
                  <span class="spoken-only">
                    {' '}
                    {row.words}, {day}
                  </span>
                </a>
              )}
              <LineButton words="Delete" of={`${row.words}, ${day}`} onPress={() => remove(row)} />
            </li>
          )
        })}
      </ul>
      {rows.length <= shown ? null : (
        <button class="action" type="button" onClick={() => setShown(shown + 10 * AT_ONCE)}>
          Show older ones
        </button>
      )}
    </Page>
  )
}
