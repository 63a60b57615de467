import type { Condition, Fact, Logic, Question, Rule } from '../../shared/compiled.ts'
import { rankOf } from '../../shared/urgency.ts'
import { type FlatCondition, flatten } from './flat-condition.ts'

/** A rule with what the hot path needs worked out once. */
export interface PreparedRule {
  readonly rule: Rule
  /** Its condition, laid out. */
  readonly flat: FlatCondition | undefined
  /** Rank given when true, and the floor's rank when unsure (never above it). */
  readonly rank: number
  readonly floorRank: number
  readonly concernIndex: number
  /** Indexes of the questions it mentions, directly or through a gate. */
  readonly questions: readonly number[]
  readonly facts: readonly number[]
}

/** A question with what the hot path needs worked out once. */
export interface PreparedQuestion {
  readonly question: Question
  /** The bit of its concern in the answer to the question of concerns; undefined for a question of no concern. */
  readonly concernBit: number | undefined
  /** Whether it says nothing, whatever its gate says, while its concern is not chosen and it is not answered. */
  readonly restsUnchosen: boolean
}

/** An option of a question that says a danger sign is there. */
export interface SignSource {
  readonly fact: number
  readonly options: number
}

/** The logic made ready for use: the only thing the functions of this folder take besides the case file. */
export interface Protocol {
  readonly logic: Logic
  readonly rules: readonly PreparedRule[]
  /** Indexes of the rules, most urgent first; of equals the earlier first. */
  readonly rulesByRank: readonly number[]
  readonly questions: readonly PreparedQuestion[]
  /** Rules that mention each question. */
  readonly rulesOfQuestion: readonly (readonly PreparedRule[])[]
  readonly questionIndex: ReadonlyMap<string, number>
  readonly factIndex: ReadonlyMap<string, number>
  /** Findings that rest on each question, worked out right after it so that later gates can use them. */
  readonly findingsOfQuestion: readonly (readonly number[])[]
  readonly signs: readonly number[]
  /** Per danger sign in `signs`, its screen and the look-now questions that name it. */
  readonly signSources: readonly (readonly SignSource[])[]
  /** A zero per fact and per rule: copied for every case. */
  readonly zeroPerFact: readonly number[]
  readonly zeroPerRule: readonly number[]
  readonly openPerQuestion: readonly 'open'[]
  /** Per fact and option, the rules that this option may make more than false; per fact, those that any may. */
  readonly rulesByOption: readonly (readonly (readonly number[])[])[]
  readonly rulesByFact: readonly (readonly number[])[]
  /** Questions asked for the urgency, in the order in which they are asked. */
  readonly urgencyQuestions: readonly number[]
}

/** Facts that a condition names, each once. */
export function factsIn(condition: Condition | undefined): number[] {
  if (!condition) return []
  if (condition.kind === 'atom') return [condition.fact]
  return [...new Set(condition.of.flatMap(factsIn))]
}

/** Questions that a fact rests on, its own gates and those of its questions included. */
export function questionsOfFact(logic: Logic, index: number): number[] {
  const fact = logic.facts[index]
  if (!fact) return []
  const withGates = (question: number): number[] => {
    const gate = logic.questions[question]?.gate
    return [question, ...factsIn(gate).flatMap(one => questionsOfFact(logic, one))]
  }
  switch (fact.kind) {
    case 'question':
      return withGates(fact.question)
    case 'band':
      return withGates(fact.question)
    case 'weight-loss':
      return withGates(fact.measuredBy)
    case 'season':
      return withGates(fact.hemisphere.fact)
    case 'sign':
      return [fact.screen, ...fact.lookNow].flatMap(one => withGates(one.fact))
  }
}

type Atom = Condition & { readonly kind: 'atom' }

/** How many atoms look at unordered facts: their answers are always there, so they rule little out. */
function dearness(logic: Logic, atoms: readonly Atom[]): number {
  return atoms.reduce((sum, { fact }) => {
    const { kind, ordered } = logic.facts[fact] ?? { kind: 'question', ordered: false }
    return sum + (kind === 'season' || (kind === 'question' && !ordered) ? 20 : 1)
  }, 0)
}

