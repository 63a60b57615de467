import type { Answer, CaseFile, WeighIn } from '../../../shared/case-file.ts'
import type { Condition } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { FALSE, highOf, lowOf, TRUE } from '../../../src/triage/intervals.ts'
import { type PreparedRule, type Protocol, questionsOfFact } from '../../../src/triage/prepare.ts'
import { mildestAnswers } from '../mildest.ts'
import type { AnswerClass } from './classes.ts'
import { type Desk, deskOf, momentsOf } from './desk.ts'
import { ALWAYS, type Expression, NEVER } from './expressions.ts'

/**
 * Looks for a complete case in which one condition holds and another is silent, through every choice of concerns and
 * every class of answers; finding none proves that there is none. Left out are only answers that another answer
 * beats: one that makes nothing of the first condition less, and nothing of the second more.
 */

export interface Wanted {
  /** The rule that the first condition is of; its concern is chosen. */
  readonly rule: PreparedRule
  readonly holds: (desk: Desk) => Expression
  readonly silent: (desk: Desk, chosen: readonly number[]) => Expression
  /** At this question the second condition is given a worse answer than the first. */
  readonly worseAt?: number
}

export interface FoundCase {
  readonly caseFile: CaseFile
  /** The case with the worse answer, where one was asked for. */
  readonly worse?: CaseFile
  readonly now: Moment
}

type Taken = readonly [question: number, one: AnswerClass, other: AnswerClass]

const MOST_LOOKS = 400_000

/** For each concern by which atoms it is read, danger signs aside: they can be ticked on their screens. */
function concernsRead(protocol: Protocol, condition: Condition | undefined): Map<number, string> {
  const { logic } = protocol
  const read = new Map<number, string>()
  const note = (concern: number, by: string) => read.set(concern, `${read.get(concern) ?? ''} ${by}`)
  const visit = (one: Condition, at: string): void => {
    if (one.kind !== 'atom') {
      one.of.forEach((part, place) => {
        visit(part, `${at}.${place}`)
      })
      return
    }
    const fact = logic.facts[one.fact]
    if (!fact || fact.kind === 'sign') return
    for (const question of questionsOfFact(logic, one.fact)) {
      const { concern, gate } = logic.questions[question]!
      if (concern !== undefined) note(logic.concerns.indexOf(concern), `owner of ${question}`)
      if (gate) visit(gate, `gate of ${question}`)
    }
    if (fact.kind === 'question' && fact.question === logic.concernQuestion)
      logic.concerns.forEach((_, bit) => {
        if (one.options & (1 << bit)) note(bit, at)
      })
  }
  if (condition) visit(condition, '')
  return read
}

/** Sets of concerns under which a rule can come to hold, the fewest first; a further one could only add to the others. */
function choicesOf(protocol: Protocol, rule: PreparedRule): number[][] {
  const { concerns } = protocol.logic
  const read = concernsRead(protocol, rule.rule.when)
  const alike = new Map<string, number[]>()
  for (const [concern, by] of read) alike.set(by, [...(alike.get(by) ?? []), concern])
  const first = rule.concernIndex >= 0 ? [rule.concernIndex] : concerns.map((_, at) => at)
  let sets = first.map(one => [one])
  for (const members of alike.values())
    sets = sets.flatMap(set => [
      set,
      ...(set.some(one => members.includes(one)) ? [] : members.map(one => [...set, one])),
    ])
  const once = new Map(sets.map(set => [set.toSorted((a, b) => a - b).join(' '), set]))
  return [...once.values()].toSorted((one, other) => one.length - other.length)
}

class Search {
  looks = 0
  readonly #desk: Desk
  readonly #failed = new Set<string>()
  readonly #questions: readonly number[]
  readonly #taken: Taken[] = []
  /** Questions that a season's gate reads: a shut gate has a season of its own there, so no answer beats another. */
  readonly #unbeaten: ReadonlySet<number>

  readonly protocol: Protocol
  readonly now: Moment
  readonly wanted: Wanted
  readonly chosen: readonly number[]

