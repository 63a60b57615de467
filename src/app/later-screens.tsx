/** The screens and pictures that the first minutes do without; they are fetched after the words. */
import type { VNode } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Moment } from '../../shared/moment.ts'
import { assess } from '../triage/assess.ts'
import { standingOf } from '../triage/bounds.ts'
import type { Protocol } from '../triage/prepare.ts'
import { inventedCase, inventedLog } from './example/invented-log.ts'
import { ActionBar } from './parts/ActionBar.tsx'
import { OutcomeScreen } from './screens/OutcomeScreen.tsx'
import type { Wizard } from './use-wizard.ts'
import type { Book } from './wording/book.ts'
import { labels } from './wording/labels.ts'

export { BodyMap } from './drawing/BodyMap.tsx'
export { GeckoDrawing } from './drawing/GeckoDrawing.tsx'
export { ShapeChooser } from './drawing/ShapeChooser.tsx'
export { ReviewScreen } from './screens/ReviewScreen.tsx'

interface Shared {
  readonly book: Book
  readonly clock: () => Moment
  readonly locale: string
}

/** The outcome of the case under way. */
export function Outcome(props: Shared & { protocol: Protocol; wizard: Wizard }): VNode {
  const { protocol, wizard, book, clock, locale } = props
  const { caseFile, now, log, skipped } = wizard.context
  const assessment = useMemo(() => assess(protocol, caseFile, now), [protocol, caseFile, now])
  const hasDetails = useMemo(() => {
    const { statuses } = standingOf(protocol, caseFile, now).known
    return protocol.logic.questions.some(
      ({ id, phase, forHandover }, at) =>
        (phase === 'handover' || forHandover) && statuses[at] === 'open' && !skipped.includes(id),
    )
  }, [protocol, caseFile, now, skipped])
  return (
    <OutcomeScreen
      book={book}
      assessment={assessment}
      caseFile={caseFile}
      locale={locale}
      onCare={(question, option) =>
        void wizard.answer({
          question: question.id,
          answer: { kind: 'choice', choice: option, given: clock().instant },
        })
      }
      onBack={() => void wizard.back()}
      {...(hasDetails ? { onDetails: wizard.details } : {})}
      onGoOn={() => wizard.resume(log)}
    />
  )
}

/** A finished case of an animal that does not exist. */
export function Example(
  props: Shared & { protocol: Protocol; concern: string | undefined; onBack: () => void },
): VNode {
  const { protocol, book, clock, locale, onBack } = props
  const concern = book.frame.concerns.find(({ id }) => id === props.concern) ?? book.frame.concerns[0]
  const now = useMemo(clock, [clock])
  const caseFile = useMemo(
    () => inventedCase(inventedLog(protocol, book, concern?.id ?? '', now)),
    [protocol, book, concern, now],
  )
  const assessment = useMemo(() => assess(protocol, caseFile, now), [protocol, caseFile, now])
  if (!concern) return <ActionBar back={{ label: labels.back, onPress: onBack }} />
  return (
    <OutcomeScreen
      book={book}
      assessment={assessment}
      caseFile={caseFile}
      locale={locale}
      onBack={onBack}
      notice={`${labels.exampleNotice} ${concern.name}.`}
      below={
        <section class="section" aria-labelledby="others-title">
          <h2 class="section-title" id="others-title">
            {labels.exampleOthers}
          </h2>
          <ul class="link-list">
            {book.frame.concerns
              .filter(({ id }) => id !== concern.id)
              .map(({ id, name }) => (
                <li key={id}>
                  <a class="link-card" href={`#example/${id}`}>
                    <span class="link-card-label">{name}</span>
                  </a>
                </li>
              ))}
          </ul>
        </section>
      }
    />
  )
}
