import { CANNOT_MEASURE, CANNOT_TELL } from '../../shared/answers.ts'
import type { Answer } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { WordBook } from './word-book.ts'

/** Words for the answers that content does not hold. */
const UNTOLD = {
  [CANNOT_TELL]: 'looked, could not tell',
  [CANNOT_MEASURE]: 'not measured',
  none: 'none of these',
} as const

/** One answer in the words the owner saw. `since` answers are given as a calendar day. */
export function answerWords(book: WordBook, question: Question, answer: Answer): string {
  const words = book.question(question.id)
  const optionText = (option: string) => words?.options[question.options.indexOf(option)]?.text ?? option
  switch (answer.kind) {
    case 'choice':
      return optionText(answer.choice)
    case 'several': {
      const ticked = answer.chosen.map(optionText)
      if (answer.rest === CANNOT_TELL) return [...ticked, `the rest: ${UNTOLD[CANNOT_TELL]}`].join('; ')
      return ticked.length > 0 ? ticked.join('; ') : (words?.noneText ?? UNTOLD.none)
    }
    case 'amount':
      return `${answer.amount} ${question.range?.unit ?? ''}`.trim()
    case 'since':
      return `${answer.uncertaintyHours > 0 ? 'about ' : ''}${answer.began.slice(0, 10)}`
    case 'cannot-tell':
      return UNTOLD[CANNOT_TELL]
    case 'cannot-measure':
      return UNTOLD[CANNOT_MEASURE]
  }
}
