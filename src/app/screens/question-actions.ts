import { CANNOT_MEASURE } from '../../../shared/answers.ts'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import type { Action } from '../parts/ActionBar.tsx'
import { labels } from '../wording/labels.ts'
import { type AnswerForm, allowsNone, FORM_ID } from './answer-form.ts'

/** What the buttons of a question can do. */
export interface QuestionDoings {
  readonly take: (form: AnswerForm) => void
  /** Answers that what is not ticked could not be told. */
  readonly cannotTellRest: () => void
  /** Opens how to look; absent once it was open, or where nothing says how. */
  readonly lookFirst?: () => void
  readonly skip?: (() => void) | undefined
}

/**
 * Whether "can't tell" waits until it was shown how to look: where a line is a danger sign, not telling may count as
 * much as seeing it, so it must not be pressed by someone who has not looked.
 */
export function looksFirst({ signs }: Question, { howTo }: QuestionWords): boolean {
  return howTo !== undefined && signs.some(sign => sign !== null)
}

/** The buttons of a question: what else may be said, and the way on. */
export function questionActions(
  question: Question,
  words: QuestionWords,
  form: AnswerForm,
  doings: QuestionDoings,
): { main: Action; other?: Action } {
  const { skip, lookFirst } = doings
  const skips = skip === undefined ? {} : { other: { label: labels.skip, onPress: skip } }
  if (question.kind === 'several') {
    const some = form.ticked.length > 0
    const none = allowsNone(question, words) && !some
    const looked = looksFirst(question, words)
    const cannot = lookFirst
      ? { label: labels.lookFirst, onPress: lookFirst }
      : {
          label: looked
            ? some
              ? labels.stillCannotTellRest
              : labels.stillCannotTell
            : some
              ? labels.cannotTellRest
              : labels.cannotTell,
          onPress: doings.cannotTellRest,
        }
    return {
      main: {
        label: none
          ? (words.noneText ?? labels.noneOfThese)
          : some && question.phase !== 'concern'
            ? labels.thisIsWhatISee
            : labels.goOn,
        form: FORM_ID,
      },
      ...(question.cannotTell ? { other: cannot } : skips),
    }
  }
  const measured = question.kind === 'amount' || question.kind === 'weights'
  const cannot = {
    label: question.kind === 'weights' ? labels.cannotWeigh : labels.cannotMeasure,
    onPress: () => doings.take({ ...form, picked: CANNOT_MEASURE }),
  }
  return {
    main: { label: labels.goOn, form: FORM_ID },
    ...(skip ? skips : measured && question.cannotMeasure ? { other: cannot } : {}),
  }
}
