import type { Answer, WeighIn } from '../../../shared/case-file.ts'
import type { Fact } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { type Known, knownOf } from '../../../src/triage/fact-states.ts'
import { FALSE, intervalOf, TRUE } from '../../../src/triage/intervals.ts'
import type { Protocol } from '../../../src/triage/prepare.ts'
import { onlyQuestion } from './compile.ts'
import { type Expressions, type Leaf, readAs } from './expressions.ts'

/**
 * Every written answer to a question, and the classes of answers that a set of atoms cannot tell apart. What an
 * answer says of a fact is read from the program (`knownOf`), for one question at a time. A number or a moment
 * stands for its band.
 */

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** How one answer is worse, less known or unmeasured against another: places of answers, or of classes. */
export interface Pairs {
  readonly worse: readonly (readonly [number, number])[]
  /** "Can't measure" against every measured answer: it must never give more. */
  readonly unmeasured: readonly (readonly [number, number])[]
}

interface Written {
  readonly answer: Answer | undefined
  readonly weighIns: readonly WeighIn[] | undefined
  readonly known: Known
}

export interface AnswerClass {
  readonly answer: Answer | undefined
  readonly weighIns: readonly WeighIn[] | undefined
  /** Value of each atom asked for, by its place in the table. */
  readonly values: ReadonlyMap<number, number>
  /** How many written answers it stands for. */
  readonly standsFor: bigint
}

export interface Classes {
  readonly classes: readonly AnswerClass[]
  /** Class of each written answer. */
  readonly classOf: readonly number[]
}

/** Answers of the owner at this question, or everything the record may hold beside it (weigh-ins without an answer). */
export type Asking = 'asked' | 'with-record'

function* listedAnswers(protocol: Protocol, index: number, now: Moment): Generator<Answer> {
  const question = protocol.logic.questions[index]!
  const given = now.instant
  if (question.kind === 'several') {
    if (question.options.length > 14) throw new Error(`${question.id}: more lines than can be listed`)
    const rests = question.cannotTell ? (['no', 'cannot-tell'] as const) : (['no'] as const)
    for (const rest of rests)
      for (let bits = 0; bits < 1 << question.options.length; bits += 1) {
        const chosen = question.options.filter((_, at) => bits & (1 << at))
        // Nothing chosen and the rest not told is "can't tell".
        if (rest === 'cannot-tell' && chosen.length === 0) yield { kind: 'cannot-tell', given }
        else yield { kind: 'several', chosen, rest, given }
      }
  } else if (question.cannotTell) yield { kind: 'cannot-tell', given }
  if (question.cannotMeasure) yield { kind: 'cannot-measure', given }
  if (question.kind === 'choice' || question.kind === 'since' || question.kind === 'amount')
    for (const choice of question.options) yield { kind: 'choice', choice, given }
}

/** Numbers that fall one into each band of the question's facts, ascending. */
function bandNumbers(bands: readonly (Fact & { readonly kind: 'band' })[]): number[] {
  const edges = new Set(
    bands.flatMap(fact =>
      fact.bands.flatMap(({ from, below }) => [from, below].filter(e => e !== undefined)),
    ),
  )
  const sorted = [...edges].sort((one, other) => one - other)
  // A whole day below the first edge: days are calendar days, so less may fall on the edge itself.
  return sorted.length === 0 ? [0] : [sorted[0]! - 1, ...sorted]
}

/** Pairs of weigh-ins over the whole grid of losses and spans, fresh and stale. */
function* weighings(now: Moment): Generator<readonly WeighIn[]> {
  const nowMs = Date.parse(now.instant)
  for (const staleDays of [0, 1, 2, 4, 8, 15, 31])
    for (const apartDays of [3, 7, 10, 13, 14, 20, 28, 40])
      for (const percent of [0, 6, 11, 21, 30])
        yield [
          {
            at: new Date(nowMs - (staleDays + apartDays) * DAY_MS).toISOString(),
            massGrams: 60,
            scaleStepGrams: 0.1,
          },
          {
            at: new Date(nowMs - staleDays * DAY_MS - 1000).toISOString(),
            massGrams: 60 * (1 - percent / 100),
            scaleStepGrams: 0.1,
          },
        ]
}

