import type { Ground, Reason } from '../../shared/assessment.ts'
import type { Condition } from '../../shared/compiled.ts'
import { levelOf } from '../../shared/urgency.ts'
import { givenAt, inScope, type Standing } from './bounds.ts'
import type { Known } from './fact-states.ts'
import { FALSE, intervalOf, lowOf, TRUE, UNSURE } from './intervals.ts'
import type { PreparedRule, Protocol } from './prepare.ts'

/** One atom that made a condition hold. */
interface Support {
  readonly fact: number
  readonly options: number
}

/** The fewest atoms that lift the low end of a condition to `target`; undefined where they do not. */
function supportOf(condition: Condition, known: Known, target: number): Support[] | undefined {
  if (lowOf(intervalOf(condition, known)) < target) return undefined
  if (condition.kind === 'atom') {
    return [{ fact: condition.fact, options: (known.lowOptions[condition.fact] ?? 0) & condition.options }]
  }
  const parts = condition.of.map(part => supportOf(part, known, target))
  if (condition.kind === 'all') return parts.flatMap(part => part ?? [])
  const held = parts.flatMap(part => (part ? [part] : [])).sort((one, other) => one.length - other.length)
  return held.slice(0, condition.kind === 'any' ? 1 : condition.count).flat()
}

/** Whether a condition's low end reaches `target` by these facts alone. */
function holdsBy(condition: Condition, known: Known, target: number, facts: readonly number[]): boolean {
  if (condition.kind === 'atom')
    return facts.includes(condition.fact) && lowOf(intervalOf(condition, known)) >= target
  let held = 0
  for (const part of condition.of) if (holdsBy(part, known, target, facts)) held += 1
  return (
    held >= (condition.kind === 'all' ? condition.of.length : condition.kind === 'any' ? 1 : condition.count)
  )
}

/** A support without the facts that the rest of it makes needless. */
function withoutNeedless(condition: Condition, known: Known, target: number, support: Support[]): Support[] {
  if (support.length < 2) return support
  let facts = [...new Set(support.map(({ fact }) => fact))]
  for (const fact of [...facts].reverse()) {
    const fewer = facts.filter(one => one !== fact)
    if (holdsBy(condition, known, target, fewer)) facts = fewer
  }
  return support.filter(({ fact }) => facts.includes(fact))
}

/** Names of the options in a bit set. */
export function optionNames(protocol: Protocol, fact: number, bits: number): string[] {
  return (protocol.logic.facts[fact]?.options ?? []).filter((_, at) => bits & (1 << at))
}

function questionsThatSaidSo(protocol: Protocol, known: Known, factIndex: number): string[] {
  const fact = protocol.logic.facts[factIndex]
  const idOf = (question: number) => protocol.logic.questions[question]?.id ?? ''
  if (!fact) return []
  switch (fact.kind) {
    case 'question':
    case 'band':
      return [idOf(fact.question)]
    case 'weight-loss':
      return []
    case 'season':
      return [idOf(fact.hemisphere.fact)]
    case 'sign': {
      const sources = [fact.screen, ...fact.lookNow]
      const yes = sources.filter(one => (known.lowOptions[one.fact] ?? 0) & one.options)
      return (yes.length > 0 ? yes : sources.filter(one => known.lowRest[one.fact] === UNSURE)).map(one =>
        idOf(one.fact),
      )
    }
  }
}

/** A support in ids: which fact, which options, and which questions said so. */
export function groundOf(protocol: Protocol, known: Known, support: Support): Ground {
  return {
    fact: protocol.logic.facts[support.fact]?.id ?? '',
    options: optionNames(protocol, support.fact, support.options),
    unsure: support.options === 0,
    questions: questionsThatSaidSo(protocol, known, support.fact),
  }
}

/** A rule that holds, the end it holds at, and what it gives. */
export interface HeldRule {
  readonly rule: PreparedRule
  readonly low: number
  readonly rank: number
  readonly inScope: boolean
}

/** Rules whose low end gives something, in the protocol's order. */
export function heldRules(protocol: Protocol, standing: Standing): HeldRule[] {
  const held: HeldRule[] = []
  for (let index = 0; index < standing.intervals.length; index += 1) {
    const low = lowOf(standing.intervals[index] ?? 0)
    const rule = low === FALSE ? undefined : protocol.rules[index]
    if (rule) held.push({ rule, low, rank: givenAt(low, rule), inScope: inScope(rule, standing.chosen) })
  }
  return held
}

/**
 * The rules that are worth telling: all that hold in scope; those of other concerns only where they give more than
 * everything in scope; a concern's base only where it is all that holds at its level or above for that concern.
 */
export function tellingRules(held: readonly HeldRule[], standing: Standing): HeldRule[] {
  let top = 0
  for (const one of held) if (one.inScope && one.rank > top) top = one.rank
  const telling = [...held.filter(one => one.inScope), ...held.filter(one => !one.inScope && one.rank > top)]
  const isBase = ({ rule }: HeldRule) => rule.rule.origin === 'base'
  return telling.filter(
    one =>
      !isBase(one) ||
      !telling.some(
        other =>
          !isBase(other) &&
          other.rank >= one.rank &&
          (other.rule.concernIndex === one.rule.concernIndex || standing.lower > one.rank),
      ),
  )
}

/** Why: every rule whose low end gives something, most urgent first, each with the fewest answers that made it so. */
export function reasonsOf(protocol: Protocol, standing: Standing, telling: readonly HeldRule[]): Reason[] {
  return [...telling]
    .sort((one, other) => other.rank - one.rank)
    .map(({ rule: { rule }, low, rank }) => {
      const seen = new Set<number>()
      const support = rule.when
        ? withoutNeedless(rule.when, standing.known, low, supportOf(rule.when, standing.known, low) ?? [])
        : []
      const because = support
        .filter(({ fact }) => !seen.has(fact) && seen.add(fact))
        .map(one => groundOf(protocol, standing.known, one))
      return {
        rule: rule.id,
        ...(rule.concern === undefined ? {} : { concern: rule.concern }),
        level: levelOf(rank) ?? rule.level,
        unsure: low !== TRUE,
        because,
        evidence: [...rule.evidence],
        findingBasis: rule.findingBasis,
        urgencyBasis: rule.urgencyBasis,
      }
    })
}
