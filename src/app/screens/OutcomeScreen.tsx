/** The outcome: when to phone, by when to be seen, what to do until then, and why. */
import type { ComponentChildren, VNode } from 'preact'
import type { Assessment } from '../../../shared/assessment.ts'
import type { CaseFile } from '../../../shared/case-file.ts'
import type { Question } from '../../../shared/compiled.ts'
import type { Urgency } from '../../../shared/urgency.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { FirstLine, type Strength } from '../parts/FirstLine.tsx'
import { Notice } from '../parts/Notice.tsx'
import { type Section, SectionList, Sections } from '../parts/Sections.tsx'
import { TimeCircle } from '../parts/TimeCircle.tsx'
import type { Book } from '../wording/book.ts'
import { labels } from '../wording/labels.ts'
import * as told from '../wording/outcome.ts'

export interface OutcomeScreenProps {
  readonly book: Book
  readonly assessment: Assessment
  readonly caseFile: CaseFile
  readonly locale: string
  /** Absent on an example: nothing can be answered there. */
  readonly onCare?: (question: Question, option: string) => void
  readonly onBack: () => void
  readonly onDetails?: () => void
  readonly onGoOn?: () => void
  /** Said above everything else, as on an example. */
  readonly notice?: string
  readonly below?: ComponentChildren
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
  const words: told.Told = props
  const [head, rest] = told.headAndRest(frame.firstLine[urgency])
  const urgent = urgency === 'now' || urgency === 'day'
  const circle = told.circle(words)
  return (
    <>
      <main class="main">
        <article class="outcome">
          {props.notice === undefined ? null : <Notice title={props.notice} />}
          <FirstLine
            words={head}
            {...(rest === '' ? {} : { more: rest })}
            strength={STRENGTH[urgency]}
            {...(urgent ? { action: { label: labels.nobodyAnswers, href: '#nobody-tonight-title' } } : {})}
          />
          {circle ? (
            <TimeCircle {...circle} />
          ) : urgency === 'now' ? (
            <p class="start-lead">{labels.seenNow}</p>
          ) : null}
          {props.onCare ? <CareQuestions {...props} onCare={props.onCare} /> : null}
          <Sections sections={sectionsOf(words, urgency, props)} />
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
function CareQuestions(
  props: OutcomeScreenProps & { onCare: (question: Question, option: string) => void },
): VNode {
  const { book, caseFile } = props
  return (
    <>
      {told.careQuestions(props).map(question => {
        const words = book.question(question.id)
        const answer = caseFile.answers[question.id]
        return (
          <fieldset key={question.id} class="choices no-print">
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
                <span class="choice-words">
                  <span class="choice-label">{words?.options[at]?.text}</span>
                </span>
              </label>
            ))}
          </fieldset>
        )
      })}
    </>
  )
}

