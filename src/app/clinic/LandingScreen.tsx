/** What an owner sees who follows a clinic's link. */
import type { VNode } from 'preact'
import type { Clinic } from '../../../shared/clinic.ts'
import type { Frame } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { clinicStanding, telephoneAddress } from '../../handover/clinic-standing.ts'
import { Page } from '../record/parts.tsx'
import { openingWords } from './AtOutcome.tsx'

/** What a clinic's link came to: on its way, its details, or one sentence. */
export type ClinicRead = Clinic | { readonly sentence: string } | undefined

export function LandingScreen(props: {
  readonly read: ClinicRead
  readonly frame: Frame
  readonly now: Moment
  readonly locale: string
  readonly onStart: (concern?: string) => void
}): VNode {
  const { read, frame, now, locale, onStart } = props
  const start = { label: 'Start', onPress: () => onStart() }
  if (!read || 'sentence' in read)
    return (
      <Page title="From a clinic" back={start}>
        <p role={read ? 'alert' : 'status'}>
          {read ? `${read.sentence} The guide works without it.` : 'Reading the link …'}
        </p>
      </Page>
    )
  const { opening, numbers, isChecked } = clinicStanding(read, now, {
    urgency: 'home',
    version: frame.version,
  })
  const concern = frame.concerns.find(({ id }) => id === read.startConcern)
  return (
    <Page
      title={read.name}
      back={start}
      {...(concern ? { main: { label: concern.name, onPress: () => onStart(concern.id) } } : {})}
    >
      {(read.greeting ?? []).map(line => (
        <p key={line}>{line}</p>
      ))}
      <p>{openingWords(opening, locale)}</p>
      <ul class="link-list">
        {numbers.map(({ kind, telephone }) => (
          <li key={kind}>
            <a class="link-card" href={telephoneAddress(telephone)}>
              <span class="link-card-label">Phone {telephone}</span>
              <span class="link-card-hint">{kind === 'clinic' ? 'The clinic' : 'While it is closed'}</span>
            </a>
          </li>
        ))}
      </ul>
      {read.speciesSeen ? <p>Sees: {read.speciesSeen}</p> : null}
      <p class="fact-known">
        Details supplied by the clinic. Guide version {frame.version},{' '}
        {isChecked ? 'checked by this clinic, so the clinic says.' : 'not checked by this clinic.'}
      </p>
    </Page>
  )
}
