/** The whole shelf: who needs a look first, who is due, and a card for each cage to print. */
import type { VNode } from 'preact'
import type { Moment } from '../../../shared/moment.ts'
import type { FlagName } from '../../measure/flags.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { pastDay } from '../wording/dates.ts'
import type { Room } from './keeper.ts'
import { type ShelfRow, shelfOf } from './shelf.ts'
import { dayWords, numberWords, placeWords } from './words.ts'

const BECAUSE: Readonly<Record<FlagName, string>> = {
  fastLoss: 'Lost weight fast',
  slowLoss: 'Lost much weight',
  downwardOnThree: 'Weight goes down',
  youngNotGaining: 'Young and not gaining',
  fastGain: 'Gained fast',
  steady: '',
  tooFewReadings: '',
}

/** "Lost weight fast, 14 % under its best. Weigh it today." */
function rowWords({ report, because, lossPercent, isDue }: ShelfRow, now: Moment, locale: string): string[] {
  const { grams, percent } = numberWords(locale)
  const { newest } = report.comparison
  const lost = lossPercent > 0 ? `${percent(lossPercent)} under its best` : ''
  return [
    [because === undefined ? '' : BECAUSE[because], lost].filter(Boolean).join(', '),
    newest === undefined ? 'No weight yet' : `${grams(newest.massGrams)} ${pastDay(newest.at, now, locale)}`,
    isDue ? 'Due to be weighed' : '',
  ].filter(words => words !== '')
}

export function ShelfScreen({ room, cards }: { readonly room: Room; readonly cards: boolean }): VNode {
  const { clock, locale } = room
  const now = clock()
  const rows = shelfOf(room, now)
  const due = rows.filter(({ isDue }) => isDue).length
  const print = { label: 'Print', onPress: () => globalThis.print() }
  if (cards)
    return (
      <>
        <main class="main record record-wide">
          <h1 class="no-print" tabIndex={-1}>
            Cage cards
          </h1>
          <ul class="cards">
            {rows.map(row => (
              <Card key={row.kept.animalId} row={row} now={now} locale={locale} />
            ))}
          </ul>
        </main>
        <ActionBar back={{ label: 'Back', href: '#shelf' }} main={print} />
      </>
    )
  return (
    <>
      <main class="main record">
        <h1 tabIndex={-1}>The whole shelf</h1>
        <p class="start-lead">
          {rows.length === 0
            ? 'There is no animal on record yet.'
            : `${rows.length === 1 ? '1 animal' : `${rows.length} animals`}, ${due === 0 ? 'none' : due} due to be weighed. First who needs a look.`}
        </p>
        {rows.length === 0 ? null : (
          <p class="no-print">
            <a href="#shelf/cards">Cage cards to print</a>
          </p>
        )}
        <ol class="link-list">
          {rows.map(row => {
            const place = placeWords(row.kept.animal)
            return (
              <li key={row.kept.animalId}>
                <a
                  class={row.because === undefined ? 'link-card' : 'link-card shelf-front'}
                  href={`#animal/${row.kept.animalId}`}
                >
                  <span class="link-card-label">
                    {row.kept.animal.name}
                    {place === '' ? '' : ` · ${place}`}
                  </span>
                  <span class="link-card-hint">{rowWords(row, now, locale).join('. ')}.</span>
                </a>
              </li>
            )
          })}
        </ol>
      </main>
      <ActionBar
        back={{ label: 'Animals', href: '#animals' }}
        {...(rows.length === 0 ? {} : { main: print })}
      />
    </>
  )
}

function Card({ row, now, locale }: { row: ShelfRow; now: Moment; locale: string }): VNode {
  const { animal } = row.kept
  const { newest } = row.report.comparison
  const place = placeWords(animal)
  return (
    <li class="card">
      <h2>{animal.name}</h2>
      {place === '' ? null : <p>{place}</p>}
      <p>
        {newest === undefined
          ? 'Not weighed yet'
          : `${numberWords(locale).grams(newest.massGrams)}, ${dayWords(newest.at, now.zone, locale)}`}
      </p>
      <p>Weigh next: {row.isDue ? 'now' : dayWords(row.report.next.dueAt, now.zone, locale)}</p>
      <p class="card-line">Weight</p>
      <p class="card-line">Day</p>
    </li>
  )
}
