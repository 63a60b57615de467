import type { CaseFile } from '../../shared/case-file.ts'
import type { BandFact, Question, SeasonFact, WeightLossFact } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { WeightComparison } from '../measure/compareWeights.ts'
import { ageOption, bandOf, numberOf, readOf, stillStands } from './answers.ts'
import { monthOf } from './calendar.ts'
import {
  FALSE,
  type FactStates,
  type FactStatesToFill,
  intervalOf,
  lowOf,
  noFacts,
  TRUE,
} from './intervals.ts'
import type { PreparedQuestion, Protocol, SignSource } from './prepare.ts'
import { comparisonOf, lossBit } from './weight-state.ts'

/** How a question stands in a case. */
export type QuestionStatus = 'open' | 'lapsed' | 'answered' | 'does-not-apply'

/** Everything known about the facts of one case at one time. */
export interface Known extends FactStates {
  readonly statuses: readonly QuestionStatus[]
  /** The comparison of weigh-ins, where there are any. */
  readonly weights: WeightComparison | undefined
}

/** A case while its facts are worked out. Plain functions share it: closures would be made anew for every case. */
interface Working {
  readonly protocol: Protocol
  readonly caseFile: CaseFile
  readonly now: Moment
  readonly nowMs: number
  readonly states: FactStatesToFill
  readonly statuses: QuestionStatus[]
  /** Whether the concerns were chosen, and the bits of the chosen ones. */
  readonly concernsTold: boolean
  readonly chosenBits: number
  /** The question whose answer is taken as not given. */
  readonly leftOut: number
  weights: WeightComparison | undefined
}

function set(
  states: FactStatesToFill,
  fact: number,
  lowOptions: number,
  lowRest: number,
  highOptions: number,
  highRest: number,
): void {
  states.lowOptions[fact] = lowOptions
  states.lowRest[fact] = lowRest
  states.highOptions[fact] = highOptions
  states.highRest[fact] = highRest
}

function settleUnanswered(
  working: Working,
  index: number,
  question: Question,
  wasAnswered: boolean,
  notChosen: boolean,
  mayBeShut: boolean,
): void {
  const { states, statuses } = working
  const age = ageOption(question, working.caseFile.animal.hatchedOn, working.nowMs, working.now.zone)
  if (age !== undefined) {
    statuses[index] = 'answered'
    set(states, index, mayBeShut ? 0 : 1 << age, FALSE, 1 << age, FALSE)
  } else if (question.phase === 'care') {
    // A care question that was not asked yet counts as its last option, which content keeps for "not known".
    statuses[index] = 'open'
    const last = 1 << (question.options.length - 1)
    set(states, index, last, FALSE, last, FALSE)
  } else if (notChosen) statuses[index] = 'does-not-apply'
  else {
    statuses[index] = wasAnswered ? 'lapsed' : 'open'
    states.highRest[index] = TRUE
  }
}

function settleQuestion(working: Working, index: number, prepared: PreparedQuestion): void {
  const { states, statuses } = working
  const { question, concernBit } = prepared
  const answer = index === working.leftOut ? undefined : working.caseFile.answers[question.id]
  const read = answer === undefined ? undefined : readOf(question, answer)
  const stands = read !== undefined && stillStands(question, read.givenMs, working.nowMs)
  const notChosen =
    concernBit !== undefined && working.concernsTold && (working.chosenBits & concernBit) === 0
  if (!stands && notChosen && prepared.restsUnchosen) {
    statuses[index] = 'does-not-apply'
    return
  }
  const gate = question.gate ? intervalOf(question.gate, states) : TRUE | (TRUE << 2)
  if (gate >> 2 === FALSE) {
    statuses[index] = 'does-not-apply'
    return
  }
  const mayBeShut = (gate & 3) === FALSE
  if (!stands) settleUnanswered(working, index, question, answer !== undefined, notChosen, mayBeShut)
  else {
    statuses[index] = 'answered'
    const { options, rest } = read
    set(states, index, mayBeShut ? 0 : options, mayBeShut ? FALSE : rest, options, rest)
  }
}

function settleBand(working: Working, index: number, fact: BandFact): void {
  const { states, nowMs, now } = working
  const at = fact.question
  const highOptions = states.highOptions[at] ?? 0
  const highRest = states.highRest[at] ?? 0
  if (working.statuses[at] !== 'answered') {
    states.highRest[index] = highRest
    return
  }
  const question = working.protocol.logic.questions[at]
  const answer = question && at !== working.leftOut ? working.caseFile.answers[question.id] : undefined
  const value = question && answer ? numberOf(question, answer, fact, nowMs, now.zone) : undefined
  if (value !== undefined) {
    const bits = 1 << bandOf(fact, value)
    const shut = question?.gate !== undefined && lowOf(intervalOf(question.gate, states)) === FALSE
    set(states, index, shut ? 0 : bits, FALSE, bits, FALSE)
    return
  }
  let bits = 0
  for (let band = 0; band < fact.bands.length; band += 1) {
    const option = fact.bands[band]?.option
    if (option !== undefined && highOptions & (1 << option)) bits |= 1 << band
  }
  const lowRest = states.lowRest[at] ?? 0
  const shut = (states.lowOptions[at] ?? 0) === 0 && lowRest === FALSE
  set(states, index, shut ? 0 : bits, lowRest, bits, highRest)
}

