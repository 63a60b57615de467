import type { Answer, CaseFile, WeighIn } from '../../../shared/case-file.ts'
import { givenAt } from '../../../src/triage/bounds.ts'
import type { PreparedRule, Protocol } from '../../../src/triage/prepare.ts'
import type { Desk } from './desk.ts'
import { ALWAYS, type Expression, NEVER, type Reading } from './expressions.ts'

/**
 * What a walk has to remember of the answers so far: the lower bound, and what is left of every rule that can still
 * raise it and of every gate that can still open a question.
 */

/** A rule by its index, or the gate of a question as `-1 - question`, with what is left of it. */
export type Left = readonly [index: number, left: Expression]

export interface Residue {
  readonly lower: number
  readonly left: readonly Left[]
}

/** One answer after another, from the last to the first. */
export interface Way {
  readonly before: Way | undefined
  readonly question: number
  readonly answer: Answer | undefined
  readonly weighIns: readonly WeighIn[] | undefined
}

/** The case file that a way of answering makes. */
export function caseOfWay(
  protocol: Protocol,
  end: Way | undefined,
  answered: Readonly<Record<string, Answer>> = {},
): CaseFile {
  const answers: Record<string, Answer> = { ...answered }
  const weighIns: WeighIn[] = []
  for (let way = end; way; way = way.before) {
    if (way.answer) answers[protocol.logic.questions[way.question]!.id] = way.answer
    if (way.weighIns) weighIns.unshift(...way.weighIns)
  }
  return { animal: {}, answers, weighIns, events: [], readings: [] }
}

/** How finely a rule still has to be read: what gives no more than the lower bound is told apart from nothing no more. */
function readingAt(rule: PreparedRule, lower: number): Reading {
  if (rule.floorRank <= lower) return 'sure'
  return rule.floorRank === rule.rank ? 'some' : 'full'
}

/** Works out residues for walks in which one set of concerns is chosen. */
export class Residues {
  readonly #unasked = new Map<string, Map<Expression, Expression>>()
  readonly #ahead: readonly ReadonlySet<number>[]

  readonly protocol: Protocol
  readonly desk: Desk
  readonly concerns: readonly string[]

  constructor(protocol: Protocol, desk: Desk, concerns: readonly string[]) {
    this.protocol = protocol
    this.desk = desk
    this.concerns = concerns
    const { urgencyQuestions } = protocol
    this.#ahead = [...urgencyQuestions, -1].map((_, place) => new Set(urgencyQuestions.slice(place)))
  }

  /** Whether a question belongs to a concern that this walk does not choose. */
  isForeign = (question: number): boolean => {
    const { concern } = this.protocol.logic.questions[question]!
    return concern !== undefined && !this.concerns.includes(concern)
  }

  /** Whether a rule can cause questions in this walk, at once or from the choice of concerns on. */
  causes = ({ rule }: PreparedRule): boolean =>
    rule.concern === undefined || this.concerns.includes(rule.concern)

  /** Whether it can cause them already. */
  causesNow = (rule: PreparedRule, chosen: boolean): boolean =>
    rule.concernIndex < 0 || (chosen && this.causes(rule))

  leavesOn = (one: Expression, question: number): number[] =>
    this.desk.table.leavesOf(one).filter(leaf => this.desk.table.leaves[leaf]!.question === question)

  /** Every rule and gate before the first answer. */
  all(): Left[] {
    const { rules, urgencyQuestions, logic } = this.protocol
    const { emptyRecord } = this.desk
    return [
      ...rules.flatMap(({ rule }, index): Left[] =>
        rule.when ? [[index, emptyRecord.condition(rule.when)]] : [],
      ),
      ...urgencyQuestions.flatMap((question): Left[] =>
        logic.questions[question]!.gate ? [[-1 - question, emptyRecord.gate(question)]] : [],
      ),
    ]
  }

  /** The atoms on the choice of concerns, and on every question that it leaves unasked. */
  afterChoice(left: readonly Left[]): Left[] {
    const { logic } = this.protocol
    const { table } = this.desk
    const values = new Map<number, number>()
    for (const [, one] of left)
      for (const leaf of table.leavesOf(one)) {
        const { question, options } = table.leaves[leaf]!
        if (question === logic.concernQuestion)
          values.set(
            leaf,
            this.concerns.some(one => options === 1 << logic.concerns.indexOf(one)) ? ALWAYS : NEVER,
          )
        else if (this.isForeign(question)) values.set(leaf, NEVER)
      }
    const memo = new Map<Expression, Expression>()
    return left.map(([index, one]) => [index, table.settle(one, values, memo)])
  }

  /** Settles the atoms of questions that are never asked to false; `key` names which these are. */
  #withoutAsking(one: Expression, key: string, never: (question: number) => boolean): Expression {
    const { table } = this.desk
    const unasked = table.leavesOf(one).filter(leaf => never(table.leaves[leaf]!.question))
    if (unasked.length === 0) return one
    const memo = this.#unasked.get(key) ?? new Map<Expression, Expression>()
    this.#unasked.set(key, memo)
    const known = memo.get(one)
    if (known !== undefined) return known
    const made = table.settle(one, new Map(unasked.map(leaf => [leaf, NEVER])), new Map())
    memo.set(one, made)
    return made
  }

  /** What is kept before the question at `place`. */
  kept(before: number, pairs: readonly Left[], place: number): Residue {
    const { rules, logic } = this.protocol
    const { table } = this.desk
    let lower = before
    for (const [index, one] of pairs)
      if (index >= 0) lower = Math.max(lower, givenAt(table.low(one), rules[index]!))
    const left: Left[] = []
    const askable = new Set<number>()
    for (const [index, one] of pairs) {
      const rule = rules[index]
      if (!rule || !this.causes(rule) || rule.rank <= lower) continue
      const open = table.read(one, readingAt(rule, lower))
      if (table.isSettled(open) || givenAt(table.high(open), rule) <= lower) continue
      left.push([index, open])
      for (const question of rule.questions)
        if (this.#ahead[place]!.has(question) && !this.isForeign(question)) askable.add(question)
    }
    // A rule out of scope counts with what it is sure of; a question that will not be asked makes nothing of it.
    const key = [...askable].sort((one, other) => one - other).join(' ')
    const never = (question: number) => !askable.has(question) && question !== logic.concernQuestion
    for (const [index, one] of pairs) {
      const rule = rules[index]
      if (!rule || this.causes(rule) || rule.rank <= lower) continue
      const open = this.#withoutAsking(table.read(one, readingAt(rule, lower)), key, never)
      if (!table.isSettled(open) && givenAt(table.high(open), rule) > lower) left.push([index, open])
    }
    for (const [index, one] of pairs)
      if (index < 0 && askable.has(-1 - index) && one !== ALWAYS) left.push([index, one])
    return { lower, left }
  }
}
