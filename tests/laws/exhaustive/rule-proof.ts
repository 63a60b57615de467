import type { CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { PreparedRule, Protocol } from '../../../src/triage/prepare.ts'
import type { AnswerBook } from './classes.ts'
import { type Desk, deskOf, momentsOf } from './desk.ts'
import { ALWAYS, type Expression, type Expressions, NEVER, OPEN } from './expressions.ts'
import { breaks, caseOfWay, type Relation, type Way } from './rule-way.ts'

/**
 * One rule over every way of answering the questions it mentions, with their gates, "can't tell", "can't measure",
 * not asked yet, and every choice of concerns. The questions are gone through in order; what is left of the rule is
 * the state, so that all ways are counted and none is listed. For the laws two cases that differ in one answer go
 * side by side to the end, for every such pair of answers and whatever the other answers are.
 */

/** One case on its way: what is left of the rule, and what a question not asked now says. */
interface Side {
  readonly left: Expression
  readonly unasked: Expression
  /** Whether the choice of concerns is answered. */
  readonly concernsKnown: boolean
}

interface State {
  readonly one: Side
  readonly other?: Side
  readonly relation?: Relation
  /** Gate of the weighing, while it is ahead: where it is shut nobody is asked to weigh. */
  readonly weighing: Expression
  readonly way: Way | undefined
  readonly pairAt?: string
  /** For a worse answer: the question. */
  readonly worseAt?: number
  combinations: bigint
  answerSets: bigint
}

export interface RuleProof {
  readonly rule: string
  readonly questions: number
  /** Combinations of answer classes, and the written answer sets they stand for; not asked counts as one. */
  readonly combinations: bigint
  readonly answerSets: bigint
  readonly states: number
  /** Answer sets in which it holds for certain. */
  readonly holdsIn: bigint
  /** A case in which it holds, and the moment. */
  readonly witness: { readonly caseFile: CaseFile; readonly now: Moment } | undefined
  /** Questions at which a worse answer can make less of this one rule; others must then make up for it. */
  readonly lessWhenWorse: readonly number[]
  readonly faults: readonly string[]
}

class RuleWalk {
  readonly #table: Expressions
  readonly #book: AnswerBook
  states = 0

  readonly protocol: Protocol
  readonly rule: PreparedRule
  readonly desk: Desk

  constructor(protocol: Protocol, rule: PreparedRule, desk: Desk) {
    this.protocol = protocol
    this.rule = rule
    this.desk = desk
    this.#table = desk.table
    this.#book = desk.book
  }

  #leavesOn = (parts: readonly Expression[], question: number) =>
    [...new Set(parts.flatMap(part => this.#table.leavesOf(part)))]
      .filter(leaf => this.#table.leaves[leaf]!.question === question)
      .sort((one, other) => one - other)

  #settle = (left: Expression, values: ReadonlyMap<number, number>) =>
    values.size === 0 ? left : this.#table.settle(left, values, new Map())

  /** A layer of states made smaller: equal ones are added up. */
  #merged(states: Iterable<State>): State[] {
    const found = new Map<string, State>()
    const side = (one: Side | undefined) => (one ? `${one.left} ${one.unasked} ${one.concernsKnown}` : '')
    for (const state of states) {
      const { one, other, relation } = state
      // Two cases of which the same is left come to the same.
      if (
        other &&
        one.left === other.left &&
        one.unasked === other.unasked &&
        one.concernsKnown === other.concernsKnown
      )
        continue
      if (other && relation && one.left < 16 && other.left < 16 && !breaks(relation, one.left, other.left))
        continue
      const key = `${side(one)}|${side(other)}|${relation}|${state.worseAt}|${state.weighing}`
      const before = found.get(key)
      if (before) {
        before.combinations += state.combinations
        before.answerSets += state.answerSets
      } else found.set(key, { ...state })
    }
    this.states += found.size
    return [...found.values()]
  }

  #chooseConcern(layer: readonly State[], concern: number): State[] {
    const { logic } = this.protocol
    const bits = this.#table.leaves.flatMap((leaf, at) =>
      leaf.question === logic.concernQuestion && leaf.options === 1 << concern ? [at] : [],
    )
    const settled = (left: Expression, value: number) =>
      this.#settle(left, new Map(bits.map(bit => [bit, value])))
    const chosen = (side: Side, choice: boolean): Side => {
      const value = side.concernsKnown ? (choice ? ALWAYS : NEVER) : OPEN
      return { ...side, left: settled(side.left, value), unasked: value === NEVER ? NEVER : OPEN }
    }
    const next: State[] = []
    for (const state of layer) {
      const { one, other } = state
      const weigh = (choice: boolean) =>
        settled(state.weighing, one.concernsKnown ? (choice ? ALWAYS : NEVER) : OPEN)
      const choices = one.concernsKnown || other?.concernsKnown ? [false, true] : [false]
      for (const choice of choices)
        next.push({
          ...state,
          one: chosen(one, choice),
          ...(other ? { other: chosen(other, choice) } : {}),
          weighing: weigh(choice),
          way: choice ? { before: state.way, concern } : state.way,
        })
      if (!other && one.concernsKnown)
        next.push({
          ...state,
          one: chosen(one, false),
          other: chosen(one, true),
          relation: 'worse',
          pairAt: `one more concern: ${logic.concerns[concern]}`,
        })
    }
    return this.#merged(next)
  }

  #answer(layer: readonly State[], question: number): State[] {
    const { id, kind } = this.protocol.logic.questions[question]!
    const isWeighing = kind === 'weights'
    const next: State[] = []
    for (const state of layer) {
      const { one, other, weighing } = state
      const leaves = this.#leavesOn([one.left, weighing, ...(other ? [other.left] : [])], question)
      const { classes } = this.#book.classesOf(question, leaves, isWeighing ? 'with-record' : 'asked')
      const unasked = (side: Side) =>
        new Map(
          leaves.map(leaf => [leaf, this.#table.leaves[leaf]!.part === 'weighed' ? NEVER : side.unasked]),
        )
      const shutUnasked = unasked(one)
      const after = (side: Side, at: number | undefined): Side => ({
        ...side,
        left: this.#settle(side.left, at === undefined ? unasked(side) : classes[at]!.values),
      })
      const move = (at: number | undefined) => {
        const chosen = at === undefined ? undefined : classes[at]!
        next.push({
          ...state,
          one: after(one, at),
          ...(other ? { other: after(other, at) } : {}),
          weighing: isWeighing ? ALWAYS : this.#settle(weighing, chosen?.values ?? shutUnasked),
          way: chosen ? { before: state.way, answer: [question, chosen.answer, chosen.weighIns] } : state.way,
          answerSets: state.answerSets * (chosen?.standsFor ?? 1n),
        })
      }
      move(undefined)
      classes.forEach((_, at) => {
        move(at)
      })
      if (other) continue
      const fork = (relation: Relation, from: number | undefined, to: number) => {
        next.push({
          ...state,
          one: after(one, from),
          other: after(one, to),
          relation,
          ...(relation === 'worse' ? { worseAt: question } : {}),
          weighing: ALWAYS,
          pairAt: `${id}: ${JSON.stringify([from === undefined ? 'not asked' : classes[from]!.answer, classes[to]!.answer])}`,
        })
      }
      const pairs = this.#book.pairsOf(question, leaves, isWeighing ? 'with-record' : 'asked')
      for (const [from, to] of pairs.worse) fork('worse', from, to)
      for (const [from, to] of pairs.unmeasured) fork('unmeasured', from, to)
      // A question that is not asked because its concern was not chosen, or that does not apply, waits for nothing.
      if (one.unasked === OPEN && !(isWeighing && weighing === NEVER))
        classes.forEach((_, at) => {
          fork('narrower', undefined, at)
        })
    }
    return this.#merged(next)
  }

  run() {
    const { logic } = this.protocol
    const when = this.rule.rule.when
    const left = when ? this.desk.withRecord.condition(when) : ALWAYS
    const asked = this.rule.questions.filter(question => question !== logic.concernQuestion)
    const weighingAt = asked.find(question => logic.questions[question]!.kind === 'weights')
    const weighing = weighingAt === undefined ? ALWAYS : this.desk.withRecord.gate(weighingAt)
    const known: Side = { left, unasked: OPEN, concernsKnown: true }
    const unknown: Side = { ...known, concernsKnown: false }
    const start = { weighing, way: undefined, combinations: 1n, answerSets: 1n }
    let layer = this.#merged([
      { ...start, one: known },
      { ...start, one: unknown },
      { ...start, one: unknown, other: known, relation: 'narrower', pairAt: 'concerns not asked yet' },
    ])
    const concernOf = (question: number) => logic.questions[question]!.concern
    const isOfPhase = (question: number, phase: string) => logic.questions[question]!.phase === phase
    for (const question of asked.filter(one => isOfPhase(one, 'danger')))
      layer = this.#answer(layer, question)
    const bits = this.#table.leavesOf(left).flatMap(leaf => {
      const { question, options } = this.#table.leaves[leaf]!
      return question === logic.concernQuestion ? [31 - Math.clz32(options)] : []
    })
    logic.concerns.forEach((concern, at) => {
      const own = asked.filter(question => concernOf(question) === concern)
      if (own.length === 0 && !bits.includes(at)) return
      layer = this.#chooseConcern(layer, at)
      for (const question of own) layer = this.#answer(layer, question)
      layer = this.#merged(
        layer.map(state => ({
          ...state,
          one: { ...state.one, unasked: OPEN },
          ...(state.other ? { other: { ...state.other, unasked: OPEN } } : {}),
        })),
      )
    })
    for (const question of asked)
      if (!isOfPhase(question, 'danger') && concernOf(question) === undefined)
        layer = this.#answer(layer, question)
    return layer
  }
}