function settleWeightLoss(working: Working, index: number, fact: WeightLossFact): void {
  const { caseFile, states, protocol } = working
  if (caseFile.weighIns.length > 0)
    working.weights = comparisonOf(caseFile, protocol.logic.weight, working.now)
  const bits = lossBit(fact, working.weights)
  const settled = bits !== 0 && working.weights?.newestIsFresh === true
  const rest =
    settled || working.statuses[fact.measuredBy] === 'answered'
      ? FALSE
      : (states.highRest[fact.measuredBy] ?? 0)
  set(states, index, bits, FALSE, bits, rest)
}

function settleSeason(working: Working, index: number, fact: SeasonFact): void {
  const { states, statuses } = working
  const { fact: hemisphere, south } = fact.hemisphere
  if (statuses[hemisphere] === 'open' || statuses[hemisphere] === 'lapsed') {
    states.highRest[index] = TRUE
    return
  }
  const isSouth = (states.highOptions[hemisphere] ?? 0) & (1 << south)
  const month = ((monthOf(working.nowMs, working.now.zone) - 1 + (isSouth ? 6 : 0)) % 12) + 1
  const bits = 1 << fact.months.findIndex(months => months.includes(month))
  set(states, index, bits, FALSE, bits, FALSE)
}

function settleSign(states: FactStatesToFill, index: number, sources: readonly SignSource[]): void {
  let low = FALSE
  let high = FALSE
  for (let at = 0; at < sources.length; at += 1) {
    const source = sources[at]
    if (source === undefined) continue
    const { fact, options } = source
    const said = (states.lowOptions[fact] ?? 0) & options ? TRUE : (states.lowRest[fact] ?? 0)
    const mayBe = (states.highOptions[fact] ?? 0) & options ? TRUE : (states.highRest[fact] ?? 0)
    if (said > low) low = said
    if (mayBe > high) high = mayBe
  }
  if (high === FALSE) return
  set(
    states,
    index,
    low === TRUE ? 1 : 0,
    low === TRUE ? FALSE : low,
    high === TRUE ? 1 : 0,
    high === TRUE ? FALSE : high,
  )
}

function settleFinding(working: Working, index: number): void {
  const fact = working.protocol.logic.facts[index]
  if (fact?.kind === 'band') settleBand(working, index, fact)
  else if (fact?.kind === 'weight-loss') settleWeightLoss(working, index, fact)
  else if (fact?.kind === 'season') settleSeason(working, index, fact)
}

/**
 * Works out the state of every fact from the answers, the record and the time. `leftOut` is the index of a question
 * whose answer is taken as not given.
 */
export function knownOf(protocol: Protocol, caseFile: CaseFile, now: Moment, leftOut = -1): Known {
  const { logic, questions, findingsOfQuestion, signs, signSources } = protocol
  const states = noFacts(protocol.zeroPerFact)
  const concerns = logic.concernQuestion === leftOut ? undefined : logic.questions[logic.concernQuestion]
  const concernAnswer = concerns ? caseFile.answers[concerns.id] : undefined
  const concernsTold = concernAnswer?.kind === 'several'
  const working: Working = {
    protocol,
    caseFile,
    now,
    nowMs: Date.parse(now.instant),
    states,
    statuses: protocol.openPerQuestion.slice(),
    concernsTold,
    chosenBits: concernsTold && concerns ? readOf(concerns, concernAnswer).options : 0,
    leftOut,
    weights: undefined,
  }
  for (let index = 0; index < questions.length; index += 1) {
    const question = questions[index]
    if (question) settleQuestion(working, index, question)
    const findings = findingsOfQuestion[index]
    if (findings) for (let at = 0; at < findings.length; at += 1) settleFinding(working, findings[at] ?? -1)
  }
  for (let at = 0; at < signs.length; at += 1) settleSign(states, signs[at] ?? -1, signSources[at] ?? [])
  return {
    lowOptions: states.lowOptions,
    lowRest: states.lowRest,
    highOptions: states.highOptions,
    highRest: states.highRest,
    statuses: working.statuses,
    weights: working.weights,
  }
}
