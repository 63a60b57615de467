import { CANNOT_MEASURE, CANNOT_TELL } from '../../shared/answers.ts'
import type { Answer, WeighIn } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { WordBook } from './word-book.ts'

/** Words for the answers that content does not hold. */
const UNTOLD = {
  [CANNOT_TELL]: 'Looked, could not tell',
  [CANNOT_MEASURE]: 'Not measured',
  notKnown: 'Not known',
  none: 'None of these',
} as const

const units: Readonly<Record<string, string>> = {
  celsius: '°C',
  grams: 'g',
  percent: '%',
  centimetres: 'cm',
  millimetres: 'mm',
}

/** A unit of the protocol as it is written. */
export function unitWords(unit: string): string {
  return units[unit] ?? unit
}

/** What was answered to one question, with the weigh-ins that came with it. */
export interface Said {
  readonly answer: Answer
  readonly weighIns?: readonly WeighIn[]
}

/** How the reader is told of days: the owner's screen says "yesterday", a page for a clinic the date. */
export interface DayWords {
  readonly day: (instant: string) => string
  /** Whether a duration may be said as it was chosen ("a few days ago"): only on the day it was. */
  readonly isToday: (instant: string) => boolean
}

/** The line of a list of durations that an answer was chosen from, by its place; -1 for none. */
export function presetOf(
  presets: readonly { readonly hoursAgo: number; readonly uncertaintyHours: number }[] | undefined,
  answer: Answer,
): number {
  if (answer.kind !== 'since') return -1
  const hoursAgo = (Date.parse(answer.given) - Date.parse(answer.began)) / 3_600_000
  return (presets ?? []).findIndex(
    one => Math.abs(one.hoursAgo - hoursAgo) < 0.02 && one.uncertaintyHours === answer.uncertaintyHours,
  )
}

/** One answer in the words in which it was given. */
export function answerWords(
  book: Pick<WordBook, 'question'>,
  question: Question,
  { answer, weighIns = [] }: Said,
  { day, isToday }: DayWords,
): string {
  const words = book.question(question.id)
  const optionText = (option: string) => words?.options[question.options.indexOf(option)]?.text ?? option
  if (weighIns.length > 0)
    return weighIns.map(({ massGrams, at }) => `${massGrams} ${unitWords('grams')} ${day(at)}`).join('; ')
  switch (answer.kind) {
    case 'choice':
      return optionText(answer.choice)
    case 'several': {
      const ticked = answer.chosen.map(optionText)
      if (answer.rest === CANNOT_TELL)
        return [...ticked, `${ticked.length > 0 ? 'The rest: ' : ''}${UNTOLD[CANNOT_TELL]}`].join('; ')
      return ticked.length > 0 ? ticked.join('; ') : (words?.noneText ?? UNTOLD.none)
    }
    case 'amount':
      return `${answer.amount} ${unitWords(question.range?.unit ?? '')}`.trim()
    case 'since': {
      const preset = words?.presets?.[presetOf(words.presets, answer)]
      return preset && isToday(answer.given)
        ? preset.text
        : `${day(answer.began)}${answer.uncertaintyHours > 0 ? ' (about)' : ''}`
    }
    case 'cannot-tell':
      return UNTOLD[CANNOT_TELL]
    case 'cannot-measure':
      return question.kind === 'since' ? UNTOLD.notKnown : UNTOLD[CANNOT_MEASURE]
  }
}
