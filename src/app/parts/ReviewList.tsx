/** What was answered, each with a way to change it. */
import type { VNode } from 'preact'

export interface ReviewRow {
  readonly id: string
  readonly question: string
  readonly answer: string
  /** A row without it is told, not changeable. */
  readonly onChange?: () => void
}

export interface ReviewListProps {
  readonly rows: readonly ReviewRow[]
  readonly changeLabel: string
}

export function ReviewList({ rows, changeLabel }: ReviewListProps): VNode {
  return (
    <dl class="review">
      {rows.map(row => (
        <div key={row.id} class="review-row">
          <dt class="review-question">{row.question}</dt>
          <dd class="review-answer">{row.answer}</dd>
          {row.onChange === undefined ? null : (
            <dd class="review-control">
              <button class="review-change" type="button" onClick={row.onChange}>
                {changeLabel}
                <span class="spoken-only">: {row.question}</span>
              </button>
            </dd>
          )}
        </div>
      ))}
    </dl>
  )
}
