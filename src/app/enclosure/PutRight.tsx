/** In an outcome: what the case's own answers already say of the home, with the fix. Fetched behind everything else. */
import enclosure from 'virtual:protocol/enclosure'
import type { VNode } from 'preact'
import { checkEnclosure } from '../../enclosure/check.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import type { Told } from '../wording/outcome.ts'
import { FaultPart } from './FaultPart.tsx'
import { caseOfAnswers } from './prefill.ts'
import { SIGNS_FIRST } from './signs-first.ts'

export { addStyle } from './add-style.ts'

/** Nothing of it lowers what the outcome says; steps that a never-do of the outcome forbids are left out. */
export function PutRight(props: Told & { readonly of: string | undefined }): VNode {
  const { book, assessment, caseFile, locale, of } = props
  const { now, urgency, concerns } = assessment
  const nowMs = Date.parse(now.instant)
  const given = caseOfAnswers(enclosure, caseFile.answers, nowMs)
  const [concern] = concerns
  const { faults } = checkEnclosure(enclosure, given, nowMs, concern)
  const nevers = assessment.care.nevers.flatMap(
    ({ plan, item }) =>
      book.logic.carePlans.find(({ id }) => id === plan)?.nevers.find(({ id }) => id === item) ?? [],
  )
  const isForbidden = ({ act, part }: (typeof faults)[number]['steps'][number]) =>
    nevers.some(never => never.act === act && never.part === part)
  const urgent = urgency === 'now' || urgency === 'day'
  const list = faults.map((fault, at) => (
    <FaultPart
      key={fault.id}
      enclosure={enclosure}
      basisNames={book.frame.basisNames}
      fault={fault}
      now={now}
      locale={locale}
      place={at + 1}
      steps={fault.steps.filter(step => !isForbidden(step))}
    />
  ))
  return (
    <section class="section" aria-labelledby="home-title">
      <h2 class="section-title" id="home-title">
        {faults.length > 0 ? 'Also put this right' : 'Its home'}
      </h2>
      <p>{SIGNS_FIRST}</p>
      {/* Where a vet is needed now or today, the home waits until that is under way. */}
      {list.length > 0 && urgent ? (
        <Disclosure summary={`Once a vet is on it (${list.length})`}>{list}</Disclosure>
      ) : (
        list
      )}
      <p class="no-print">
        <a class="action" href={of === undefined ? '#enclosure' : `#enclosure/${of}`}>
          Check the enclosure
        </a>
      </p>
    </section>
  )
}
