/** Every answer of the case, each with a way to change it. */
import type { VNode } from 'preact'
import type { Moment } from '../../../shared/moment.ts'
import type { LogEntry } from '../../wizard/log.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { ReviewList } from '../parts/ReviewList.tsx'
import { answerWords } from '../wording/answers.ts'
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
  const order = book.logic.questions.map(({ id }) => id)
  const rows = [...log]
    .sort((one, other) => order.indexOf(one.question) - order.indexOf(other.question))
    .map(entry => {
      const row = {
        id: entry.question,
        question: book.question(entry.question)?.ask ?? '',
        answer: answerWords(book, entry, now, locale),
      }
      // A care question is changed where it stands, on the outcome.
      return book.logicOf(entry.question)?.phase === 'care'
        ? row
        : { ...row, onChange: () => onChange(entry.question) }
    })
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
