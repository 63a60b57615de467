import type { Condition, Fact } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { knownOf } from '../../../src/triage/fact-states.ts'
import { intervalOf } from '../../../src/triage/intervals.ts'
import { type Protocol, prepare } from '../../../src/triage/prepare.ts'
import { ALWAYS, type Expression, type Expressions, type Leaf, NEVER } from './expressions.ts'

/** The question whose answer makes a fact known; a danger sign has none of its own. */
export function ownerOf(fact: Fact): number | undefined {
  switch (fact.kind) {
    case 'question':
    case 'band':
      return fact.question
    case 'weight-loss':
      return fact.measuredBy
    case 'season':
      return fact.hemisphere.fact
    default:
      return undefined
  }
}

/** The protocol with one question, its gate open, and the facts that rest on it; `facts` tells where they went. */
export function onlyQuestion(protocol: Protocol, index: number) {
  const { logic } = protocol
  const { gate: _, concern: __, ...question } = logic.questions[index]!
  const facts = new Map<number, number>()
  const kept = [
    question.fact,
    ...logic.facts.flatMap((fact, at) => (at !== question.fact && ownerOf(fact) === index ? [at] : [])),
  ].map((fact, at) => {
    facts.set(fact, at)
    const own = logic.facts[fact]!
    if (own.kind === 'weight-loss') return { ...own, measuredBy: 0 }
    if (own.kind === 'season') return { ...own, hemisphere: { ...own.hemisphere, fact: 0 } }
    return own.kind === 'sign' ? own : { ...own, question: 0 }
  })
  const small = prepare({
    ...logic,
    questions: [{ ...question, fact: 0 }],
    facts: kept,
    rules: [],
    concerns: [],
    concernQuestion: -1,
  })
  return { small, facts }
}

/** Turns conditions into expressions over the answers to questions, danger signs and gates written out. */
export class Compiler {
  readonly #conditions = new Map<Condition, Expression>()
  readonly #gates = new Map<number, Expression>()

  /** @param weighedBefore whether the record may hold weigh-ins before the question for them is asked */
  readonly protocol: Protocol
  readonly table: Expressions
  readonly now: Moment
  readonly weighedBefore: boolean

  constructor(protocol: Protocol, table: Expressions, now: Moment, weighedBefore: boolean) {
    this.protocol = protocol
    this.table = table
    this.now = now
    this.weighedBefore = weighedBefore
  }

  gate(question: number): Expression {
    const known = this.#gates.get(question)
    if (known !== undefined) return known
    const gate = this.protocol.logic.questions[question]?.gate
    const made = gate ? this.table.read(this.condition(gate), 'some') : ALWAYS
    this.#gates.set(question, made)
    return made
  }

  condition(condition: Condition): Expression {
    const known = this.#conditions.get(condition)
    if (known !== undefined) return known
    const made =
      condition.kind === 'atom'
        ? this.#atom(condition.fact, condition.options)
        : condition.kind === 'atLeast'
          ? this.table.atLeast(
              condition.count,
              condition.of.map(part => this.condition(part)),
            )
          : this.table[condition.kind](condition.of.map(part => this.condition(part)))
    this.#conditions.set(condition, made)
    return made
  }

  #leaf = (question: number, fact: number, options: number, part: Leaf['part'] = 'answer') =>
    this.table.leaf({ question, fact, options, part, reading: 'full' })

  #atom(index: number, options: number): Expression {
    const { logic } = this.protocol
    const fact = logic.facts[index]!
    if (fact.kind === 'sign') {
      if ((options & 1) === 0) return NEVER
      return this.table.any(
        [fact.screen, ...fact.lookNow].map(place => this.#atom(place.fact, place.options)),
      )
    }
    const question = ownerOf(fact)!
    if (question === logic.concernQuestion) {
      // Each concern is a choice of its own, so that sets of them need not be listed.
      const bits = logic.concerns.flatMap((_, at) =>
        options & (1 << at) ? [this.#leaf(question, index, 1 << at)] : [],
      )
      return this.table.any(bits)
    }
    const gate = this.gate(question)
    if (fact.kind === 'season')
      return this.table.unlessShut(
        gate,
        this.#leaf(question, index, options),
        this.#shutSeason(index, options),
      )
    if (fact.kind === 'weight-loss' && this.weighedBefore)
      return this.table.any([
        this.#leaf(question, index, options, 'weighed'),
        this.table.gated(gate, this.#leaf(question, index, options, 'unweighed')),
      ])
    return this.table.gated(gate, this.#leaf(question, index, options))
  }

  /** What the program says of the season where the question for the hemisphere does not apply. */
  #shutSeason(index: number, options: number): Expression {
    const fact = this.protocol.logic.facts[index]!
    const { small, facts } = onlyQuestion(this.protocol, ownerOf(fact)!)
    const shut = prepare({
      ...small.logic,
      questions: small.logic.questions.map(question => ({ ...question, gate: { kind: 'any', of: [] } })),
    })
    const known = knownOf(shut, { animal: {}, answers: {}, weighIns: [], events: [], readings: [] }, this.now)
    return intervalOf({ kind: 'atom', fact: facts.get(index)!, options }, known)
  }
}
