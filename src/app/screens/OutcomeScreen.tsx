/** The outcome: when to phone, by when to be seen, what to do until then, and why. */
import type { ComponentChildren, VNode } from 'preact'
import type { Question } from '../../../shared/compiled.ts'
import type { Urgency } from '../../../shared/urgency.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { ChoiceWords } from '../parts/ChoiceList.tsx'
import { FirstLine, type Strength } from '../parts/FirstLine.tsx'
import { Notice } from '../parts/Notice.tsx'
import { Sections } from '../parts/Sections.tsx'
import { TimeCircle } from '../parts/TimeCircle.tsx'
import { labels } from '../wording/labels.ts'
import { careQuestions, headAndRest, type Told } from '../wording/outcome.ts'
import { circle } from '../wording/times.ts'
import { outcomeSections } from './outcome-sections.tsx'

export interface OutcomeScreenProps extends Told {
  /** Absent on an example: nothing can be answered there. */
  readonly onCare?: (question: Question, option: string) => void
  readonly onBack: () => void
  readonly onDetails?: () => void
  readonly onGoOn?: () => void
  /** Said above everything else, as on an example. */
  readonly notice?: string
  /** What its home has to do with it. */
  readonly home?: ComponentChildren
  readonly below?: ComponentChildren
  /** What a clinic says: where it wants it seen sooner, and its numbers. */
  readonly above?: ComponentChildren
  readonly numbers?: ComponentChildren
}

const STRENGTH: Readonly<Record<Urgency, Strength>> = {
  now: 'full',
  day: 'strong',
  week: 'clear',
  home: 'faint',
  well: 'none',
}

export function OutcomeScreen(props: OutcomeScreenProps): VNode {
  const { book, assessment } = props
  const { urgency } = assessment
  // Only a settled case has an urgency; whatever is not settled never looks like care at home.
  if (!assessment.settled || urgency === undefined) return <NotSettled {...props} />
  const { frame } = book
  const [head, rest] = headAndRest(frame.firstLine[urgency])
  const urgent = urgency === 'now' || urgency === 'day'
  const time = circle(props)
  return (
    <>
      <main class="main">
        <article class="outcome">
          {props.notice === undefined ? null : <Notice title={props.notice} />}
          {props.above}
          <FirstLine
            words={head}
            {...(rest === '' ? {} : { more: rest })}
            strength={STRENGTH[urgency]}
            {...(urgent ? { action: { label: labels.nobodyAnswers, href: '#nobody-title' } } : {})}
          />
          {time ? <TimeCircle {...time} /> : null}
          {props.numbers}
          {props.onCare ? <CareQuestions {...props} onCare={props.onCare} /> : null}
          <Sections sections={outcomeSections(props, urgency)} />
          {props.home}
          {props.onCare ? (
            <p class="outcome-links no-print">
              <a class="action" href="#answers">
                {labels.reviewLink}
              </a>
              <button class="action" type="button" onClick={() => globalThis.print()}>
                {labels.print}
              </button>
            </p>
          ) : null}
          {props.below}
          <p class="trust-line">{frame.trustLine}</p>
        </article>
      </main>
      <ActionBar
        back={{ label: labels.back, onPress: props.onBack }}
        {...(props.onDetails ? { main: { label: labels.details, onPress: props.onDetails } } : {})}
      />
    </>
  )
}

/** The one tap that changes what to do first, and nothing else. */
function CareQuestions(props: Told & { onCare: NonNullable<OutcomeScreenProps['onCare']> }): VNode {
  const { book, caseFile } = props
  return (
    <>
      {careQuestions(props).map(question => {
        const words = book.question(question.id)
        const answer = caseFile.answers[question.id]
        return (
          <fieldset key={question.id} class="choices care-choices no-print">
            <legend>
              <h2>{words?.ask}</h2>
            </legend>
            {words?.help === undefined ? null : <p class="question-hint">{words.help}</p>}
            {question.options.map((option, at) => (
              <label key={option} class="choice">
                <input
                  class="choice-input"
                  type="radio"
                  name={question.id}
                  value={option}
                  checked={answer?.kind === 'choice' && answer.choice === option}
                  onChange={() => props.onCare(question, option)}
                />
                <ChoiceWords label={words?.options[at]?.text ?? option} />
              </label>
            ))}
          </fieldset>
        )
      })}
    </>
  )
}

function NotSettled(props: OutcomeScreenProps): VNode {
  const { book, assessment, onGoOn } = props
  const least = assessment.lowerBound?.urgency
  return (
    <>
      <main class="main">
        <div class="question-form">
          <h1 tabIndex={-1}>{labels.notSettledTitle}</h1>
          <p>{labels.notSettledLead}</p>
          {least === undefined || least === 'home' || least === 'well' ? null : (
            <Notice title={labels.atLeast}>
              <p>{book.frame.firstLine[least]}</p>
            </Notice>
          )}
        </div>
      </main>
      <ActionBar
        back={{ label: labels.back, onPress: props.onBack }}
        {...(onGoOn ? { main: { label: labels.goOn, onPress: onGoOn } } : {})}
      />
    </>
  )
}
