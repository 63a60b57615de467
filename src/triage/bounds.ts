import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { type Known, knownOf } from './fact-states.ts'
import { intervalOfFlat } from './flat-condition.ts'
import { FALSE, highOf, lowOf, TRUE } from './intervals.ts'
import type { PreparedRule, Protocol } from './prepare.ts'

/** Where a case stands: what it gives at least and at most, and what is known. */
export interface Standing {
  readonly known: Known
  /** Rank of the lower bound: the highest of what the low ends give, in scope or not. */
  readonly lower: number
  /** Rank of the upper bound: the highest of what the high ends of rules in scope give, never under the lower. */
  readonly upper: number
  readonly settled: boolean
  /** Interval of each rule's condition. */
  readonly intervals: readonly number[]
  /** Per concern, whether it is chosen. */
  readonly chosen: readonly boolean[]
}

/** What a rule gives at one end: its level if true, its floor if unsure, nothing if false. */
export function givenAt(end: number, rule: PreparedRule): number {
  return end === TRUE ? rule.rank : end === FALSE ? 0 : rule.floorRank
}

/** Whether a rule is in scope: a danger sign, general, or of a chosen concern. */
export function inScope(rule: PreparedRule, chosen: readonly boolean[]): boolean {
  return rule.concernIndex < 0 || chosen[rule.concernIndex] === true
}

/** What has been gathered from the rules looked at so far. */
interface Gathered {
  readonly known: Known
  readonly chosen: readonly boolean[]
  readonly intervals: number[]
  /** 1 for each rule that was looked at already. */
  readonly looked: number[]
  lower: number
  upper: number
}

function lookAt(protocol: Protocol, gathered: Gathered, rules: readonly number[] | undefined): void {
  if (rules === undefined) return
  for (let at = 0; at < rules.length; at += 1) {
    const index = rules[at] ?? 0
    if (gathered.looked[index] === 1) continue
    gathered.looked[index] = 1
    const rule = protocol.rules[index]
    if (!rule?.flat) continue
    const interval = intervalOfFlat(rule.flat, gathered.known)
    if (interval >> 2 === FALSE) continue
    gathered.intervals[index] = interval
    const low = givenAt(lowOf(interval), rule)
    if (low > gathered.lower) gathered.lower = low
    if (!inScope(rule, gathered.chosen)) continue
    const high = givenAt(highOf(interval), rule)
    if (high > gathered.upper) gathered.upper = high
  }
}

/**
 * Both bounds of a case at `now`. A case without a concern is never settled below `now`. `leftOut` is the index of a
 * question whose answer is taken as not given.
 */
export function standingOf(protocol: Protocol, caseFile: CaseFile, now: Moment, leftOut = -1): Standing {
  const known = knownOf(protocol, caseFile, now, leftOut)
  const { logic, rulesByFact, rulesByOption } = protocol
  const { highOptions, highRest } = known
  const answered = known.statuses[logic.concernQuestion] === 'answered'
  const bits = highOptions[logic.concernQuestion] ?? 0
  const chosen: boolean[] = []
  for (let index = 0; index < logic.concerns.length; index += 1)
    chosen.push(answered && (bits & (1 << index)) !== 0)
  const gathered: Gathered = {
    known,
    chosen,
    intervals: protocol.zeroPerRule.slice(),
    looked: protocol.zeroPerRule.slice(),
    lower: 0,
    upper: bits === 0 || !answered ? HIGHEST_RANK : 0,
  }
  // A rule is false unless one of its triggers is in play, so only those of facts that say something are looked at.
  for (let fact = 0; fact < highOptions.length; fact += 1) {
    if (highRest[fact] !== FALSE) lookAt(protocol, gathered, rulesByFact[fact])
    else {
      const byOption = rulesByOption[fact]
      for (let rest = highOptions[fact] ?? 0; rest !== 0; rest &= rest - 1)
        lookAt(protocol, gathered, byOption?.[31 - Math.clz32(rest & -rest)])
    }
  }
  const { lower } = gathered
  const upper = Math.max(gathered.upper, lower)
  return { known, lower, upper, settled: upper === lower, intervals: gathered.intervals, chosen }
}

/** Whether a rule's ends differ and its high end gives more than the lower bound, so that its questions still matter. */
function stillOpen(protocol: Protocol, standing: Standing, index: number): boolean {
  const rule = protocol.rules[index]
  const interval = standing.intervals[index] ?? 0
  return (
    rule !== undefined &&
    lowOf(interval) !== highOf(interval) &&
    givenAt(highOf(interval), rule) > standing.lower &&
    inScope(rule, standing.chosen)
  )
}

/** Indexes of the questions that still matter for the urgency, in the order in which they are asked. */
export function mattering(protocol: Protocol, standing: Standing): number[] {
  if (standing.settled) return []
  const { statuses } = standing.known
  const open = (question: number) => statuses[question] === 'open' || statuses[question] === 'lapsed'
  const wanted = new Set<number>()
  protocol.rules.forEach((rule, index) => {
    if (stillOpen(protocol, standing, index))
      for (const question of rule.questions) if (open(question)) wanted.add(question)
  })
  const concern = protocol.logic.concernQuestion
  if (!standing.chosen.includes(true)) wanted.add(concern)
  return protocol.urgencyQuestions.filter(question => wanted.has(question))
}
