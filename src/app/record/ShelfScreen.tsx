/** The whole shelf: who needs a look first, what goes round, who is due, and a card for each cage to print. */
import type { VNode } from 'preact'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import { atLeastAsUrgent } from '../../../shared/urgency.ts'
import type { DueRow, ShelfRow } from '../../measure/shelf.ts'
import { SectionList } from '../parts/Sections.tsx'
import { pastDay } from '../wording/dates.ts'
import type { RecordContent, Room } from './keeper.ts'
import { Page, Way } from './parts.tsx'
import { shelfOf } from './shelf.ts'
import { dayWords, numberWords, placeWords } from './words.ts'

const print = { label: 'Print', onPress: () => globalThis.print() }

/** From `week` on a row stands out. */
const isFront = ({ atLeast }: ShelfRow) => atLeast !== undefined && atLeastAsUrgent(atLeast.urgency, 'week')

/** "A vet within 24 hours, at least. 14 % under its best. 52 g today. Due to be weighed." */
function rowWords(
  row: ShelfRow,
  due: DueRow | undefined,
  content: RecordContent,
  now: Moment,
  locale: string,
): string {
  const { grams, percent } = numberWords(locale)
  const { report, atLeast, lossPercent } = row
  const { newest } = report.comparison
  return [
    atLeast !== undefined && isFront(row) ? `${content.urgencyNames[atLeast.urgency]}, at least` : '',
    lossPercent > 0 ? `${percent(lossPercent)} under its best` : '',
    newest === undefined ? 'No weight yet' : `${grams(newest.massGrams)} ${pastDay(newest.at, now, locale)}`,
    due?.isDue ? 'Due to be weighed' : '',
  ]
    .filter(words => words !== '')
    .map(words => `${words}.`)
    .join(' ')
}

/** The page of a whole shelf. */
export function ShelfScreen({ room, cards }: { readonly room: Room; readonly cards: boolean }): VNode {
  const { clock, locale, content } = room
  const now = clock()
  const { shelf, byId } = shelfOf(room, now)
  const dueOf = new Map(shelf.due.map(row => [row.name, row]))
  const due = shelf.due.filter(({ isDue }) => isDue).length
  const rows = shelf.rows.flatMap(row => {
    const kept = byId.get(row.animal.name)
    return kept ? [{ row, kept, due: dueOf.get(row.animal.name) }] : []
  })
  if (cards)
    return (
      <Page title="Cage cards" wide back={{ label: 'Back', href: '#shelf' }} main={print}>
        <ul class="cards">
          {rows.map(one => (
            <Card key={one.kept.animalId} {...one} now={now} locale={locale} />
          ))}
        </ul>
      </Page>
    )
  const nameOf = (animalId: string) => byId.get(animalId)?.animal.name ?? animalId
  return (
    <Page
      title="The whole shelf"
      back={{ label: 'Animals', href: '#animals' }}
      {...(rows.length === 0 ? {} : { main: print })}
    >
      <p class="start-lead">
        {rows.length === 0
          ? 'There is no animal on record yet.'
          : `${rows.length === 1 ? '1 animal' : `${rows.length} animals`}, ${due === 0 ? 'none' : due} due to be weighed. First who needs a look.`}
      </p>
      {shelf.signals.map(({ id, room: where, showing }) => {
        const words = content.shelf.signals.find(one => one.id === id)
        if (words === undefined) return null
        return (
          <section key={`${id} ${where}`} class="notice animal-worry">
            <h2>{where === undefined ? 'Where no room is written down' : where}</h2>
            <p>{words.reason}</p>
            <p>{showing.map(({ name }) => nameOf(name)).join(', ')}.</p>
            <SectionList kind="steps" items={words.steps} />
            <h3>Never</h3>
            <SectionList kind="nevers" items={words.nevers} />
          </section>
        )
      })}
      {rows.length === 0 ? null : (
        <p class="no-print">
          <a href="#shelf/cards">Cage cards to print</a>
        </p>
      )}
      <ol class="link-list">
        {rows.map(({ row, kept, due }) => (
          <Way
            key={kept.animalId}
            to={`#animal/${kept.animalId}`}
            front={isFront(row)}
            words={[kept.animal.name, placeWords(kept.animal)].filter(part => part !== '').join(' · ')}
            hint={rowWords(row, due, content, now, locale)}
          />
        ))}
      </ol>
    </Page>
  )
}

function Card(props: {
  row: ShelfRow
  kept: AnimalRecord
  due: DueRow | undefined
  now: Moment
  locale: string
}): VNode {
  const { row, kept, due, now, locale } = props
  const { newest } = row.report.comparison
  const place = placeWords(kept.animal)
  const day = (instant: string) => dayWords(instant, now.zone, locale)
  return (
    <li class="card">
      <h2>{kept.animal.name}</h2>
      {place === '' ? null : <p>{place}</p>}
      <p>
        {newest === undefined
          ? 'Not weighed yet'
          : `${numberWords(locale).grams(newest.massGrams)}, ${day(newest.at)}`}
      </p>
      {due === undefined ? null : <p>Weigh next: {due.isDue ? 'now' : day(due.next.dueAt)}</p>}
      <p class="card-line">Weight</p>
      <p class="card-line">Day</p>
    </li>
  )
}