  constructor(protocol: Protocol, now: Moment, wanted: Wanted, chosen: readonly number[]) {
    this.protocol = protocol
    this.now = now
    this.wanted = wanted
    this.chosen = chosen
    this.#desk = deskOf(protocol, now)
    const { logic } = protocol
    this.#questions = protocol.urgencyQuestions.filter(question => {
      const { concern } = logic.questions[question]!
      return (
        question !== logic.concernQuestion &&
        (concern === undefined || chosen.includes(logic.concerns.indexOf(concern)))
      )
    })
    this.#unbeaten = new Set(
      logic.facts.flatMap((fact, at) => (fact.kind === 'season' ? questionsOfFact(logic, at) : [])),
    )
  }

  #withConcerns(one: Expression): Expression {
    const { logic } = this.protocol
    const { table } = this.#desk
    const values = new Map<number, number>()
    for (const leaf of table.leavesOf(one)) {
      const { question, options } = table.leaves[leaf]!
      const { concern } = logic.questions[question]!
      if (question === logic.concernQuestion)
        values.set(leaf, this.chosen.some(bit => options === 1 << bit) ? ALWAYS : NEVER)
      else if (concern !== undefined && !this.chosen.includes(logic.concerns.indexOf(concern)))
        values.set(leaf, NEVER)
    }
    return table.settle(one, values, new Map())
  }

  #on = (one: Expression, question: number) =>
    this.#desk.table.leavesOf(one).filter(leaf => this.#desk.table.leaves[leaf]!.question === question)

  #moves(
    question: number,
    holds: Expression,
    silent: Expression,
    forked: boolean,
  ): (readonly [AnswerClass, AnswerClass])[] {
    const { book } = this.#desk
    const holding = this.#on(holds, question)
    const silencing = this.#on(silent, question)
    const leaves = [...new Set([...holding, ...silencing])].sort((one, other) => one - other)
    const { classes } = book.classesOf(question, leaves)
    if (question === this.wanted.worseAt && !forked)
      return book
        .pairsOf(question, leaves)
        .worse.map(([one, other]) => [classes[one]!, classes[other]!] as const)
    const value = (one: AnswerClass, leaf: number) => one.values.get(leaf) ?? NEVER
    const beats = (one: AnswerClass, other: AnswerClass) =>
      silencing.every(
        leaf =>
          highOf(value(one, leaf)) <= lowOf(value(other, leaf)) || value(one, leaf) === value(other, leaf),
      ) &&
      holding.every(
        leaf =>
          lowOf(value(one, leaf)) >= highOf(value(other, leaf)) || value(one, leaf) === value(other, leaf),
      )
    const kept = this.#unbeaten.has(question)
      ? classes
      : classes.filter(one => !classes.some(other => other !== one && beats(other, one)))
    const loud = (one: AnswerClass) => silencing.filter(leaf => value(one, leaf) !== NEVER).length
    return kept.map(one => [one, one] as const).toSorted(([one], [other]) => loud(one) - loud(other))
  }

  #look(place: number, holds: Expression, silent: Expression, forked: boolean): boolean {
    const { table } = this.#desk
    if (table.high(holds) < TRUE || table.low(silent) > FALSE) return false
    const question = this.#questions[place]
    if (forked && holds === ALWAYS && silent === NEVER) return true
    if (question === undefined) return false
    const forks = question === this.wanted.worseAt
    if (!forks && this.#on(holds, question).length === 0 && this.#on(silent, question).length === 0)
      return this.#look(place + 1, holds, silent, forked)
    const key = `${place} ${holds} ${silent} ${forked}`
    if (this.#failed.has(key)) return false
    this.looks += 1
    if (this.looks > MOST_LOOKS)
      throw new Error(`${this.wanted.rule.rule.id}: more states than can be searched`)
    for (const [one, other] of this.#moves(question, holds, silent, forked)) {
      this.#taken.push([question, one, other])
      const left = this.#settle(holds, one)
      if (this.#look(place + 1, left, this.#settle(silent, other), forked || forks)) return true
      this.#taken.pop()
    }
    this.#failed.add(key)
    return false
  }

  readonly #memos = new WeakMap<AnswerClass, Map<Expression, Expression>>()
  #settle(one: Expression, answer: AnswerClass): Expression {
    const memo = this.#memos.get(answer) ?? new Map<Expression, Expression>()
    this.#memos.set(answer, memo)
    return this.#desk.table.settle(one, answer.values, memo)
  }

  run(): FoundCase | undefined {
    const holds = this.#withConcerns(this.wanted.holds(this.#desk))
    const silent = this.#withConcerns(this.wanted.silent(this.#desk, this.chosen))
    if (!this.#look(0, holds, silent, this.wanted.worseAt === undefined)) return undefined
    const made = (side: 1 | 2): CaseFile => {
      const { logic } = this.protocol
      const answers: Record<string, Answer> = { ...mildestAnswers(logic, this.now) }
      const weighIns: WeighIn[] = []
      answers[logic.questions[logic.concernQuestion]!.id] = {
        kind: 'several',
        chosen: logic.concerns.filter((_, at) => this.chosen.includes(at)),
        rest: 'no',
        given: this.now.instant,
      }
      // An answer to a question that another concern asks is not part of the case.
      for (const { id, concern } of logic.questions)
        if (concern !== undefined && !this.chosen.includes(logic.concerns.indexOf(concern)))
          delete answers[id]
      for (const taken of this.#taken) {
        const one = taken[side]
        if (one.answer) answers[logic.questions[taken[0]]!.id] = one.answer
        weighIns.push(...(one.weighIns ?? []))
      }
      return { animal: {}, answers, weighIns, events: [], readings: [] }
    }
    return {
      caseFile: made(1),
      now: this.now,
      ...(this.wanted.worseAt === undefined ? {} : { worse: made(2) }),
    }
  }
}

/** The first such case, or none where there is none. */
export function findCase(protocol: Protocol, wanted: Wanted): FoundCase | undefined {
  for (const now of momentsOf(protocol, protocol.rules))
    for (const chosen of choicesOf(protocol, wanted.rule)) {
      const found = new Search(protocol, now, wanted, chosen).run()
      if (found) return found
    }
  return undefined
}
