/** The clinic's part of an outcome: its numbers, whether it is open, and who says so. */
import type { VNode } from 'preact'
import type { Assessment } from '../../../shared/assessment.ts'
import type { Clinic } from '../../../shared/clinic.ts'
import type { Frame } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { clinicStanding, raisedUrgency, telephoneAddress } from '../../handover/clinic-standing.ts'
import type { Opening } from '../../handover/opening.ts'

const WEEKDAY: Intl.DateTimeFormatOptions = {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  timeZone: 'UTC',
}

/** Open or not, and until when, in words; hours are those of the clinic. */
export function openingWords({ isOpen, until, opensNext }: Opening, locale: string): string {
  if (isOpen) return `Open now, until ${until === '24:00' ? 'midnight' : until} at the clinic.`
  if (!opensNext) return 'Closed now. It gave no hours for the next two weeks.'
  const day = new Date(`${opensNext.day}T00:00:00Z`).toLocaleDateString(locale, WEEKDAY)
  return `Closed now. Opens ${day}, ${opensNext.from} at the clinic.`
}

export interface AtOutcomeProps {
  readonly clinic: Clinic
  readonly assessment: Assessment
  readonly frame: Frame
  readonly now: Moment
  readonly locale: string
}

/** Where this clinic wants it seen sooner than the guide says: stands above everything else. */
export function SoonerHere({
  clinic,
  assessment,
  frame,
}: Pick<AtOutcomeProps, 'clinic' | 'assessment' | 'frame'>): VNode | null {
  const { urgency, concerns, alsoConcerns } = assessment
  if (urgency === undefined) return null
  const raised = raisedUrgency(clinic, urgency, [...concerns, ...alsoConcerns])
  if (raised === urgency) return null
  return (
    <section class="clinic-sooner">
      <h2>
        {clinic.name} wants this seen sooner: {frame.urgencyNames[raised]}
      </h2>
      <p>{frame.firstLine[raised]}</p>
    </section>
  )
}

export function ClinicNumbers({ clinic, assessment, frame, now, locale }: AtOutcomeProps): VNode {
  const concerns = [...assessment.concerns, ...assessment.alsoConcerns]
  const urgency = raisedUrgency(clinic, assessment.urgency ?? 'now', concerns)
  const { opening, numbers, isChecked } = clinicStanding(clinic, now, { urgency, version: frame.version })
  return (
    <section class="section" aria-labelledby="clinic-title">
      <h2 class="section-title" id="clinic-title">
        {clinic.name}
      </h2>
      <p>{openingWords(opening, locale)}</p>
      <ul class="link-list">
        {numbers.map(({ kind, name, telephone }) => (
          <li key={kind}>
            <a class="link-card" href={telephoneAddress(telephone)}>
              <span class="link-card-label">Phone {telephone}</span>
              <span class="link-card-hint">
                {kind === 'clinic' ? 'The clinic' : `While it is closed${name ? `: ${name}` : ''}`}
              </span>
            </a>
          </li>
        ))}
      </ul>
      {clinic.address ? <p>{clinic.address}</p> : null}
      {clinic.webPage ? <p>{clinic.webPage}</p> : null}
      <p class="fact-known">
        Details supplied by the clinic. Guide version {frame.version},{' '}
        {isChecked ? 'checked by this clinic, so the clinic says.' : 'not checked by this clinic.'}
      </p>
    </section>
  )
}