/** The answers to the questions of one protocol at one moment, and their classes. */
export class AnswerBook {
  readonly #written = new Map<
    string,
    { readonly list: readonly Written[]; readonly facts: ReadonlyMap<number, number> }
  >()
  readonly #classes = new Map<string, Classes>()

  readonly protocol: Protocol
  readonly table: Expressions
  readonly now: Moment

  constructor(protocol: Protocol, table: Expressions, now: Moment) {
    this.protocol = protocol
    this.table = table
    this.now = now
  }

  #answers(index: number, asking: Asking) {
    const key = `${index} ${asking}`
    const before = this.#written.get(key)
    if (before) return before
    const { logic } = this.protocol
    const question = logic.questions[index]!
    const { small, facts } = onlyQuestion(this.protocol, index)
    const nowMs = Date.parse(this.now.instant)
    const list: Written[] = []
    const add = (answer: Answer | undefined, weighIns?: readonly WeighIn[]) => {
      const answers = answer ? { [question.id]: answer } : {}
      const caseFile = { animal: {}, answers, weighIns: weighIns ?? [], events: [], readings: [] }
      list.push({ answer, weighIns, known: knownOf(small, caseFile, this.now) })
    }
    for (const answer of listedAnswers(this.protocol, index, this.now)) add(answer)
    const bands = logic.facts.filter(fact => fact.kind === 'band').filter(fact => fact.question === index)
    if (question.kind === 'since' || question.kind === 'amount')
      for (const number of bandNumbers(bands)) {
        const began = new Date(nowMs - Math.max(0, number) * (bands[0]?.unit === 'hours' ? HOUR_MS : DAY_MS))
        const given = this.now.instant
        add(
          question.kind === 'amount'
            ? { kind: 'amount', amount: number, given }
            : { kind: 'since', began: began.toISOString(), uncertaintyHours: 0, given },
        )
      }
    if (question.kind === 'weights')
      for (const weighIns of weighings(this.now)) {
        add({ kind: 'cannot-measure', given: this.now.instant }, weighIns)
        if (asking === 'with-record') add(undefined, weighIns)
      }
    const made = { list, facts }
    this.#written.set(key, made)
    return made
  }

  /** Pairs of written answers, by their places in the list of the owner's answers. */
  #pairsOf(index: number, list: readonly Written[], facts: readonly number[]): Pairs {
    const { logic } = this.protocol
    const question = logic.questions[index]!
    const worse: [number, number][] = []
    const unmeasured: [number, number][] = []
    const place = (wanted: (answer: Answer) => boolean) =>
      list.findIndex(({ answer, weighIns }) => answer && !weighIns && wanted(answer))
    const cannotTell = place(({ kind }) => kind === 'cannot-tell')
    if (question.kind === 'several') {
      const lines = question.options.length
      const rests = question.cannotTell ? 2 : 1
      // `listedAnswers` yields them in the order of the bits, first with "no" for the rest.
      for (let rest = 0; rest < rests; rest += 1)
        for (let bits = 0; bits < 1 << lines; bits += 1) {
          const here = (rest << lines) + bits
          if (rest === 0 && rests === 2) worse.push([here, (1 << lines) + bits])
          for (let at = 0; at < lines; at += 1) if (!(bits & (1 << at))) worse.push([here, here + (1 << at)])
        }
    } else if (logic.facts[question.fact]?.ordered) {
      const places = question.options.map(option =>
        place(one => one.kind === 'choice' && one.choice === option),
      )
      for (const [at, next] of places.slice(1).entries()) worse.push([places[at]!, next])
      if (cannotTell >= 0 && places.length > 0) worse.push([places[0]!, cannotTell])
    }
    const directions = new Set(
      facts.flatMap(fact => {
        const own = logic.facts[fact]
        return own?.kind === 'band' ? [own.worse] : []
      }),
    )
    const numbers = list.flatMap(({ answer }, at) =>
      answer?.kind === 'since' || answer?.kind === 'amount' ? [at] : [],
    )
    if (directions.size === 1)
      for (const [at, next] of numbers.slice(1).entries()) {
        if (directions.has('higher')) worse.push([numbers[at]!, next])
        if (directions.has('lower')) worse.push([next, numbers[at]!])
      }
    const cannotMeasure = place(({ kind }) => kind === 'cannot-measure')
    if (cannotMeasure >= 0)
      list.forEach((_, at) => {
        if (at !== cannotMeasure && at !== cannotTell) unmeasured.push([cannotMeasure, at])
      })
    return { worse, unmeasured }
  }

  /** The value of an atom for each written answer. */
  #value(leaf: Leaf, known: Known, facts: ReadonlyMap<number, number>): number {
    const fact = facts.get(leaf.fact)
    if (fact === undefined) throw new Error(`fact ${leaf.fact} does not rest on question ${leaf.question}`)
    if (leaf.part === 'answer')
      return readAs(intervalOf({ kind: 'atom', fact, options: leaf.options }, known), leaf.reading)
    const sure = ((known.lowOptions[fact] ?? 0) & leaf.options) === 0 ? FALSE : TRUE
    const value =
      leaf.part === 'weighed'
        ? sure | (sure << 2)
        : (known.lowRest[fact] ?? 0) | ((known.highRest[fact] ?? 0) << 2)
    return readAs(value, leaf.reading)
  }

  /** The classes of answers to a question that these atoms tell apart. */
  classesOf(index: number, leaves: readonly number[], asking: Asking = 'asked'): Classes {
    const key = `${index} ${asking} ${leaves.join(' ')}`
    const before = this.#classes.get(key)
    if (before) return before
    const { list, facts } = this.#answers(index, asking)
    const bySignature = new Map<string, number>()
    const classes: {
      answer: Answer | undefined
      weighIns: readonly WeighIn[] | undefined
      values: Map<number, number>
      standsFor: bigint
    }[] = []
    const weighed = new Set<string>()
    const classOf = list.map(({ answer, weighIns, known }) => {
      const values = leaves.map(leaf => this.#value(this.table.leaves[leaf]!, known, facts))
      const signature = values.join(',')
      const already = bySignature.get(signature)
      // Weigh-ins are without number: each class of them counts once.
      const counts = !weighIns || !weighed.has(signature) ? 1n : 0n
      if (weighIns) weighed.add(signature)
      if (already !== undefined) {
        classes[already]!.standsFor += counts
        return already
      }
      const made =
        classes.push({
          answer,
          weighIns,
          values: new Map(leaves.map((leaf, at) => [leaf, values[at]!])),
          standsFor: counts,
        }) - 1
      bySignature.set(signature, made)
      return made
    })
    const made = { classes, classOf }
    this.#classes.set(key, made)
    return made
  }

  /** The pairs of those classes that laws 2 and 12 speak of. */
  pairsOf(index: number, leaves: readonly number[], asking: Asking = 'asked'): Pairs {
    const { classOf } = this.classesOf(index, leaves, asking)
    const factsRead = [...new Set(leaves.map(leaf => this.table.leaves[leaf]!.fact))]
    const written = this.#pairsOf(index, this.#answers(index, asking).list, factsRead)
    const once = (pairs: Pairs['worse']) => {
      const seen = new Map<string, readonly [number, number]>()
      for (const [one, other] of pairs) {
        const from = classOf[one]!
        const to = classOf[other]!
        if (from !== to) seen.set(`${from} ${to}`, [from, to])
      }
      return [...seen.values()]
    }
    return { worse: once(written.worse), unmeasured: once(written.unmeasured) }
  }
}
