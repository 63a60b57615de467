import type { Condition } from '../../shared/compiled.ts'
import { FALSE, type FactStates, intervalOf, TRUE } from './intervals.ts'

/**
 * A condition laid out for rules, which are weighed for every case: atoms stand side by side in two lists, so that most
 * conditions are one loop. It means what `intervalOf` says; tests/triage/flat-condition.test.ts compares the two.
 */
export interface FlatCondition {
  readonly kind: 'all' | 'any'
  readonly facts: readonly number[]
  readonly options: readonly number[]
  readonly nested: readonly FlatCondition[]
  /** Parts of another kind. */
  readonly others: readonly Condition[]
}

/** Lays a condition out; an atom is "any" of one. */
export function flatten(condition: Condition): FlatCondition {
  const kind = condition.kind === 'all' ? 'all' : 'any'
  const facts: number[] = []
  const options: number[] = []
  const nested: FlatCondition[] = []
  const others: Condition[] = []
  const add = (part: Condition) => {
    if (part.kind === 'atom') {
      facts.push(part.fact)
      options.push(part.options)
    } else if (part.kind === 'atLeast') others.push(part)
    else if (part.kind === kind) part.of.forEach(add)
    else nested.push(flatten(part))
  }
  if (condition.kind === 'all' || condition.kind === 'any') condition.of.forEach(add)
  else add(condition)
  return { kind, facts, options, nested, others }
}

function ofAll({ facts, options, nested, others }: FlatCondition, states: FactStates): number {
  const { lowOptions, lowRest, highOptions, highRest } = states
  let low = TRUE
  let high = TRUE
  for (let at = 0; at < facts.length; at += 1) {
    const fact = facts[at] ?? 0
    const bits = options[at] ?? 0
    if (!((highOptions[fact] ?? 0) & bits)) {
      const rest = highRest[fact] ?? 0
      if (rest === FALSE) return 0
      if (rest < high) high = rest
    }
    if (low !== FALSE && !((lowOptions[fact] ?? 0) & bits)) {
      const rest = lowRest[fact] ?? 0
      if (rest < low) low = rest
    }
  }
  for (let at = 0; at < nested.length + others.length; at += 1) {
    const interval = partAt(nested, others, at, states)
    if ((interval & 3) < low) low = interval & 3
    if (interval >> 2 < high) high = interval >> 2
    if (high === FALSE) return 0
  }
  return low | (high << 2)
}

function ofAny({ facts, options, nested, others }: FlatCondition, states: FactStates): number {
  const { lowOptions, lowRest, highOptions, highRest } = states
  let low = FALSE
  let high = FALSE
  for (let at = 0; at < facts.length; at += 1) {
    const fact = facts[at] ?? 0
    const bits = options[at] ?? 0
    const mayBe = (highOptions[fact] ?? 0) & bits ? TRUE : (highRest[fact] ?? 0)
    if (mayBe === FALSE) continue
    if (mayBe > high) high = mayBe
    const said = (lowOptions[fact] ?? 0) & bits ? TRUE : (lowRest[fact] ?? 0)
    if (said > low) low = said
    if (low === TRUE) return TRUE | (TRUE << 2)
  }
  for (let at = 0; at < nested.length + others.length && low !== TRUE; at += 1) {
    const interval = partAt(nested, others, at, states)
    if ((interval & 3) > low) low = interval & 3
    if (interval >> 2 > high) high = interval >> 2
  }
  return low | (high << 2)
}

function partAt(
  nested: readonly FlatCondition[],
  others: readonly Condition[],
  at: number,
  states: FactStates,
): number {
  const flat = nested[at]
  if (flat) return intervalOfFlat(flat, states)
  const other = others[at - nested.length]
  return other ? intervalOf(other, states) : 0
}

/** The interval of a condition that was laid out. */
export function intervalOfFlat(condition: FlatCondition, states: FactStates): number {
  return condition.kind === 'all' ? ofAll(condition, states) : ofAny(condition, states)
}
