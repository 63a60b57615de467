/** The history as a page: what a clinic reads on the screen or on paper. It only shows, and everything as text. */
import type { VNode } from 'preact'
import type { Handover, HandoverFact } from '../../../shared/handover.ts'
import { knownWords, PART_WORDS } from '../../handover/text-page.ts'
import { wallClock } from '../../handover/wall-clock.ts'
import { WeightLine } from './WeightLine.tsx'

const LATEST_WEIGHTS = 6

const keyOf = ({ label, value, at }: HandoverFact) => `${label} ${value} ${at ?? ''}`

function Facts({ facts, zone }: { readonly facts: readonly HandoverFact[]; readonly zone: string }): VNode {
  return (
    <ul class="facts">
      {facts.map(fact => (
        <li key={keyOf(fact)}>
          <span class="fact-label">{fact.label}</span> <b>{fact.value}</b>{' '}
          <span class="fact-known">({knownWords(fact, zone)})</span>
        </li>
      ))}
    </ul>
  )
}

/** Danger signs; the way they are known is said once where all share it. */
function Signs(props: {
  readonly title: string
  readonly facts: readonly HandoverFact[]
  readonly zone: string
}): VNode | null {
  const { title, facts, zone } = props
  if (facts.length === 0) return null
  const known = [...new Set(facts.map(fact => knownWords(fact, zone)))]
  return (
    <>
      <h3>
        {title}
        {known.length === 1 ? ` (${known[0]})` : ''}
      </h3>
      <ul class="facts facts-close">
        {facts.map(fact => (
          <li key={keyOf(fact)}>
            {fact.label}
            {known.length === 1 ? '' : ` (${knownWords(fact, zone)})`}
          </li>
        ))}
      </ul>
    </>
  )
}

function Weights({ history }: { readonly history: Handover }): VNode | null {
  const { weights, made } = history
  const { weighIns } = weights
  if (weighIns.length === 0) return null
  const day = (instant: string) => wallClock(instant, made.zone).day
  return (
    <section class="history-part">
      <h2>Weight (measured)</h2>
      {weights.summary === undefined ? null : <p>{weights.summary}</p>}
      <ul class="facts">
        {weighIns
          .slice(-LATEST_WEIGHTS)
          .toReversed()
          .map(({ at, massGrams, scaleStepGrams }) => (
            <li key={at}>
              <b>{massGrams} g</b> {day(at)}
              {scaleStepGrams === undefined ? '' : `, scale in steps of ${scaleStepGrams} g`}
            </li>
          ))}
      </ul>
      {weighIns.length > 2 ? <WeightLine weighIns={weighIns} day={day} /> : null}
    </section>
  )
}

export function HistoryPage({ history }: { readonly history: Handover }): VNode {
  const { made, animal, dangerSigns, guide, sections, answers, keepApart, underVet, leftOut } = history
  const { zone } = made
  const told = wallClock(made.instant, zone)
  return (
    <article class="history">
      <section class="history-part">
        <p class="read-aloud">{history.readAloud}</p>
        <p>
          {animal.species} (<i>{animal.latin}</i>){animal.name ? `, ${animal.name}` : ''}. Told on {told.day}{' '}
          at {told.time} ({zone}).
        </p>
        {history.note === undefined ? null : <p>{history.note}</p>}
        <p class="write-in">
          <span>Name</span>
          <span>Telephone</span>
          <span>Client number</span>
        </p>
        {keepApart.length > 0 ? (
          <p class="history-apart">
            <b>Keep apart in the waiting room:</b> {keepApart.join('; ')}.
          </p>
        ) : null}
      </section>
      {underVet.length > 0 ? (
        <section class="history-part">
          <h2>A vet is treating it</h2>
          <Facts facts={underVet} zone={zone} />
        </section>
      ) : null}
      <section class="history-part">
        <h2>Danger signs</h2>
        {dangerSigns.present.length === 0 ? <p>None was seen.</p> : null}
        <Signs title="There" facts={dangerSigns.present} zone={zone} />
        <Signs title="Looked, could not tell" facts={dangerSigns.unsure} zone={zone} />
        <Signs title="Asked and not there" facts={dangerSigns.absent} zone={zone} />
        {dangerSigns.notAsked.length > 0 ? (
          <>
            <h3>Not asked</h3>
            <ul class="facts facts-close">
              {dangerSigns.notAsked.map(sign => (
                <li key={sign}>{sign}</li>
              ))}
            </ul>
          </>
        ) : null}
      </section>
      <Weights history={history} />
      {sections.map(({ id, title, facts }) => (
        <section class="history-part" key={id}>
          <h2>{title}</h2>
          <Facts facts={facts} zone={zone} />
        </section>
      ))}
      {leftOut.length > 0 ? (
        <section class="history-part">
          <h2>Left out by the owner</h2>
          <p>{leftOut.map(part => PART_WORDS[part]).join(', ')}</p>
        </section>
      ) : null}
      <section class="history-part">
        <h2>What this guide made of it</h2>
        <p>
          {guide.result}
          {guide.seenBy === undefined ? '' : ` To be seen by ${guide.seenBy}.`}
        </p>
        <ul class="facts">
          {guide.reasons.map(({ rule, reason }) => (
            <li key={rule}>
              {reason} <span class="fact-known">[{rule}]</span>
            </li>
          ))}
        </ul>
        <p>
          Guide version {guide.protocol.version} ({guide.protocol.hash}). {guide.trustLine}{' '}
          {guide.notADiagnosis}
        </p>
      </section>
      {answers.length > 0 ? (
        <section class="history-part history-answers">
          <h2>Every answer</h2>
          <Facts facts={answers} zone={zone} />
        </section>
      ) : null}
    </article>
  )
}