/** Atoms of which at least one must be more than false for the condition to be more than false. */
function triggersOf(logic: Logic, condition: Condition): Atom[] {
  if (condition.kind === 'atom') return [condition]
  const parts = condition.of.map(part => triggersOf(logic, part))
  if (condition.kind !== 'all') return parts.flat()
  return parts.reduce(
    (best, part) => (dearness(logic, part) < dearness(logic, best) ? part : best),
    parts[0] ?? [],
  )
}

/** The rules to look at for each fact and option: without `not`, a rule with no trigger in play is false. */
function ruleIndex(logic: Logic): Pick<Protocol, 'rulesByOption' | 'rulesByFact'> {
  const byOption = logic.facts.map(({ options }) =>
    Array.from({ length: Math.max(options.length, 1) }, () => new Set<number>()),
  )
  const byFact = logic.facts.map(() => new Set<number>())
  logic.rules.forEach(({ when }, rule) => {
    for (const { fact, options } of when ? triggersOf(logic, when) : []) {
      byFact[fact]?.add(rule)
      byOption[fact]?.forEach((rules, at) => {
        if (options & (1 << at)) rules.add(rule)
      })
    }
  })
  return {
    rulesByOption: byOption.map(options => options.map(rules => [...rules])),
    rulesByFact: byFact.map(rules => [...rules]),
  }
}

/** The question right after which a finding can be worked out; undefined for other facts. */
function questionOfFinding(fact: Fact): number | undefined {
  if (fact.kind === 'band') return fact.question
  if (fact.kind === 'weight-loss') return fact.measuredBy
  return fact.kind === 'season' ? fact.hemisphere.fact : undefined
}

function prepareQuestion(logic: Logic, question: Question): PreparedQuestion {
  const { concern, phase, fromAgeDays } = question
  const bit = logic.questions[logic.concernQuestion]?.options.indexOf(concern ?? '') ?? -1
  return {
    question,
    concernBit: concern === undefined ? undefined : bit < 0 ? 0 : 1 << bit,
    restsUnchosen: concern !== undefined && phase !== 'care' && !fromAgeDays,
  }
}

/** Makes compiled logic ready; done once per protocol. */
export function prepare(logic: Logic): Protocol {
  const rules = logic.rules.map((rule): PreparedRule => {
    const facts = factsIn(rule.when)
    const rank = rankOf(rule.level)
    return {
      rule,
      flat: rule.when && flatten(rule.when),
      rank,
      floorRank: Math.min(rankOf(rule.unsure), rank),
      concernIndex: rule.concern === undefined ? -1 : logic.concerns.indexOf(rule.concern),
      facts,
      questions: [...new Set(facts.flatMap(fact => questionsOfFact(logic, fact)))].sort(
        (one, other) => one - other,
      ),
    }
  })
  const signs = logic.facts.flatMap(({ kind }, index) => (kind === 'sign' ? [index] : []))
  return {
    logic,
    rules,
    rulesByRank: rules
      .map((_, index) => index)
      .sort((one, other) => (rules[other]?.rank ?? 0) - (rules[one]?.rank ?? 0)),
    questions: logic.questions.map(question => prepareQuestion(logic, question)),
    rulesOfQuestion: logic.questions.map((_, index) =>
      rules.filter(({ questions }) => questions.includes(index)),
    ),
    questionIndex: new Map(logic.questions.map(({ id }, index) => [id, index])),
    factIndex: new Map(
      logic.facts.map(({ id, kind }, index) => [kind === 'sign' ? `sign:${id}` : id, index]),
    ),
    findingsOfQuestion: logic.questions.map((_, question) =>
      logic.facts.flatMap((fact, index) => (questionOfFinding(fact) === question ? [index] : [])),
    ),
    ...ruleIndex(logic),
    signs,
    signSources: signs.map(index => {
      const fact = logic.facts[index]
      return fact?.kind === 'sign' ? [fact.screen, ...fact.lookNow] : []
    }),
    zeroPerFact: logic.facts.map(() => 0),
    zeroPerRule: rules.map(() => 0),
    openPerQuestion: logic.questions.map(() => 'open'),
    urgencyQuestions: logic.questions.flatMap(({ phase, forHandover }, index) =>
      phase === 'care' || phase === 'handover' || forHandover ? [] : [index],
    ),
  }
}
