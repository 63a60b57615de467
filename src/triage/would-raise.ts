import type { Assessment, Ground } from '../../shared/assessment.ts'
import type { Condition, Rule } from '../../shared/compiled.ts'
import { inScope, type Standing } from './bounds.ts'
import { type FactStates, TRUE } from './intervals.ts'
import type { Protocol } from './prepare.ts'
import { optionNames } from './reasons.ts'

type Raise = Assessment['wouldRaise'][number]
type Atom = Condition & { readonly kind: 'atom' }

/** How far a condition is from true: nothing lacking, more than one atom, or else the one atom. */
const NOTHING = 'nothing'
const MORE = 'more'

/** The one atom that would make a condition true; of several that would, the first. */
function lacking(condition: Condition, states: FactStates): Atom | typeof NOTHING | typeof MORE {
  if (condition.kind === 'atom') {
    const { fact, options } = condition
    return (states.lowOptions[fact] ?? 0) & options || states.lowRest[fact] === TRUE ? NOTHING : condition
  }
  const { of } = condition
  let left = condition.kind === 'all' ? of.length : condition.kind === 'any' ? 1 : condition.count
  let spare = of.length - left
  let near: Atom | undefined
  for (let at = 0; at < of.length && left > 0; at += 1) {
    const part = of[at]
    if (part === undefined) continue
    const lack = lacking(part, states)
    if (lack === NOTHING) left -= 1
    else {
      if (lack !== MORE) near ??= lack
      // Only as many parts may fail as are spare, and one more where it is near.
      spare -= 1
      if (spare < -1 || (spare < 0 && near === undefined)) return MORE
    }
  }
  if (left <= 0) return NOTHING
  return left === 1 && near !== undefined ? near : MORE
}

/** Per rule, what is told of it for each atom that may lack. */
type Told = readonly Map<Atom, Raise>[]

/** Made once and frozen: most of it comes back in every assessment. */
const toldOf = new WeakMap<Protocol, Told>()

function toldIn(protocol: Protocol): Told {
  const before = toldOf.get(protocol)
  if (before) return before
  const told = protocol.rules.map(() => new Map<Atom, Raise>())
  toldOf.set(protocol, told)
  return told
}

function raiseFor(protocol: Protocol, rule: Rule, { fact, options }: Atom): Raise {
  const missing: Ground = {
    fact: protocol.logic.facts[fact]?.id ?? '',
    options: optionNames(protocol, fact, options),
    unsure: false,
    questions: [],
  }
  Object.freeze(missing.options)
  Object.freeze(missing.questions)
  return Object.freeze({ rule: rule.id, level: rule.level, missing: Object.freeze(missing) })
}

/** Rules that one more sign would make true and that give more than the lower bound, most urgent first. */
export function wouldRaise(protocol: Protocol, standing: Standing): Raise[] {
  const raises: Raise[] = []
  const told = toldIn(protocol)
  for (const index of protocol.rulesByRank) {
    const rule = protocol.rules[index]
    if (!rule || rule.rank <= standing.lower) break
    if (!rule.rule.when || !inScope(rule, standing.chosen)) continue
    const lack = lacking(rule.rule.when, standing.known)
    if (lack === NOTHING || lack === MORE) continue
    const ofRule = told[index]
    const before = ofRule?.get(lack)
    const raise = before ?? raiseFor(protocol, rule.rule, lack)
    if (!before) ofRule?.set(lack, raise)
    raises.push(raise)
  }
  return raises
}
