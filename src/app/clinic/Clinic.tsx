/** The clinic's part as the app opens it: which of its screens is shown, and its lines in an outcome. */

import type { VNode } from 'preact'
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Assessment } from '../../../shared/assessment.ts'
import type { Clinic as ClinicDetails } from '../../../shared/clinic.ts'
import type { HandoverContent } from '../../../shared/handover-content.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import { decodeLink } from '../../handover/link/codec.ts'
import { CLINIC_LINK } from '../../handover/links.ts'
import { assess } from '../../triage/assess.ts'
import type { Protocol } from '../../triage/prepare.ts'
import type { Wizard } from '../use-wizard.ts'
import type { Book } from '../wording/book.ts'
import { ClinicNumbers, SoonerHere } from './AtOutcome.tsx'
import style from './clinic.css?url'
import { keepClinic, keptClinic } from './kept.ts'
import { type ClinicRead, LandingScreen } from './LandingScreen.tsx'
import { MakeLinkScreen } from './MakeLinkScreen.tsx'
import { PrepareScreen } from './PrepareScreen.tsx'
import { ReadScreen } from './ReadScreen.tsx'

/** The clinic's own style, fetched with it; resolves when it is there, or is not to be had. */
export function addStyle(): Promise<unknown> {
  const link = document.createElement('link')
  link.rel = 'stylesheet'
  link.href = style
  const done = new Promise(resolve => {
    link.onload = link.onerror = resolve
  })
  document.head.append(link)
  return done
}

/** The clinic behind a link's data, read anew whenever that changes. */
function useClinic(data: string | undefined): ClinicRead {
  const [read, setRead] = useState<ClinicRead>()
  useEffect(() => {
    let stands = true
    setRead(undefined)
    if (data !== undefined && data !== '')
      void decodeLink(CLINIC_LINK, data).then(link => {
        if (stands) setRead(link.ok ? link.value : { sentence: link.sentence })
      })
    return () => {
      stands = false
    }
  }, [data])
  return read
}

/** The clinic whose link was opened in this tab. */
function useKeptClinic(): ClinicDetails | undefined {
  const read = useClinic(keptClinic())
  return read && 'name' in read ? read : undefined
}

export interface AtOutcomeProps {
  readonly assessment: Assessment
  readonly book: Book
  readonly now: Moment
  readonly locale: string
}

/** Above an outcome: where the clinic wants it seen sooner. */
export function AboveOutcome({ assessment, book }: AtOutcomeProps): VNode | null {
  const clinic = useKeptClinic()
  return clinic ? <SoonerHere clinic={clinic} assessment={assessment} frame={book.frame} /> : null
}

/** In an outcome: the clinic's numbers, and the way to what a vet gets. */
export function InOutcome({ assessment, book, now, locale }: AtOutcomeProps): VNode {
  const clinic = useKeptClinic()
  return (
    <>
      {clinic ? (
        <ClinicNumbers clinic={clinic} assessment={assessment} frame={book.frame} now={now} locale={locale} />
      ) : null}
      <p class="outcome-links no-print">
        <a class="action" href="#prepare">
          Prepare for the vet
        </a>
      </p>
    </>
  )
}

export interface ClinicProps {
  readonly hash: string
  readonly content: HandoverContent
  readonly protocol: Protocol
  readonly book: Book
  readonly wizard: Wizard
  /** What the keeper's record has of the animal that was checked. */
  readonly kept: AnimalRecord | undefined
  readonly clock: () => Moment
  readonly locale: string
  readonly onBack: () => void
  readonly onStart: (concern?: string) => void
}

export function Clinic(props: ClinicProps): VNode {
  const { hash, content, protocol, book, wizard, kept, clock, locale, onBack } = props
  const [view = '', data = ''] = hash.split('/')
  const { caseFile, now, log } = wizard.context
  const opened = useClinic(view === '#clinic' ? data : keptClinic())
  const source = useMemo(
    () => ({
      logic: protocol.logic,
      frame: book.frame,
      book,
      content,
      caseFile,
      assessment: assess(protocol, caseFile, now),
      ...(kept ? { record: kept } : {}),
    }),
    [protocol, book, content, caseFile, now, kept],
  )
  const details = opened && 'name' in opened ? opened : undefined
  useEffect(() => {
    if (view === '#clinic' && details) keepClinic(data)
  }, [view, details, data])
  switch (view) {
    case '#clinic':
      return (
        <LandingScreen
          read={opened}
          frame={book.frame}
          now={clock()}
          locale={locale}
          onStart={props.onStart}
        />
      )
    case '#clinic-link':
      return <MakeLinkScreen frame={book.frame} zone={clock().zone} onBack={onBack} />
    case '#history':
      return <ReadScreen data={data} onBack={onBack} />
    default:
      return (
        <PrepareScreen
          source={source}
          caseName={log[0]?.answer.given ?? ''}
          clinic={details}
          onBack={onBack}
        />
      )
  }
}