function sectionsOf(words: told.Told, urgency: Urgency, props: OutcomeScreenProps): Section[] {
  const { book, assessment, caseFile } = words
  const { frame } = book
  const { care } = assessment
  const urgent = urgency === 'now' || urgency === 'day'
  const shown = new Set<string>()
  const firstAid = told.planParts(book, care.firstAid, shown)
  // Where nothing is urgent in the next minutes, the care until it is seen is what to do first.
  const holding = told.planParts(book, care.holding, shown)
  const first = firstAid.length > 0 ? firstAid : holding
  const untilOpening = firstAid.length > 0 ? holding : []
  const steps = told.planParts(book, care.steps, shown)
  const nevers = told.nevers(words)
  const sooner = told.soonerIf(words)
  const looks = told.looks(words)
  const leftOut = told.leftOut(words)
  const notFound = told.notFound(words)
  const unknowns = told.unknowns(words)
  const { notAsked } = assessment.dangerSigns

  // Said once above where any of them is ours; a published one says so itself.
  const judged = told
    .reasons(words)
    .filter(({ level }) => level.urgency === urgency)
    .some(({ urgencyBasis }) => urgencyBasis !== 'published')
  const neverDos: Section | false = nevers.length > 0 && {
    id: 'nevers',
    title: labels.never,
    list: { kind: 'nevers', items: nevers },
  }
  // Where it is urgent, what never to do comes right after first aid; at home, after the steps.
  const sections: (Section | false)[] = [
    first.length > 0 && {
      id: 'do-now',
      title: firstAid.length > 0 ? labels.doNow : labels.doMeanwhile,
      more: <Plans parts={first} />,
    },
    ...(urgent ? [neverDos] : []),
    steps.length > 0 && {
      id: 'steps',
      title: urgent ? labels.doAsWell : labels.doAtHome,
      more: <Plans parts={steps} />,
    },
    leftOut.because.length + leftOut.waiting.length > 0 && {
      id: 'left-out',
      title: labels.leftOut,
      ...(leftOut.because.length > 0 ? { list: { kind: 'reasons' as const, items: leftOut.because } } : {}),
      more:
        leftOut.waiting.length === 0 ? null : (
          <Disclosure summary={labels.leftOutWait}>
            <SectionList kind="reasons" items={leftOut.waiting} />
          </Disclosure>
        ),
    },
    ...(urgent ? [] : [neverDos]),
    sooner.named.length + sooner.others.length > 0 && {
      id: 'sooner',
      title: labels.soonerIf,
      ...(sooner.named.length > 0 ? { list: { kind: 'signs' as const, items: sooner.named } } : {}),
      more:
        sooner.others.length === 0 ? null : (
          <Disclosure summary={labels.soonerMore}>
            {sooner.others.map(({ urgency: level, signs }) => (
              <div key={level}>
                <h3>{frame.urgencyNames[level]}</h3>
                <SectionList kind="signs" items={signs} />
              </div>
            ))}
          </Disclosure>
        ),
    },
    looks.length > 0 && {
      id: 'looks',
      title: labels.lookAgain,
      list: {
        kind: 'reasons',
        items: looks.map(({ when, what }) => (
          <>
            <strong>{when.slice(0, 1).toUpperCase() + when.slice(1)}.</strong> {what.join(' ')}
          </>
        )),
      },
    },
    urgent && {
      id: 'nobody-tonight',
      title: labels.nobodyTonight,
      list: { kind: 'steps', items: frame.nobodyTonight },
      more: (
        <>
          <Plans parts={untilOpening} />
          <p>{frame.money}</p>
          <p>{frame.suffering}</p>
        </>
      ),
    },
    {
      id: 'why',
      title: labels.reasons,
      ...(judged ? { lead: frame.judgementLine } : {}),
      list: {
        kind: 'reasons',
        items: told.reasons(words).map(reason => <Why key={reason.rule} words={words} reason={reason} />),
      },
    },
    unknowns.length > 0 && {
      id: 'unknown',
      title: labels.unknown,
      list: {
        kind: 'reasons',
        items: unknowns.map(
          ({ ask, why, matters }) => `${ask} ${why.slice(0, 1).toUpperCase() + why.slice(1)}. ${matters}`,
        ),
      },
    },
    notFound.length > 0 && {
      id: 'not-found',
      title: labels.notFound,
      more: (
        <Disclosure summary={labels.notFoundLead}>
          <SectionList kind="reasons" items={notFound} />
        </Disclosure>
      ),
    },
    notAsked.length > 0 && {
      id: 'not-asked',
      title: labels.notAskedTitle,
      more: (
        <Disclosure summary={labels.notAsked}>
          <SectionList kind="reasons" items={notAsked.map(book.sign)} />
        </Disclosure>
      ),
    },
    assessment.alsoConcerns.length > 0 && {
      id: 'also-touches',
      title: labels.otherConcerns,
      list: { kind: 'reasons', items: told.concernNames(book, assessment.alsoConcerns) },
    },
    {
      id: 'cautions',
      title: labels.cautions,
      list: { kind: 'reasons', items: frame.cautions.map(({ text }) => text) },
    },
    {
      id: 'about',
      title: labels.about,
      lead: frame.notADiagnosis,
      more: (
        <>
          <p>
            {labels.version(frame.name, frame.version)}{' '}
            {frame.reviewedBy.length > 0
              ? labels.reviewedBy(frame.reviewedBy.join(', '))
              : labels.notReviewed}
          </p>
          <p class="outcome-links no-print">
            <button class="action" type="button" onClick={() => globalThis.print()}>
              {labels.print}
            </button>
            {props.onCare && Object.keys(caseFile.answers).length > 0 ? (
              <a class="action" href="#answers">
                {labels.reviewLink}
              </a>
            ) : null}
          </p>
        </>
      ),
    },
  ]
  return sections.filter(section => section !== false)
}

function Plans({ parts }: { parts: readonly told.PlanPart[] }): VNode {
  return (
    <>
      {parts.map(({ id, title, opening, steps }) => (
        <div key={id} class="plan">
          <h3>{title}</h3>
          {opening === undefined ? null : <p>{opening}</p>}
          <SectionList kind="steps" items={steps} />
        </div>
      ))}
    </>
  )
}

function Why({ words, reason }: { words: told.Told; reason: Assessment['reasons'][number] }): VNode {
  const { book } = words
  const { frame } = book
  const rule = book.rule(reason.rule)
  const because = told.becauseLines(words, reason)
  const sources = told.sourcesOf(book, reason)
  return (
    <>
      <p>
        <strong>
          {reason.unsure ? `${labels.perhaps} ` : ''}
          {rule?.reason ?? book.sign(reason.rule)}
        </strong>{' '}
        {frame.urgencyNames[reason.level.urgency]}.
      </p>
      {because.length === 0 ? null : (
        <p class="question-hint">
          {labels.youSaid}: {because.join(' · ')}
        </p>
      )}
      <Disclosure summary={labels.why}>
        <p>
          {labels.whatItMeans}: {frame.basisNames[reason.findingBasis]}.
        </p>
        <p>
          {labels.howSoon}: {frame.basisNames[reason.urgencyBasis]}.
        </p>
        {rule?.conflict === undefined ? null : (
          <p>
            {labels.conflict}: {rule.conflict}
          </p>
        )}
        {sources.length === 0 ? null : (
          <ul aria-label={labels.sources}>
            {sources.map(source => (
              <li key={source.title}>
                {source.link === undefined ? (
                  source.title
                ) : (
                  <a href={source.link} rel="noreferrer">
                    {source.title}
                  </a>
                )}
                . {told.sourceMaker(source)}.
              </li>
            ))}
          </ul>
        )}
      </Disclosure>
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
