import type { Answer, CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import { HIGHEST_RANK } from '../../../shared/urgency.ts'
import { givenAt, mattering, standingOf } from '../../../src/triage/bounds.ts'
import type { Protocol } from '../../../src/triage/prepare.ts'
import type { AnswerClass } from './classes.ts'
import { deskOf } from './desk.ts'
import { ALWAYS, type Expression, NEVER } from './expressions.ts'
import { caseOfWay, type Left, type Residue, Residues, type Way } from './residue.ts'

/**
 * Walks the chart of a concern (or of several chosen together) through every reachable state: the place in the line
 * and the residue of the answers so far. Two pasts of the same residue go on the same, so they are one state; the
 * ways to it and the answer sets are added up exactly. One way to each state is kept, and there the program must ask
 * the same question and stand at the same bounds.
 */

export interface ChartStart {
  readonly concerns: readonly string[]
  readonly now: Moment
  /** Answers given before the first question, as the start button gives one. */
  readonly answered?: Readonly<Record<string, Answer>>
  /** Looks at each state: one case that reaches it, its bounds, and the question it asks, if any. */
  readonly onState?: (caseFile: CaseFile, bounds: Bounds, question: number | undefined, now: Moment) => void
}

export interface Bounds {
  readonly lower: number
  readonly upper: number
}

export interface ChartProof {
  readonly states: number
  readonly walks: bigint
  readonly answerSets: bigint
  /** Answer sets by the rank of the outcome. */
  readonly outcomes: ReadonlyMap<number, bigint>
  /** Questions asked on the longest walk. */
  readonly longestWalk: number
  readonly faults: readonly string[]
}

interface State extends Residue {
  readonly way: Way | undefined
  walks: bigint
  answerSets: bigint
  length: number
}

const MOST_FAULTS = 10

class ChartWalk {
  readonly #residues: Residues
  readonly #memos = new WeakMap<AnswerClass, Map<Expression, Expression>>()
  readonly #faults: string[] = []
  readonly #outcomes = new Map<number, bigint>()
  readonly #concernPlace: number
  readonly #answered: ReadonlySet<number>
  #states = 0
  #walks = 0n
  #answerSets = 0n
  #longest = 0

  readonly protocol: Protocol
  readonly start: ChartStart

  constructor(protocol: Protocol, start: ChartStart) {
    this.protocol = protocol
    this.start = start
    this.#residues = new Residues(protocol, deskOf(protocol, start.now), start.concerns)
    this.#concernPlace = protocol.urgencyQuestions.indexOf(protocol.logic.concernQuestion)
    this.#answered = new Set(Object.keys(start.answered ?? {}).map(id => protocol.questionIndex.get(id)!))
  }

  #fault(message: string): void {
    if (this.#faults.length < MOST_FAULTS)
      this.#faults.push(`${this.start.concerns.join(' and ')}: ${message}`)
  }

  #settled(left: readonly Left[], one: AnswerClass): Left[] {
    const { table } = this.#residues.desk
    const memo = this.#memos.get(one) ?? new Map<Expression, Expression>()
    this.#memos.set(one, memo)
    return left.map(([index, condition]) => [index, table.settle(condition, one.values, memo)])
  }

  #leavesOn = (left: readonly Left[], question: number) =>
    [...new Set(left.flatMap(([, one]) => this.#residues.leavesOn(one, question)))].sort((a, b) => a - b)

  #first(): State {
    const { desk } = this.#residues
    let left = this.#residues.all()
    for (const [id, answer] of Object.entries(this.start.answered ?? {})) {
      const question = this.protocol.questionIndex.get(id)!
      const { classes } = desk.book.classesOf(question, this.#leavesOn(left, question))
      const said = classes.find(one => JSON.stringify(one.answer) === JSON.stringify(answer))
      if (!said) throw new Error(`${id}: that answer does not stand first in its class`)
      left = this.#settled(left, said)
    }
    return { ...this.#residues.kept(0, left, 0), way: undefined, walks: 1n, answerSets: 1n, length: 0 }
  }

  /** Whether a question is asked where its turn comes. */
  #asks(state: State, question: number, chosen: boolean): boolean {
    const { rules, logic } = this.protocol
    if (question === logic.concernQuestion) return true
    if (this.#answered.has(question) || this.#residues.isForeign(question)) return false
    const wanted = state.left.some(
      ([index]) =>
        index >= 0 &&
        this.#residues.causesNow(rules[index]!, chosen) &&
        rules[index]!.questions.includes(question),
    )
    const gate = state.left.find(([index]) => index === -1 - question)?.[1] ?? ALWAYS
    if (wanted && gate !== ALWAYS && gate !== NEVER)
      this.#fault(`${logic.questions[question]!.id}: its gate is still open when its turn comes`)
    return wanted && gate !== NEVER
  }

  /** A question that is passed by must not be needed by anything that can still cause a question. */
  #passes(state: State, question: number): void {
    const { rules, logic } = this.protocol
    if (this.#residues.isForeign(question)) return
    for (const [index, one] of state.left)
      if (
        index >= 0 &&
        this.#residues.causes(rules[index]!) &&
        this.#residues.leavesOn(one, question).length > 0
      )
        this.#fault(`${logic.questions[question]!.id} is passed by and ${rules[index]!.rule.id} needs it`)
  }

  /** Holds the program's standing at one way to a state against what the walk makes of it. */
  #compare(state: State, question: number | undefined, chosen: boolean): void {
    const { rules } = this.protocol
    const caseFile = caseOfWay(this.protocol, state.way, this.start.answered)
    let upper = chosen ? state.lower : HIGHEST_RANK
    for (const [index, one] of state.left)
      if (index >= 0 && this.#residues.causesNow(rules[index]!, chosen))
        upper = Math.max(upper, givenAt(this.#residues.desk.table.high(one), rules[index]!))
    const standing = standingOf(this.protocol, caseFile, this.start.now)
    const [next] = mattering(this.protocol, standing)
    if (standing.lower !== state.lower || standing.upper !== upper || next !== question)
      this.#fault(
        `the program stands at ${standing.lower} to ${standing.upper} and asks ${next}, the walk at ${state.lower} to ${upper} and asks ${question}: ${JSON.stringify(caseFile)}`,
      )
    this.start.onState?.(caseFile, { lower: state.lower, upper }, question, this.start.now)
  }

  #end(state: State, chosen: boolean): void {
    if (
      state.lower !== HIGHEST_RANK &&
      state.left.some(([index]) => index >= 0 && this.#residues.causes(this.protocol.rules[index]!))
    )
      this.#fault(
        `the line ends unsettled: ${JSON.stringify(caseOfWay(this.protocol, state.way, this.start.answered))}`,
      )
    this.#states += 1
    this.#compare(state, undefined, chosen)
    this.#outcomes.set(state.lower, (this.#outcomes.get(state.lower) ?? 0n) + state.answerSets)
    this.#walks += state.walks
    this.#answerSets += state.answerSets
    this.#longest = Math.max(this.#longest, state.length)
  }

  #isOver = (state: State, chosen: boolean) =>
    state.lower === HIGHEST_RANK ||
    (chosen &&
      !state.left.some(([index]) => index >= 0 && this.#residues.causes(this.protocol.rules[index]!)))

  #step(
    state: State,
    question: number,
    place: number,
    add: (from: State, kept: Residue, one?: AnswerClass) => void,
  ) {
    const chosen = place > this.#concernPlace
    if (this.#isOver(state, chosen)) {
      this.#end(state, chosen)
      return
    }
    if (!this.#asks(state, question, chosen)) {
      this.#passes(state, question)
      add(state, this.#residues.kept(state.lower, state.left, place + 1))
      return
    }
    this.#states += 1
    this.#compare(state, question, chosen)
    if (place === this.#concernPlace) {
      const given = this.start.now.instant
      const answer = { kind: 'several' as const, chosen: this.start.concerns, rest: 'no' as const, given }
      const kept = this.#residues.kept(state.lower, this.#residues.afterChoice(state.left), place + 1)
      add(state, kept, { answer, weighIns: undefined, values: new Map(), standsFor: 1n })
      return
    }
    const leaves = this.#leavesOn(state.left, question)
    for (const one of this.#residues.desk.book.classesOf(question, leaves).classes)
      add(state, this.#residues.kept(state.lower, this.#settled(state.left, one), place + 1), one)
  }

  run(): ChartProof {
    const { urgencyQuestions } = this.protocol
    let layer = new Map<string, State>([['', this.#first()]])
    urgencyQuestions.forEach((question, place) => {
      const next = new Map<string, State>()
      const add = (from: State, kept: Residue, one?: AnswerClass) => {
        const key = `${kept.lower} ${kept.left.flat().join(' ')}`
        const answerSets = from.answerSets * (one?.standsFor ?? 1n)
        const length = from.length + (one ? 1 : 0)
        const before = next.get(key)
        if (before) {
          before.walks += from.walks
          before.answerSets += answerSets
          before.length = Math.max(before.length, length)
          return
        }
        const way = one
          ? { before: from.way, question, answer: one.answer, weighIns: one.weighIns }
          : from.way
        next.set(key, { ...kept, way, walks: from.walks, answerSets, length })
      }
      for (const state of layer.values()) this.#step(state, question, place, add)
      layer = next
    })
    for (const state of layer.values()) this.#end(state, true)
    return {
      states: this.#states,
      walks: this.#walks,
      answerSets: this.#answerSets,
      outcomes: this.#outcomes,
      longestWalk: this.#longest,
      faults: this.#faults,
    }
  }
}

/** Every state of the chart in which these concerns are chosen. */
export function walkChart(protocol: Protocol, start: ChartStart): ChartProof {
  return new ChartWalk(protocol, start).run()
}