/** Proves one rule: worse never gives less, not knowing holds every end, a measurement missing never gives more. */
export function proveRule(protocol: Protocol, rule: PreparedRule): RuleProof {
  const faults: string[] = []
  let combinations = 0n
  let answerSets = 0n
  let holdsIn = 0n
  let states = 0
  const lessWhenWorse = new Set<number>()
  let witness: RuleProof['witness']
  for (const now of momentsOf(protocol, [rule])) {
    const walk = new RuleWalk(protocol, rule, deskOf(protocol, now))
    for (const { one, other, relation, way, pairAt, worseAt, ...counted } of walk.run()) {
      const id = rule.rule.id
      if (one.left >= 16 || (other && other.left >= 16))
        faults.push(`${id}: not settled by its own questions`)
      else if (other && relation) {
        if (!breaks(relation, one.left, other.left)) continue
        if (worseAt !== undefined) {
          lessWhenWorse.add(worseAt)
          continue
        }
        const caseFile = JSON.stringify(caseOfWay(protocol, way, now, one.concernsKnown))
        if (faults.length < 5)
          faults.push(`${id}: ${relation}: ${pairAt}: ${one.left} then ${other.left} in ${caseFile}`)
      } else {
        combinations += counted.combinations
        answerSets += counted.answerSets
        if (one.left !== ALWAYS) continue
        holdsIn += counted.answerSets
        if (!witness || one.concernsKnown)
          witness = { caseFile: caseOfWay(protocol, way, now, one.concernsKnown), now }
      }
    }
    states += walk.states
  }
  return {
    rule: rule.rule.id,
    questions: rule.questions.length,
    combinations,
    answerSets,
    states,
    holdsIn,
    witness,
    lessWhenWorse: [...lessWhenWorse],
    faults,
  }
}
