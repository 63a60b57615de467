import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { BandFact, Question, WeightLossFact, WeightPolicy } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { compareWeights, type WeightComparison } from '../measure/compareWeights.ts'
import { lossCell } from '../measure/lossCell.ts'
import { calendarDaysBetween, monthOf } from './calendar.ts'
import { FALSE, type FactStates, highOf, intervalOf, lowOf, noFacts, TRUE, UNSURE } from './intervals.ts'
import type { Protocol } from './prepare.ts'

/** How a question stands in a case. */
export type QuestionStatus = 'open' | 'lapsed' | 'answered' | 'does-not-apply'

/** Everything known about the facts of one case at one time. */
export interface Known extends FactStates {
  readonly statuses: readonly QuestionStatus[]
  /** The comparison of weigh-ins, where there are any. */
  readonly weights: WeightComparison | undefined
}

const HOUR_MS = 3_600_000

/** An answer as the bit sets that a question's options make of it, with the time it was given. */
interface ReadAnswer {
  readonly question: Question
  readonly givenMs: number
  readonly options: number
  readonly rest: number
}

/** Worked out once per answer: the wizard weighs the same answers again after each new one. */
const readAnswers = new WeakMap<Answer, ReadAnswer>()

function readOf(question: Question, answer: Answer): ReadAnswer {
  const before = readAnswers.get(answer)
  if (before?.question === question) return before
  let options = 0
  let rest = FALSE
  if (answer.kind === 'choice') options = 1 << question.options.indexOf(answer.choice)
  else if (answer.kind === 'several') {
    for (const one of answer.chosen) options |= 1 << question.options.indexOf(one)
    if (answer.rest === 'cannot-tell') rest = UNSURE
  } else if (answer.kind === 'cannot-tell') rest = UNSURE
  const read = { question, givenMs: Date.parse(answer.given), options, rest }
  readAnswers.set(answer, read)
  return read
}

/** Whether an answer still stands at `nowMs`. */
export function stillStands(question: Question, answer: Answer, nowMs: number): boolean {
  return nowMs - readOf(question, answer).givenMs <= question.staysGoodHours * HOUR_MS
}

/** The last comparison of each list of weigh-ins: it depends on the lists, the policy and the time alone. */
const comparisons = new WeakMap<
  readonly WeighIn[],
  {
    readonly caseFile: CaseFile
    readonly policy: WeightPolicy
    readonly now: Moment
    readonly value: WeightComparison
  }
>()

function comparisonOf(caseFile: CaseFile, policy: WeightPolicy, now: Moment): WeightComparison {
  const before = comparisons.get(caseFile.weighIns)
  if (
    before &&
    before.policy === policy &&
    (before.caseFile === caseFile || before.caseFile.events === caseFile.events) &&
    before.now.instant === now.instant &&
    before.now.zone === now.zone
  )
    return before.value
  const value = compareWeights(caseFile.weighIns, caseFile.events, policy, now)
  comparisons.set(caseFile.weighIns, { caseFile, policy, now, value })
  return value
}

const cells = new WeakMap<
  WeightLossFact,
  { readonly id: string; readonly atLeastPercent: number; readonly withinDays?: number }[]
>()

/** The grid of a weight loss, worst first, as `lossCell` takes it. */
function gridOf(fact: WeightLossFact) {
  const before = cells.get(fact)
  if (before) return before
  const grid = fact.grid.map((one, at) => ({ id: String(at), ...one })).reverse()
  cells.set(fact, grid)
  return grid
}

