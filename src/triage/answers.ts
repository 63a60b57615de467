import type { Answer } from '../../shared/case-file.ts'
import type { BandFact, Question } from '../../shared/compiled.ts'
import { calendarDaysBetween } from './calendar.ts'
import { FALSE, UNSURE } from './intervals.ts'

/** What single answers say: their options as bits, whether they still stand, the number and band they give. */

const HOUR_MS = 3_600_000

/** An answer as the bit sets that a question's options make of it, with the times it names. */
export interface ReadAnswer {
  readonly question: Question
  readonly givenMs: number
  /** For a `since` answer, when it began. */
  readonly beganMs: number
  readonly options: number
  readonly rest: number
}

/** Worked out once per answer: the wizard weighs the same answers again after each new one. */
const readAnswers = new WeakMap<Answer, ReadAnswer>()

/** What `answer` says to `question`, as bits. */
export function readOf(question: Question, answer: Answer): ReadAnswer {
  const before = readAnswers.get(answer)
  if (before !== undefined && before.question === question) return before
  let options = 0
  let rest = FALSE
  if (answer.kind === 'choice') options = 1 << question.options.indexOf(answer.choice)
  else if (answer.kind === 'several') {
    for (const one of answer.chosen) options |= 1 << question.options.indexOf(one)
    if (answer.rest === 'cannot-tell') rest = UNSURE
  } else if (answer.kind === 'cannot-tell') rest = UNSURE
  const read = {
    question,
    givenMs: Date.parse(answer.given),
    beganMs: answer.kind === 'since' ? Date.parse(answer.began) : 0,
    options,
    rest,
  }
  readAnswers.set(answer, read)
  return read
}

/** Whether an answer given at `givenMs` still stands at `nowMs`. */
export function stillStands(question: Question, givenMs: number, nowMs: number): boolean {
  return nowMs - givenMs <= question.staysGoodHours * HOUR_MS
}

/** The number that a `since` or `amount` answer puts into bands; the worse end where it is uncertain. */
export function numberOf(
  question: Question,
  answer: Answer,
  fact: BandFact,
  nowMs: number,
  zone: string,
): number | undefined {
  if (answer.kind === 'amount') return answer.amount
  if (answer.kind !== 'since') return undefined
  const spread = answer.uncertaintyHours * HOUR_MS * (fact.worse === 'lower' ? 1 : -1)
  const began = Math.min(readOf(question, answer).beganMs + spread, nowMs)
  return fact.unit === 'days' ? calendarDaysBetween(began, nowMs, zone) : (nowMs - began) / HOUR_MS
}

/** The band a number falls into. Numbers beyond the ends fall into the end bands. */
export function bandOf(fact: BandFact, value: number): number {
  let lowest = -1
  let lowestFrom = 0
  let highest = 0
  let highestFrom = Number.NEGATIVE_INFINITY
  for (let index = 0; index < fact.bands.length; index += 1) {
    const band = fact.bands[index]
    if (band === undefined || band.option !== undefined) continue
    const from = band.from ?? Number.NEGATIVE_INFINITY
    if (value >= from && (band.below === undefined || value < band.below)) return index
    if (lowest < 0 || from < lowestFrom) {
      lowest = index
      lowestFrom = from
    }
    if (from >= highestFrom) {
      highest = index
      highestFrom = from
    }
  }
  return lowest >= 0 && value < lowestFrom ? lowest : highest
}

/** The option of the latest age in days that an animal hatched on `hatchedOn` has reached. */
export function ageOption(
  question: Question,
  hatchedOn: string | undefined,
  nowMs: number,
  zone: string,
): number | undefined {
  if (!question.fromAgeDays || hatchedOn === undefined) return undefined
  const days = calendarDaysBetween(Date.parse(`${hatchedOn}T12:00:00Z`), nowMs, zone)
  let option: number | undefined
  question.fromAgeDays.forEach((from, index) => {
    if (days >= from) option = index
  })
  return option
}
