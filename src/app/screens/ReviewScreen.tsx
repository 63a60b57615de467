/** Every answer of the case, each with a way to change it. */
import type { VNode } from 'preact'
import { EMPTY_CASE_FILE } from '../../../shared/answers.ts'
import type { Moment } from '../../../shared/moment.ts'
import { caseFileOf, type LogEntry } from '../../wizard/log.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { ReviewList } from '../parts/ReviewList.tsx'
import { reviewRows } from '../wording/answers.ts'
import type { Book } from '../wording/book.ts'
import { labels } from '../wording/labels.ts'

export interface ReviewScreenProps {
  readonly book: Book
  readonly log: readonly LogEntry[]
  readonly now: Moment
  readonly locale: string
  readonly onChange: (question: string) => void
  readonly onBack: () => void
}

export function ReviewScreen({ book, log, now, locale, onChange, onBack }: ReviewScreenProps): VNode {
  const rows = reviewRows(book, caseFileOf(EMPTY_CASE_FILE, log), { now, locale }).map(row =>
    // A care question is changed where it stands, on the outcome.
    book.logicOf(row.id)?.phase === 'care' ? row : { ...row, onChange: () => onChange(row.id) },
  )
  return (
    <>
      <main class="main">
        <div class="question-form">
          <h1 tabIndex={-1}>{labels.reviewTitle}</h1>
          {rows.length === 0 ? (
            <p>{labels.reviewEmpty}</p>
          ) : (
            <ReviewList rows={rows} changeLabel={labels.change} />
          )}
        </div>
      </main>
      <ActionBar main={{ label: labels.close, onPress: onBack }} />
    </>
  )
}
