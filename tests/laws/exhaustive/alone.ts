import { givenAt, standingOf } from '../../../src/triage/bounds.ts'
import { lowOf } from '../../../src/triage/intervals.ts'
import type { PreparedRule, Protocol } from '../../../src/triage/prepare.ts'
import type { Desk } from './desk.ts'
import { ALWAYS, type Expression, NEVER } from './expressions.ts'
import { type FoundCase, findCase } from './search.ts'

/** Every rule decides alone in some complete case, or others give as much whenever it holds. */
export type Deciding =
  /** Nothing else gives as much. */
  | { readonly kind: 'alone'; readonly found: FoundCase }
  /** No other rule in scope gives as much; a rule of a concern that was not chosen always does. */
  | { readonly kind: 'in-scope'; readonly found: FoundCase; readonly besides: readonly string[] }
  /** Each of these rules in scope always gives as much. */
  | { readonly kind: 'dominated'; readonly by: readonly string[] }
  /** In each case one of these rules in scope gives as much, but none of them in every case. */
  | { readonly kind: 'covered'; readonly by: readonly string[] }

/** The condition that a rule gives at least a rank. */
export function givesAtLeast(desk: Desk, rule: PreparedRule, rank: number): Expression {
  if (rule.rank < rank) return NEVER
  const when = rule.rule.when
  if (!when) return ALWAYS
  return desk.table.read(desk.emptyRecord.condition(when), rule.floorRank >= rank ? 'some' : 'sure')
}

const inScopeOf = (chosen: readonly number[]) => (rule: PreparedRule) =>
  rule.concernIndex < 0 || chosen.includes(rule.concernIndex)

/** Whether a rule decides alone somewhere, and which others stand before it where it does not. */
export function decidingOf(protocol: Protocol, rule: PreparedRule): Deciding {
  const { rank } = rule
  const { when } = rule.rule
  const holds = (desk: Desk) => (when ? desk.table.read(desk.emptyRecord.condition(when), 'sure') : ALWAYS)
  const without = (silent: readonly PreparedRule[], inScopeOnly: boolean) =>
    findCase(protocol, {
      rule,
      holds,
      silent: (desk, chosen) =>
        desk.table.any(
          silent
            .filter(other => !inScopeOnly || inScopeOf(chosen)(other))
            .map(other => givesAtLeast(desk, other, rank)),
        ),
    })
  const others = protocol.rules.filter(other => other !== rule && other.rank >= rank)
  const alone = without(others, false)
  if (alone) return { kind: 'alone', found: alone }
  const found = without(others, true)
  const speakingIn = ({ caseFile, now }: FoundCase, inScopeOnly: boolean) => {
    const { intervals, chosen } = standingOf(protocol, caseFile, now)
    const bits = chosen.flatMap((one, at) => (one ? [at] : []))
    return others.filter(
      other =>
        (!inScopeOnly || inScopeOf(bits)(other)) &&
        givenAt(lowOf(intervals[protocol.rules.indexOf(other)]!), other) >= rank,
    )
  }
  if (!found) {
    // Each case in which a candidate is silent leaves only those that speak in it.
    const dominating: string[] = []
    const first = without([], true)
    if (!first) throw new Error(`${rule.rule.id} never holds`)
    let candidates = speakingIn(first, true)
    for (let one = candidates.shift(); one; one = candidates.shift()) {
      const silent = without([one], true)
      if (!silent) dominating.push(one.rule.id)
      else candidates = candidates.filter(other => speakingIn(silent, true).includes(other))
    }
    if (dominating.length > 0) return { kind: 'dominated', by: dominating }
  }
  // Take a rule that speaks in each case left, until no case is left; then leave out what is not needed.
  const cover: PreparedRule[] = []
  const covering = (rules: readonly PreparedRule[]) => without(rules, !found)
  for (let left = covering(cover); left; left = covering(cover)) {
    const speaking = speakingIn(left, !found).find(other => !cover.includes(other))
    if (!speaking) throw new Error(`${rule.rule.id}: alone in ${JSON.stringify(left.caseFile)}`)
    cover.push(speaking)
  }
  for (const one of [...cover]) {
    const fewer = cover.filter(other => other !== one)
    if (!covering(fewer)) cover.splice(cover.indexOf(one), 1)
  }
  const names = cover.map(one => one.rule.id)
  return found ? { kind: 'in-scope', found, besides: names } : { kind: 'covered', by: names }
}

/** Whether the program agrees: the rule holds, and nothing else (or nothing else in scope) gives as much. */
export function decidesAlone(
  protocol: Protocol,
  rule: PreparedRule,
  { caseFile, now }: FoundCase,
  inScopeOnly: boolean,
): boolean {
  const { intervals, settled, chosen } = standingOf(protocol, caseFile, now)
  const bits = chosen.flatMap((one, at) => (one ? [at] : []))
  return (
    settled &&
    protocol.rules.every((other, at) => {
      const given = givenAt(lowOf(intervals[at]!), other)
      if (other === rule) return given === rule.rank
      return given < rule.rank || (inScopeOnly && !inScopeOf(bits)(other))
    })
  )
}

/**
 * Law 2 for one rule at one question, where a worse answer makes less of the rule: a case in which no other rule makes
 * up for it.
 */
export function worseGivesLess(
  protocol: Protocol,
  rule: PreparedRule,
  question: number,
): FoundCase | undefined {
  const { when } = rule.rule
  for (const [rank, reading] of [
    [rule.rank, 'sure'],
    [rule.floorRank, 'some'],
  ] as const) {
    if (rank === 0) continue
    const found = findCase(protocol, {
      rule,
      holds: desk => (when ? desk.table.read(desk.emptyRecord.condition(when), reading) : ALWAYS),
      silent: desk => desk.table.any(protocol.rules.map(other => givesAtLeast(desk, other, rank))),
      worseAt: question,
    })
    if (found) return found
  }
  return undefined
}
