import type { Condition, Fact, Logic, Rule } from '../../shared/compiled.ts'
import { rankOf } from '../../shared/urgency.ts'

/** A rule with what the hot path needs worked out once. */
export interface PreparedRule {
  readonly rule: Rule
  /** Rank given when true, and the floor's rank when unsure (never above it). */
  readonly rank: number
  readonly floorRank: number
  readonly concernIndex: number
  /** Indexes of the questions it mentions, directly or through a gate. */
  readonly questions: readonly number[]
  readonly facts: readonly number[]
}

/** The logic made ready for use: the only thing the functions of this folder take besides the case file. */
export interface Protocol {
  readonly logic: Logic
  readonly rules: readonly PreparedRule[]
  /** Rules that mention each question. */
  readonly rulesOfQuestion: readonly (readonly PreparedRule[])[]
  readonly questionIndex: ReadonlyMap<string, number>
  readonly factIndex: ReadonlyMap<string, number>
  /** Findings that rest on each question, worked out right after it so that later gates can use them. */
  readonly findingsOfQuestion: readonly (readonly number[])[]
  readonly signs: readonly number[]
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

/** The question right after which a finding can be worked out; undefined for other facts. */
function questionOfFinding(fact: Fact): number | undefined {
  if (fact.kind === 'band') return fact.question
  if (fact.kind === 'weight-loss') return fact.measuredBy
  return fact.kind === 'season' ? fact.hemisphere.fact : undefined
}

/** Makes compiled logic ready; done once per protocol. */
export function prepare(logic: Logic): Protocol {
  const rules = logic.rules.map((rule): PreparedRule => {
    const facts = factsIn(rule.when)
    const rank = rankOf(rule.level)
    return {
      rule,
      rank,
      floorRank: Math.min(rankOf(rule.unsure), rank),
      concernIndex: rule.concern === undefined ? -1 : logic.concerns.indexOf(rule.concern),
      facts,
      questions: [...new Set(facts.flatMap(fact => questionsOfFact(logic, fact)))].sort(
        (one, other) => one - other,
      ),
    }
  })
  return {
    logic,
    rules,
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
    signs: logic.facts.flatMap(({ kind }, index) => (kind === 'sign' ? [index] : [])),
    urgencyQuestions: logic.questions.flatMap(({ phase, forHandover }, index) =>
      phase === 'care' || phase === 'handover' || forHandover ? [] : [index],
    ),
  }
}
