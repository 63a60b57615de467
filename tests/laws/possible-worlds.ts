import type { CaseFile } from '../../shared/case-file.ts'
import type { BandFact, Condition, Fact, Logic, WeightLossFact } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK, rankOf } from '../../shared/urgency.ts'
import { compareWeights } from '../../src/measure/compareWeights.ts'
import { lossCell } from '../../src/measure/lossCell.ts'

/**
 * A second evaluator, of the tests alone and with nothing of src/triage: for each condition the set of truth values
 * that it can still come to, by recursion over all worlds its parts can be in. Only what weigh-ins amount to is
 * taken from src/measure, which has tests of its own.
 */

type Truth = 0 | 1 | 2
/** A set of truth values: bit 0 for no, bit 1 for unsure, bit 2 for yes. */
type Worlds = number

const TRUTHS: readonly Truth[] = [0, 1, 2]
const ANY: Worlds = 0b111
const NO: Worlds = 0b001
const YES: Worlds = 0b100
const DAY_MS = 86_400_000

const only = (truth: Truth): Worlds => 1 << truth
const holding = (worlds: Worlds): Truth[] => TRUTHS.filter(truth => worlds & (1 << truth))

/** For every two sets, the set of what their members come to together. */
function tableOf(together: (one: number, other: number) => number): readonly Worlds[] {
  return Array.from({ length: 64 }, (_, at) => {
    let made = 0
    for (const one of holding(at >> 3)) for (const other of holding(at & 7)) made |= 1 << together(one, other)
    return made
  })
}

const LEAST = tableOf(Math.min)
const GREATEST = tableOf(Math.max)
const combined = (one: Worlds, other: Worlds, table: readonly Worlds[]): Worlds =>
  table[(one << 3) | other] ?? 0

/** Wall-clock day number of an instant in a zone, by the formatter of the platform. */
function dayNumber(instantMs: number, zone: string): number {
  const text = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(instantMs)
  return Math.round(Date.parse(`${text}T00:00:00Z`) / DAY_MS)
}

/** The bounds of a case and the values each rule can still come to. */
export interface WorldsOfCase {
  readonly lower: number
  readonly upper: number
  readonly rules: readonly { readonly low: Truth; readonly high: Truth }[]
}

class Evaluation {
  readonly #nowMs: number
  readonly #known = new Map<string, Worlds>()
  readonly chosen: readonly string[] | undefined

  readonly logic: Logic
  readonly caseFile: CaseFile
  readonly now: Moment

  constructor(logic: Logic, caseFile: CaseFile, now: Moment) {
    this.logic = logic
    this.caseFile = caseFile
    this.now = now
    this.#nowMs = Date.parse(now.instant)
    const answer = caseFile.answers[logic.questions[logic.concernQuestion]!.id]
    this.chosen = answer?.kind === 'several' ? answer.chosen : undefined
  }

  condition(condition: Condition): Worlds {
    if (condition.kind === 'atom') {
      const key = `${condition.fact} ${condition.options}`
      const known = this.#known.get(key) ?? this.#atom(this.logic.facts[condition.fact]!, condition.options)
      this.#known.set(key, known)
      return known
    }
    const parts = condition.of.map(part => this.condition(part))
    if (condition.kind === 'all') return parts.reduce((one, other) => combined(one, other, LEAST), YES)
    if (condition.kind === 'any') return parts.reduce((one, other) => combined(one, other, GREATEST), NO)
    // How many parts are true, and how many are more than false, in each world.
    let counts = new Set(['0 0'])
    for (const part of parts) {
      const next = new Set<string>()
      for (const count of counts)
        for (const truth of holding(part)) {
          const [sure = 0, some = 0] = count.split(' ').map(Number)
          next.add(`${sure + (truth === 2 ? 1 : 0)} ${some + (truth > 0 ? 1 : 0)}`)
        }
      counts = next
    }
    let made = 0
    for (const count of counts) {
      const [sure = 0, some = 0] = count.split(' ').map(Number)
      made |= only(sure >= condition.count ? 2 : some >= condition.count ? 1 : 0)
    }
    return made
  }

