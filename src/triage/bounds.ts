import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { type Known, knownOf } from './fact-states.ts'
import { FALSE, highOf, intervalOf, lowOf, TRUE } from './intervals.ts'
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
  readonly intervals: Uint8Array
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

/** Both bounds of a case at `now`. A case without a concern is never settled below `now`. */
export function standingOf(protocol: Protocol, caseFile: CaseFile, now: Moment): Standing {
  const known = knownOf(protocol, caseFile, now)
  const { logic } = protocol
  const answered = known.statuses[logic.concernQuestion] === 'answered'
  const bits = known.highOptions[logic.concernQuestion] ?? 0
  const chosen = logic.concerns.map((_, index) => answered && (bits & (1 << index)) !== 0)
  const intervals = new Uint8Array(protocol.rules.length)
  let lower = 0
  let upper = bits === 0 || !answered ? HIGHEST_RANK : 0
  const looked = new Uint8Array(protocol.rules.length)
  const look = (index: number) => {
    if (looked[index] === 1) return
    looked[index] = 1
    const rule = protocol.rules[index]
    if (!rule?.rule.when) return
    const interval = intervalOf(rule.rule.when, known)
    if (interval >> 2 === FALSE) return
    intervals[index] = interval
    const low = givenAt(lowOf(interval), rule)
    if (low > lower) lower = low
    if (inScope(rule, chosen)) {
      const high = givenAt(highOf(interval), rule)
      if (high > upper) upper = high
    }
  }
  // A rule is false unless one of its triggers is in play, so only those of facts that say something are looked at.
  for (let fact = 0; fact < protocol.rulesByFact.length; fact += 1) {
    if ((known.highRest[fact] ?? 0) !== FALSE) for (const rule of protocol.rulesByFact[fact] ?? []) look(rule)
    else {
      const byOption = protocol.rulesByOption[fact]
      for (let rest = known.highOptions[fact] ?? 0; rest !== 0; rest &= rest - 1)
        for (const rule of byOption?.[31 - Math.clz32(rest & -rest)] ?? []) look(rule)
    }
  }
  if (upper < lower) upper = lower
  return { known, lower, upper, settled: upper === lower, intervals, chosen }
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
