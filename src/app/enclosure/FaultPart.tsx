/** One thing to put right: why, the steps, the cautions, when to look again, and what it rests on. */
import type { VNode } from 'preact'
import type { Frame } from '../../../shared/compiled.ts'
import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { FaultFound } from '../../enclosure/check.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { SectionList } from '../parts/Sections.tsx'
import { dayPartAndClock } from '../wording/dates.ts'

const HOUR_MS = 3_600_000

export interface FaultPartProps {
  readonly enclosure: CompiledEnclosure
  readonly basisNames: Frame['basisNames']
  readonly fault: FaultFound
  readonly now: Moment
  readonly locale: string
  /** Its place in the list, counted from 1. */
  readonly place: number
  /** Steps that may be told here; all of them where it is not given. */
  readonly steps?: FaultFound['steps']
}

/** When to look again, from the moment it is put right. */
export function recheckWords({ recheck }: FaultFound, { instant, zone }: Moment, locale: string): string {
  const at = new Date(Date.parse(instant) + recheck.hours * HOUR_MS).toISOString()
  return `Look again ${dayPartAndClock(at, { instant, zone }, locale)}: ${recheck.look}`
}

export function FaultPart(props: FaultPartProps): VNode {
  const { enclosure, basisNames, fault, now, locale, place, steps = fault.steps } = props
  return (
    <article class="enclosure-fault">
      <h3>
        {place}. {fault.name}
      </h3>
      <p>{fault.reason}</p>
      {fault.because.length === 0 ? null : <p class="question-hint">You told: {fault.because.join(' · ')}</p>}
      {fault.instrumentDoubt ? <p>{enclosure.instrumentSays.yes}</p> : null}
      <SectionList kind="steps" items={steps.map(({ text }) => text)} />
      {/* The same cautions come back; those of the first fix are read, the others stand one tap away and on paper. */}
      <Disclosure summary="Take care" open={place === 1}>
        <SectionList kind="reasons" items={fault.cautions.map(({ text }) => text)} />
      </Disclosure>
      <p class="enclosure-recheck">{recheckWords(fault, now, locale)}</p>
      <Disclosure summary="Where this comes from">
        {fault.conflict === undefined ? null : <p>Where sources differ: {fault.conflict}</p>}
        <p>{basisNames[fault.basis]}.</p>
        <SourceList enclosure={enclosure} evidence={fault.evidence} />
      </Disclosure>
    </article>
  )
}

/** The sources behind rows of evidence, each once. */
export function SourceList(props: {
  enclosure: CompiledEnclosure
  evidence: readonly string[]
}): VNode | null {
  const { evidence, sources } = props.enclosure
  const ids = [...new Set(props.evidence.flatMap(row => evidence[row]?.sources ?? []))]
  const found = ids.flatMap(id => sources[id] ?? [])
  if (found.length === 0) return null
  return (
    <ul>
      {found.map(source => (
        <li key={source.title}>
          {source.link === undefined ? (
            source.title
          ) : (
            <a href={source.link} rel="noreferrer">
              {source.title}
            </a>
          )}
          . {[source.by ?? source.publisher, source.year].filter(Boolean).join(', ')}
        </li>
      ))}
    </ul>
  )
}