  #gate(question: number): Worlds {
    const { gate } = this.logic.questions[question]!
    return gate ? this.condition(gate) : YES
  }

  #behindGate(question: number, worlds: Worlds): Worlds {
    const gate = this.#gate(question)
    if (gate === NO) return NO
    return gate & NO ? worlds | NO : worlds
  }

  #standing(question: number) {
    const { id, staysGoodHours } = this.logic.questions[question]!
    const answer = this.caseFile.answers[id]
    return answer && this.#nowMs - Date.parse(answer.given) <= staysGoodHours * 3_600_000 ? answer : undefined
  }

  /** What may still be said at a question nobody has answered. */
  #unanswered(question: number): Worlds {
    const { concern } = this.logic.questions[question]!
    return concern !== undefined && this.chosen && !this.chosen.includes(concern) ? NO : ANY
  }

  #said(question: number, options: number): Worlds {
    const answer = this.#standing(question)
    if (!answer) return this.#unanswered(question)
    const names = this.logic.questions[question]!.options.filter((_, at) => options & (1 << at))
    if (answer.kind === 'choice') return only(names.includes(answer.choice) ? 2 : 0)
    if (answer.kind === 'several' && answer.chosen.some(name => names.includes(name))) return only(2)
    return only(
      answer.kind === 'cannot-tell' || (answer.kind === 'several' && answer.rest === 'cannot-tell') ? 1 : 0,
    )
  }

  #banded(fact: BandFact, options: number): Worlds {
    const answer = this.#standing(fact.question)
    if (!answer) return this.#unanswered(fact.question)
    if (answer.kind === 'cannot-tell') return only(1)
    if (answer.kind === 'choice') {
      const option = this.logic.questions[fact.question]!.options.indexOf(answer.choice)
      return only(fact.bands.some((band, at) => band.option === option && options & (1 << at)) ? 2 : 0)
    }
    // A beginning that is not sure counts at its worse end, and never lies ahead.
    const spreadMs =
      answer.kind === 'since' ? answer.uncertaintyHours * 3_600_000 * (fact.worse === 'lower' ? 1 : -1) : 0
    const began = answer.kind === 'since' ? Math.min(Date.parse(answer.began) + spreadMs, this.#nowMs) : 0
    const value =
      answer.kind === 'amount'
        ? answer.amount
        : answer.kind !== 'since'
          ? undefined
          : fact.unit === 'days'
            ? dayNumber(this.#nowMs, this.now.zone) - dayNumber(began, this.now.zone)
            : (this.#nowMs - began) / 3_600_000
    if (value === undefined) return NO
    const fits = fact.bands.findIndex(
      ({ from, below, option }) =>
        option === undefined && value >= (from ?? -Infinity) && value < (below ?? Infinity),
    )
    return only(fits >= 0 && options & (1 << fits) ? 2 : 0)
  }

  #weighed(fact: WeightLossFact, options: number): Worlds {
    const weights =
      this.caseFile.weighIns.length > 0
        ? compareWeights(this.caseFile.weighIns, this.caseFile.events, this.logic.weight, this.now)
        : undefined
    const worstFirst = fact.grid.map((one, at) => ({ id: String(at), ...one })).reverse()
    const cell = weights ? Number(lossCell(weights, worstFirst) ?? -1) : -1
    if (cell >= 0 && options & (1 << cell)) return only(2)
    if ((cell >= 0 && weights?.newestIsFresh) || this.#standing(fact.measuredBy)) return NO
    return this.#behindGate(fact.measuredBy, this.#unanswered(fact.measuredBy))
  }

  #atom(fact: Fact, options: number): Worlds {
    switch (fact.kind) {
      case 'question':
        return this.#behindGate(fact.question, this.#said(fact.question, options))
      case 'band':
        return this.#behindGate(fact.question, this.#banded(fact, options))
      case 'weight-loss':
        return this.#weighed(fact, options)
      case 'season': {
        const question = fact.hemisphere.fact
        const applies = this.#gate(question) !== NO
        if (applies && !this.#standing(question)) return ANY
        const south = applies && this.#said(question, 1 << fact.hemisphere.south) === YES
        const inNorth = Number(
          new Intl.DateTimeFormat('en', { timeZone: this.now.zone, month: 'numeric' }).format(this.#nowMs),
        )
        const month = south ? ((inNorth + 5) % 12) + 1 : inNorth
        const season = fact.months.findIndex(months => months.includes(month))
        return only(options & (1 << season) ? 2 : 0)
      }
      case 'sign':
        return [fact.screen, ...fact.lookNow]
          .map(place => this.#behindGate(place.fact, this.#said(place.fact, place.options)))
          .reduce((one, other) => combined(one, other, GREATEST), NO)
    }
  }
}

/** The bounds of a case by the worlds that it can still be in. */
export function worldsOf(logic: Logic, caseFile: CaseFile, now: Moment): WorldsOfCase {
  const evaluation = new Evaluation(logic, caseFile, now)
  const { chosen } = evaluation
  const rules = logic.rules.map(({ when }) => {
    const worlds = when ? evaluation.condition(when) : NO
    return { low: holding(worlds)[0] ?? 0, high: holding(worlds).at(-1) ?? 0 }
  })
  let lower = 0
  let upper = chosen && chosen.length > 0 ? 0 : HIGHEST_RANK
  rules.forEach(({ low, high }, at) => {
    const { level, unsure, concern } = logic.rules[at]!
    const gives = (truth: Truth) =>
      truth === 2 ? rankOf(level) : truth === 1 ? Math.min(rankOf(level), rankOf(unsure)) : 0
    lower = Math.max(lower, gives(low))
    if (concern === undefined || chosen?.includes(concern)) upper = Math.max(upper, gives(high))
  })
  return { lower, upper: Math.max(lower, upper), rules }
}
