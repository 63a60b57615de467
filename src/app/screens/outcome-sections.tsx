/** The outcome below its first line, in the order in which it is needed: act, keep from, watch, understand. */
import type { Urgency } from '../../../shared/urgency.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { ReviewList } from '../parts/ReviewList.tsx'
import { type Section, SectionList } from '../parts/Sections.tsx'
import { reviewRows } from '../wording/answers.ts'
import { labels } from '../wording/labels.ts'
import * as told from '../wording/outcome.ts'
import { looks, nobodyTitle } from '../wording/times.ts'
import { notFound, reasons, unknowns } from '../wording/why.ts'
import { Folded, FoldedPlans, Looks, Plans } from './outcome-parts.tsx'
import { SourcesOf, Why } from './why-parts.tsx'

/** `onCare` is absent on an example, which then tells the answers it was made of. */
export type OutcomeToTell = told.Told & { readonly onCare?: unknown }

/** What is needed tonight stands open; whatever else there is to know is one tap away, and on paper. */
export function outcomeSections(words: OutcomeToTell, urgency: Urgency): Section[] {
  const { frame } = words.book
  const { care } = words.assessment
  const urgent = urgency === 'now' || urgency === 'day'
  const shown = new Set<string>()
  const firstAid = told.planParts(words, care.firstAid, shown)
  // Where nothing is urgent in the next minutes, the care until it is seen is what to do first.
  const holding = told.planParts(words, care.holding, shown)
  const steps = told.planParts(words, care.steps, shown)
  const hasFirstAid = firstAid.length > 0
  // Where there is no time to be seen, the time circle shows the first look.
  const toLook = looks(words).slice(urgency === 'home' || urgency === 'well' ? 1 : 0)

  const doNow: Section | false = (hasFirstAid || holding.length > 0) && {
    id: 'do-now',
    title: hasFirstAid ? told.firstAidTitle(words) : labels.doMeanwhile,
    more: (
      <>
        <Plans {...(hasFirstAid ? { open: firstAid, folded: [] } : told.openPlans(holding))} saysWhen />
        {hasFirstAid ? null : <FoldedPlans parts={steps} />}
      </>
    ),
  }
  const nobody: Section = {
    id: 'nobody',
    title: nobodyTitle(words),
    more: (
      <>
        {hasFirstAid ? (
          <>
            <Plans {...told.openPlans(holding)} saysWhen />
            <FoldedPlans parts={steps} />
          </>
        ) : null}
        <Looks looks={toLook} isOpen />
        <Disclosure summary={labels.nobodyLadder}>
          <SectionList kind="steps" items={frame.nobodyTonight} />
          <p>{frame.money}</p>
          <p>{frame.suffering}</p>
        </Disclosure>
      </>
    ),
  }
  const atHome: Section | false = steps.length > 0 && {
    id: 'steps',
    title: urgency === 'week' ? labels.doUntilThen : labels.doAtHome,
    more: (
      <>
        <Plans {...told.openPlans(steps)} />
        <Looks looks={toLook} isOpen={urgency === 'week'} />
      </>
    ),
  }
  const nevers = told.nevers(words)
  const neverDos: Section | false = nevers.open.length > 0 && {
    id: 'nevers',
    title: labels.never,
    list: { kind: 'nevers', items: nevers.open },
    more: <Folded summary={labels.moreNevers} kind="nevers" items={nevers.folded} />,
  }
  // Where it is urgent, what never to do comes right after first aid; at home, after the steps.
  const order = urgent ? [doNow, neverDos, nobody] : [doNow, atHome, neverDos]
  const all = [...order, sooner(words, urgency), why(words, urgency), more(words)]
  return all.filter(section => section !== false)
}

function sooner(words: told.Told, urgency: Urgency): Section | false {
  const { open, folded, others } = told.soonerIf(words)
  return (
    open.length + others.length > 0 && {
      id: 'sooner',
      title: urgency === 'now' ? labels.phoneAgainIf : labels.soonerIf,
      list: { kind: 'signs', items: open },
      more: folded.length + others.length > 0 && (
        <Disclosure summary={labels.soonerMore}>
          <SectionList kind="signs" items={folded} />
          {others.map(({ urgency: level, signs }) => (
            <div key={level} class="plan">
              <h3>{words.book.frame.urgencyNames[level]}</h3>
              <SectionList kind="signs" items={signs} />
            </div>
          ))}
        </Disclosure>
      ),
    }
  )
}

function why(words: told.Told, urgency: Urgency): Section {
  const { open, folded } = reasons(words)
  const line = (reason: (typeof open)[number]) => <Why key={reason.rule} words={words} reason={reason} />
  const mattering = unknowns(words).filter(({ matters }) => matters)
  return {
    id: 'why',
    title: labels.reasons,
    list: { kind: 'reasons', items: open.map(line) },
    more: (
      <>
        {/* Where a vet will see it, finding out is the vet's; at home it is worth a second look. */}
        <Folded
          summary={labels.unknown}
          items={mattering.map(({ line: text }) => text)}
          open={urgency === 'home'}
        />
        <Folded summary={labels.moreReasons} items={folded.map(line)} />
      </>
    ),
  }
}

/** All that is not needed tonight, each part in one fold; above them the few cautions that bear on this outcome. */
function more(words: OutcomeToTell): Section {
  const { book, assessment, caseFile, locale } = words
  const { frame } = book
  const cautions = told.cautions(words)
  const { because, waiting } = told.leftOut(words)
  const { open, folded } = reasons(words)
  const unknown = unknowns(words).filter(({ matters }) => !matters)
  return {
    id: 'more',
    title: labels.more,
    ...(cautions.open.length > 0 ? { list: { kind: 'reasons', items: cautions.open } } : {}),
    more: (
      <div class="folds">
        <Folded summary={labels.leftOut} items={because} />
        <Folded summary={labels.leftOutWait} items={waiting} />
        <Folded summary={labels.otherConcerns} items={told.concernNames(book, assessment.alsoConcerns)} />
        <Folded summary={labels.noMatter} items={unknown.map(({ line }) => line)} />
        <Folded summary={labels.notFound} items={notFound(words)} />
        <Folded summary={labels.notAsked} items={assessment.dangerSigns.notAsked.map(book.sign)} />
        <Folded summary={labels.moreCautions} items={cautions.folded} />
        <Disclosure summary={labels.why}>
          {[...open, ...folded].map(reason => (
            <SourcesOf key={reason.rule} book={book} reason={reason} />
          ))}
          <p>{frame.notADiagnosis}</p>
          <p>
            {labels.version(frame.name, frame.version)}{' '}
            {frame.reviewedBy.length > 0
              ? labels.reviewedBy(frame.reviewedBy.join(', '))
              : labels.notReviewed}
          </p>
        </Disclosure>
        {words.onCare ? null : (
          <Disclosure summary={labels.exampleAnswers}>
            <ReviewList
              rows={reviewRows(book, caseFile, { now: assessment.now, locale })}
              changeLabel={labels.change}
            />
          </Disclosure>
        )}
      </div>
    ),
  }
}