function ageOption(
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

/** The number that a `since` or `amount` answer puts into bands; the worse end where it is uncertain. */
function numberOf(answer: Answer, fact: BandFact, nowMs: number, zone: string): number | undefined {
  if (answer.kind === 'amount') return answer.amount
  if (answer.kind !== 'since') return undefined
  const spread = answer.uncertaintyHours * HOUR_MS * (fact.worse === 'lower' ? 1 : -1)
  const began = Math.min(Date.parse(answer.began) + spread, nowMs)
  return fact.unit === 'days' ? calendarDaysBetween(began, nowMs, zone) : (nowMs - began) / HOUR_MS
}

/** The band a number falls into. Numbers beyond the ends fall into the end bands. */
export function bandOf(fact: BandFact, value: number): number {
  const numbered = fact.bands.flatMap((band, index) => (band.option === undefined ? [{ band, index }] : []))
  const found = numbered.find(
    ({ band }) =>
      (band.from === undefined || value >= band.from) && (band.below === undefined || value < band.below),
  )
  if (found) return found.index
  const byFrom = [...numbered].sort(
    (one, other) =>
      (one.band.from ?? Number.NEGATIVE_INFINITY) - (other.band.from ?? Number.NEGATIVE_INFINITY),
  )
  const lowest = byFrom[0]
  const highest = byFrom.at(-1)
  return (lowest && value < (lowest.band.from ?? Number.NEGATIVE_INFINITY) ? lowest : highest)?.index ?? 0
}

/** Works out the state of every fact from the answers, the record and the time. */
export function knownOf(protocol: Protocol, caseFile: CaseFile, now: Moment): Known {
  const { logic } = protocol
  const states = noFacts(logic.facts.length)
  const statuses: QuestionStatus[] = new Array(logic.questions.length)
  const nowMs = Date.parse(now.instant)
  const concernAnswer = caseFile.answers[logic.questions[logic.concernQuestion]?.id ?? '']
  const chosen = concernAnswer?.kind === 'several' ? concernAnswer.chosen : undefined

  const set = (fact: number, lowOptions: number, lowRest: number, highOptions: number, highRest: number) => {
    states.lowOptions[fact] = lowOptions
    states.lowRest[fact] = lowRest
    states.highOptions[fact] = highOptions
    states.highRest[fact] = highRest
  }

  const settleQuestion = (index: number): void => {
    const question = logic.questions[index]
    if (!question) return
    const gate = question.gate ? intervalOf(question.gate, states) : TRUE | (TRUE << 2)
    if (highOf(gate) === FALSE) {
      statuses[index] = 'does-not-apply'
      return
    }
    const mayBeShut = lowOf(gate) === FALSE
    const answer = caseFile.answers[question.id]
    const stands = answer !== undefined && stillStands(question, answer, nowMs)
    if (!answer || !stands) {
      const age = ageOption(question, caseFile.animal.hatchedOn, nowMs, now.zone)
      if (age !== undefined) {
        statuses[index] = 'answered'
        set(index, mayBeShut ? 0 : 1 << age, FALSE, 1 << age, FALSE)
        return
      }
      if (question.phase === 'care') {
        // A care question that was not asked yet counts as its last option, which content keeps for "not known".
        statuses[index] = 'open'
        const last = 1 << (question.options.length - 1)
        set(index, last, FALSE, last, FALSE)
        return
      }
      const notChosen =
        question.concern !== undefined && chosen !== undefined && !chosen.includes(question.concern)
      statuses[index] = notChosen ? 'does-not-apply' : answer ? 'lapsed' : 'open'
      set(index, 0, FALSE, 0, notChosen ? FALSE : TRUE)
      return
    }
    statuses[index] = 'answered'
    const { options, rest } = readOf(question, answer)
    set(index, mayBeShut ? 0 : options, mayBeShut ? FALSE : rest, options, rest)
  }

  let weights: WeightComparison | undefined
  const settleFact = (index: number): void => {
    const fact = logic.facts[index]
    if (!fact) return
    switch (fact.kind) {
      case 'question':
        break
      case 'band': {
        const question = fact.question
        const status = statuses[question]
        if (status !== 'answered') {
          set(index, 0, FALSE, 0, states.highRest[question] ?? 0)
          break
        }
        const answer = caseFile.answers[logic.questions[question]?.id ?? '']
        const shut = (states.lowOptions[question] ?? 0) === 0 && (states.lowRest[question] ?? 0) === FALSE
        const value = answer ? numberOf(answer, fact, nowMs, now.zone) : undefined
        if (value !== undefined) {
          const gate = logic.questions[question]?.gate
          const bits = 1 << bandOf(fact, value)
          set(index, gate && lowOf(intervalOf(gate, states)) === FALSE ? 0 : bits, FALSE, bits, FALSE)
          break
        }
        let bits = 0
        fact.bands.forEach((band, at) => {
          if (band.option !== undefined && (states.highOptions[question] ?? 0) & (1 << band.option))
            bits |= 1 << at
        })
        set(index, shut ? 0 : bits, states.lowRest[question] ?? 0, bits, states.highRest[question] ?? 0)
        break
      }
      case 'weight-loss': {
        if (caseFile.weighIns.length > 0) weights = comparisonOf(caseFile, logic.weight, now)
        const cell = weights ? lossCell(weights, gridOf(fact)) : undefined
        const bits = cell === undefined ? 0 : 1 << Number(cell)
        const settled = bits !== 0 && weights?.newestIsFresh === true
        const rest = settled
          ? FALSE
          : statuses[fact.measuredBy] === 'answered'
            ? FALSE
            : (states.highRest[fact.measuredBy] ?? 0)
        set(index, bits, FALSE, bits, rest)
        break
      }
      case 'season': {
        const south = (states.highOptions[fact.hemisphere.fact] ?? 0) & (1 << fact.hemisphere.south)
        const month = ((monthOf(nowMs, now.zone) - 1 + (south ? 6 : 0)) % 12) + 1
        const bits = 1 << fact.months.findIndex(months => months.includes(month))
        const open = statuses[fact.hemisphere.fact] === 'open' || statuses[fact.hemisphere.fact] === 'lapsed'
        if (open) set(index, 0, FALSE, 0, TRUE)
        else set(index, bits, FALSE, bits, FALSE)
        break
      }
      case 'sign': {
        let low = FALSE
        let high = FALSE
        for (const one of [fact.screen, ...fact.lookNow]) {
          const said =
            (states.lowOptions[one.fact] ?? 0) & one.options ? TRUE : (states.lowRest[one.fact] ?? 0)
          const mayBe =
            (states.highOptions[one.fact] ?? 0) & one.options ? TRUE : (states.highRest[one.fact] ?? 0)
          if (said > low) low = said
          if (mayBe > high) high = mayBe
        }
        set(
          index,
          low === TRUE ? 1 : 0,
          low === TRUE ? FALSE : low,
          high === TRUE ? 1 : 0,
          high === TRUE ? FALSE : high,
        )
        break
      }
    }
  }

  for (let index = 0; index < logic.questions.length; index += 1) {
    settleQuestion(index)
    for (const finding of protocol.findingsOfQuestion[index] ?? []) settleFact(finding)
  }
  for (const sign of protocol.signs) settleFact(sign)
  return { ...states, statuses, weights }
}
