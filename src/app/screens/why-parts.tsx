/** One reason of the outcome in the owner's own answers, and what it rests on. */
import type { VNode } from 'preact'
import type { Reason } from '../../../shared/assessment.ts'
import type { Book } from '../wording/book.ts'
import { labels } from '../wording/labels.ts'
import type { Told } from '../wording/outcome.ts'
import { becauseLines, sourceMaker, sourcesOf } from '../wording/why.ts'

const reasonWords = (book: Book, { rule }: Reason) => book.rule(rule)?.reason ?? book.sign(rule)

export function Why({ words, reason }: { words: Told; reason: Reason }): VNode {
  const { book, assessment } = words
  const because = becauseLines(words, reason)
  return (
    <>
      <p>
        <strong>
          {reason.unsure ? `${labels.perhaps} ` : ''}
          {reasonWords(book, reason)}
        </strong>
        {/* The first line of the page has said it already where this is what makes the answer. */}
        {reason.level.urgency === assessment.urgency
          ? ''
          : ` ${book.frame.urgencyNames[reason.level.urgency]}.`}
      </p>
      {because.length === 0 ? null : (
        <p class="question-hint">
          {labels.youSaid}: {because.join(' · ')}
        </p>
      )}
    </>
  )
}

/** What a reason rests on: how sure each half is, where sources differ, and the sources by who wrote them. */
export function SourcesOf({ book, reason }: { book: Book; reason: Reason }): VNode {
  const { basisNames } = book.frame
  const conflict = book.rule(reason.rule)?.conflict
  return (
    <div class="plan">
      <h3>{reasonWords(book, reason)}</h3>
      <p>
        {labels.whatItMeans}: {basisNames[reason.findingBasis]}.
      </p>
      <p>
        {labels.howSoon}: {basisNames[reason.urgencyBasis]}.
      </p>
      {conflict === undefined ? null : (
        <p>
          {labels.conflict}: {conflict}
        </p>
      )}
      {sourcesOf(book, reason).map(({ kind, sources }) => (
        <div key={kind}>
          <h4>{kind}</h4>
          <ul aria-label={kind}>
            {sources.map(source => (
              <li key={source.title}>
                {source.link === undefined ? (
                  source.title
                ) : (
                  <a href={source.link} rel="noreferrer">
                    {source.title}
                  </a>
                )}
                . {sourceMaker(source)}.
              </li>
            ))}
          </ul>
        </div>
      ))}
    </div>
  )
}
