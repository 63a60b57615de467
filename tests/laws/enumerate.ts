import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { Condition, Fact, Logic, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { mattering, standingOf } from '../../src/triage/bounds.ts'
import { knownOf } from '../../src/triage/fact-states.ts'
import { highOf, intervalOf, lowOf, TRUE } from '../../src/triage/intervals.ts'
import { factsIn, type PreparedRule, type Protocol, prepare } from '../../src/triage/prepare.ts'
import { NOW, seededDice } from './random-protocol.ts'

/**
 * Each rule proved over every way of answering the questions it mentions, with their gates, "can't tell", "can't
 * measure" and not asked yet. Options that no condition in play tells apart are taken once. The rule is looked at in
 * a protocol cut down to its own questions; `cutIsFaithful` in enumerate.test.ts checks that the cut changes nothing.
 */

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** One way a question can stand. */
interface Value {
  readonly answer?: Answer
  readonly weighIns?: readonly WeighIn[]
  /** How many written answers it stands for. */
  readonly standsFor: number
}

interface Dimension {
  readonly question: Question
  readonly values: readonly Value[]
  /** Pairs of values of which the second is at least as worrying. */
  readonly worse: readonly (readonly [number, number])[]
  /** Pairs of which the first is less known, so that its interval holds the second's. */
  readonly narrower: readonly (readonly [number, number])[]
}

function rewritten(condition: Condition, place: ReadonlyMap<number, number>): Condition {
  if (condition.kind === 'atom') return { ...condition, fact: place.get(condition.fact) ?? -1 }
  return { ...condition, of: condition.of.map(part => rewritten(part, place)) }
}

/** The protocol cut down to one rule, the questions it mentions and the choice of concerns. */
export function cutTo(protocol: Protocol, rule: PreparedRule): Protocol {
  const { logic } = protocol
  const kept = [...new Set([...rule.questions, logic.concernQuestion])].sort((one, other) => one - other)
  const mentioned = new Set([...rule.facts, ...kept.flatMap(index => factsIn(logic.questions[index]?.gate))])
  const findings = [...mentioned]
    .filter(fact => logic.facts[fact]?.kind !== 'question')
    .sort((one, other) => one - other)
  const facts = [...kept.map(index => logic.questions[index]!.fact), ...findings]
  const place = new Map(facts.map((fact, at) => [fact, at]))
  const questionPlace = new Map(kept.map((question, at) => [question, at]))
  const at = (fact: number) => place.get(fact) ?? -1
  return prepare({
    ...logic,
    concernQuestion: questionPlace.get(logic.concernQuestion) ?? -1,
    questions: kept.map(index => {
      const question = logic.questions[index]!
      return {
        ...question,
        fact: at(question.fact),
        ...(question.gate ? { gate: rewritten(question.gate, place) } : {}),
      }
    }),
    facts: facts.map((index): Fact => {
      const fact = logic.facts[index]!
      switch (fact.kind) {
        case 'question':
        case 'band':
          return { ...fact, question: questionPlace.get(fact.question) ?? -1 }
        case 'weight-loss':
          return { ...fact, measuredBy: questionPlace.get(fact.measuredBy) ?? -1 }
        case 'season':
          return { ...fact, hemisphere: { ...fact.hemisphere, fact: at(fact.hemisphere.fact) } }
        default:
          return {
            ...fact,
            screen: { ...fact.screen, fact: at(fact.screen.fact) },
            lookNow: fact.lookNow.map(one => ({ ...one, fact: at(one.fact) })),
          }
      }
    }),
    rules: [{ ...rule.rule, ...(rule.rule.when ? { when: rewritten(rule.rule.when, place) } : {}) }],
  })
}

/** The bit sets that the conditions in play ask of a question's own answer. */
function masksOn(logic: Logic, conditions: readonly Condition[], index: number): number[] {
  const masks = new Set<number>()
  const visit = (condition: Condition): void => {
    if (condition.kind !== 'atom') {
      condition.of.forEach(visit)
      return
    }
    const fact = logic.facts[condition.fact]
    if (!fact) return
    if (fact.kind === 'question' && fact.question === index) masks.add(condition.options)
    if (fact.kind === 'sign')
      for (const one of [fact.screen, ...fact.lookNow])
        if (one.fact === logic.questions[index]?.fact) masks.add(one.options)
    if (fact.kind === 'season' && fact.hemisphere.fact === logic.questions[index]?.fact)
      masks.add(1 << fact.hemisphere.south)
    if (fact.kind === 'band' && fact.question === index)
      fact.bands.forEach((band, at) => {
        if (band.option !== undefined && condition.options & (1 << at)) masks.add(1 << band.option)
      })
  }
  conditions.forEach(visit)
  if (index === logic.concernQuestion)
    logic.concerns.forEach((concern, at) => {
      if (logic.questions.some(question => question.concern === concern)) masks.add(1 << at)
    })
  return [...masks]
}

/** Options that no mask tells apart, together; the ones that no mask names first. */
function classesOf(
  options: readonly string[],
  masks: readonly number[],
): { readonly first: string; readonly named: boolean; readonly size: number }[] {
  const bySignature = new Map<string, { first: string; named: boolean; size: number }>()
  options.forEach((option, at) => {
    const signature = masks.map(mask => (mask & (1 << at) ? 1 : 0)).join('')
    const known = bySignature.get(signature)
    if (known) known.size += 1
    else bySignature.set(signature, { first: option, named: signature.includes('1'), size: 1 })
  })
  return [...bySignature.values()]
}

const isBand = (fact: Fact, index: number) => fact.kind === 'band' && fact.question === index

function bandNumbers(logic: Logic, index: number): number[] {
  const edges = new Set<number>()
  for (const fact of logic.facts)
    if (fact.kind === 'band' && isBand(fact, index))
      for (const { from, below } of fact.bands)
        for (const edge of [from, below]) if (edge !== undefined) edges.add(edge)
  const sorted = [...edges].sort((one, other) => one - other)
  if (sorted.length === 0) return [0]
  return [sorted[0]! - 0.5, ...sorted]
}

/** Pairs of weigh-ins that together give every cell of the grid, fresh and not. */
const weighInsKnown = new WeakMap<Protocol, Map<string, Value[]>>()

function weighInsFor(protocol: Protocol, fact: number, now: Moment): Value[] {
  const known = weighInsKnown.get(protocol) ?? new Map<string, Value[]>()
  weighInsKnown.set(protocol, known)
  const key = `${fact} ${now.instant}`
  const values = known.get(key) ?? madeWeighIns(protocol, fact, now)
  known.set(key, values)
  return values
}

function madeWeighIns(protocol: Protocol, fact: number, now: Moment): Value[] {
  const nowMs = Date.parse(now.instant)
  const found = new Map<string, Value>()
  for (const staleDays of [0, 1, 2, 4, 8, 15, 31])
    for (const apartDays of [3, 7, 10, 13, 14, 20, 28, 40])
      for (const percent of [0, 6, 11, 21, 30]) {
        const weighIns: WeighIn[] = [
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
        const known = knownOf(protocol, { animal: {}, answers: {}, weighIns, events: [], readings: [] }, now)
        const key = `${known.lowOptions[fact]} ${known.highRest[fact]}`
        if (!found.has(key)) found.set(key, { weighIns, standsFor: 1 })
      }
  return [...found.values()]
}

function dimensionOf(
  protocol: Protocol,
  index: number,
  conditions: readonly Condition[],
  now: Moment,
  mostLines = Number.POSITIVE_INFINITY,
): Dimension {
  const { logic } = protocol
  const question = logic.questions[index]!
  const given = now.instant
  const masks = masksOn(logic, conditions, index)
  const values: Value[] = [{ standsFor: 1 }]
  const worse: [number, number][] = []
  const add = (value: Value) => values.push(value) - 1
  const ordered = logic.facts[question.fact]?.ordered === true
  const cannotTell = question.cannotTell
    ? add({ answer: { kind: 'cannot-tell', given }, standsFor: 1 })
    : undefined
  if (question.cannotMeasure) add({ answer: { kind: 'cannot-measure', given }, standsFor: 1 })
  if (question.kind === 'several') {
    const classes = classesOf(question.options, masks)
    const named = classes.filter(one => one.named)
    const unnamed = classes.find(one => !one.named)?.size ?? 0
    const places = new Map<string, number>()
    const rests = question.cannotTell ? (['no', 'cannot-tell'] as const) : (['no'] as const)
    for (const rest of rests)
      for (let bits = 0; bits < 1 << named.length; bits += 1) {
        const inside = named.filter((_, at) => bits & (1 << at))
        if (inside.length > mostLines) continue
        // With every named line chosen it makes no difference what holds for the rest.
        if (rest === 'cannot-tell' && inside.length === named.length) continue
        if (rest === 'cannot-tell' && bits === 0 && cannotTell !== undefined) {
          places.set('cannot-tell 0', cannotTell)
          continue
        }
        const standsFor = inside.reduce((product, { size }) => product * (2 ** size - 1), 2 ** unnamed)
        places.set(
          `${rest} ${bits}`,
          add({
            answer: { kind: 'several', chosen: inside.map(({ first }) => first), rest, given },
            standsFor,
          }),
        )
      }
    if (mostLines >= named.length)
      for (const rest of rests)
        for (let bits = 0; bits < 1 << named.length; bits += 1) {
          const here = places.get(`${rest} ${bits}`)
          if (here === undefined) continue
          if (rest === 'no' && places.has(`cannot-tell ${bits}`))
            worse.push([here, places.get(`cannot-tell ${bits}`)!])
          named.forEach((_, at) => {
            if (bits & (1 << at)) return
            const more = bits | (1 << at)
            worse.push([here, (places.get(`${rest} ${more}`) ?? places.get(`no ${more}`))!])
          })
        }
  } else if (question.kind === 'weights') {
    const fact = logic.facts.findIndex(one => one.kind === 'weight-loss' && one.measuredBy === index)
    if (fact >= 0) for (const value of weighInsFor(protocol, fact, now)) add(value)
  } else {
    const places = classesOf(question.options, masks).map(({ first, size }) =>
      add({ answer: { kind: 'choice', choice: first, given }, standsFor: size }),
    )
    if (ordered) {
      for (const [at, place] of places.slice(1).entries()) worse.push([places[at]!, place])
      if (cannotTell !== undefined && places[0] !== undefined) worse.push([places[0], cannotTell])
    }
    if (question.kind === 'amount' || question.kind === 'since') {
      const nowMs = Date.parse(now.instant)
      const bands = logic.facts.filter(
        (fact): fact is Fact & { kind: 'band' } => isBand(fact, index) && fact.kind === 'band',
      )
      const numbers = bandNumbers(logic, index).map(number => {
        if (question.kind === 'amount')
          return { number, place: add({ answer: { kind: 'amount', amount: number, given }, standsFor: 1 }) }
        const inHours = bands[0]?.unit === 'hours'
        const at = nowMs - Math.max(0, number) * (inHours ? HOUR_MS : DAY_MS)
        return {
          number,
          place: add({
            answer: { kind: 'since', began: new Date(at).toISOString(), uncertaintyHours: 0, given },
            standsFor: 1,
          }),
        }
      })
      const directions = new Set(bands.map(band => band.worse))
      numbers.slice(1).forEach(({ place }, at) => {
        if (directions.size !== 1) return
        if (directions.has('higher')) worse.push([numbers[at]!.place, place])
        if (directions.has('lower')) worse.push([place, numbers[at]!.place])
      })
    }
  }
  return { question, values, worse, narrower: values.slice(1).map((_, at) => [0, at + 1] as const) }
}

/** What was found for one rule. */
export interface RuleProof {
  readonly rule: string
  readonly questions: number
  readonly combinations: number
  readonly answerSets: number
  readonly holdsSomewhere: boolean
  readonly witness: CaseFile | undefined
  /** A case in which it holds and nothing else gives as much. */
  readonly decides: CaseFile | undefined
  readonly faults: readonly string[]
  /** False where the combinations were more than the bound, so that only part was looked at. */
  readonly whole: boolean
}

const MOST_COMBINATIONS = 40_000
const SAMPLES = 4_000
const NO_WEIGH_INS: readonly WeighIn[] = []

interface Found {
  readonly interval: number
  readonly notAsked: number
}

const NO_EVENTS: CaseFile['events'] = []

function caseOf(dimensions: readonly Dimension[], at: readonly number[]): CaseFile {
  const answers: Record<string, Answer> = {}
  const weighIns: WeighIn[] = []
  dimensions.forEach(({ question, values }, index) => {
    const value = values[at[index] ?? 0]
    if (value?.answer) answers[question.id] = value.answer
    if (value?.weighIns) weighIns.push(...value.weighIns)
  })
  return { animal: {}, answers, weighIns, events: [], readings: [] }
}

/** Moments that lie in each season the rule can tell apart. */
function momentsFor(cut: Protocol): Moment[] {
  const season = cut.logic.facts.find(fact => fact.kind === 'season')
  return season ? [NOW, { ...NOW, instant: '2026-06-10T20:30:00.000Z' }] : [NOW]
}

/** Proves one rule: worse never gives less, an interval holds every end it can come to, and where it decides alone. */
export function enumerateRule(protocol: Protocol, rule: PreparedRule): RuleProof {
  const cut = cutTo(protocol, rule)
  const { logic } = cut
  const when = logic.rules[0]?.when
  const faults: string[] = []
  let combinations = 0
  let answerSets = 0
  let whole = true
  const candidates: { readonly caseFile: CaseFile; readonly now: Moment; readonly weight: number }[] = []
  if (!when)
    return {
      rule: rule.rule.id,
      questions: 0,
      combinations: 1,
      answerSets: 1,
      holdsSomewhere: true,
      witness: undefined,
      decides: undefined,
      faults,
      whole,
    }
  const conditions = [when, ...logic.questions.flatMap(({ gate }) => gate ?? [])]
  for (const now of momentsFor(cut)) {
    const dimensions = logic.questions.map((_, index) => dimensionOf(cut, index, conditions, now))
    let total = dimensions.reduce((product, { values }) => product * values.length, 1)
    if (total > MOST_COMBINATIONS) {
      whole = false
      // Beyond the bound every answer of a `several` is cut to at most one line, and the pairs that go with it.
      dimensions.forEach((dimension, index) => {
        if (total <= MOST_COMBINATIONS || dimension.question.kind !== 'several') return
        const keep = dimension.values.flatMap((value, at) =>
          value.answer?.kind === 'several' && value.answer.chosen.length > 1 ? [] : [at],
        )
        const place = new Map(keep.map((at, to) => [at, to]))
        const moved = (pairs: Dimension['worse']) =>
          pairs.flatMap(([one, other]) =>
            place.has(one) && place.has(other) ? [[place.get(one)!, place.get(other)!] as const] : [],
          )
        total = (total / dimension.values.length) * keep.length
        dimensions[index] = {
          ...dimension,
          values: keep.map(at => dimension.values[at]!),
          worse: moved(dimension.worse),
          narrower: moved(dimension.narrower),
        }
      })
    }
    const evaluate = (at: readonly number[]) => {
      const answers: Record<string, Answer> = {}
      let weighIns = NO_WEIGH_INS
      dimensions.forEach(({ question, values }, index) => {
        const value = values[at[index] ?? 0]
        if (value?.answer) answers[question.id] = value.answer
        if (value?.weighIns) weighIns = value.weighIns
      })
      const known = knownOf(cut, { animal: {}, answers, weighIns, events: NO_EVENTS, readings: [] }, now)
      const interval = intervalOf(when, known)
      // A question of a concern that was not chosen, or with a shut gate, is not asked: it has no answer to wait for.
      let notAsked = 0
      known.statuses.forEach((status, index) => {
        if (status === 'does-not-apply') notAsked |= 1 << index
      })
      return { interval, notAsked }
    }
    const look = (at: readonly number[], { interval }: { readonly interval: number }) => {
      combinations += 1
      answerSets += dimensions.reduce(
        (product, { values }, index) => product * (values[at[index] ?? 0]?.standsFor ?? 1),
        1,
      )
      if (lowOf(interval) !== TRUE || candidates.length >= 3000) return
      candidates.push({ caseFile: caseOf(dimensions, at), now, weight: at.filter(value => value > 0).length })
    }
    const compare = (
      index: number,
      one: number,
      other: number,
      before: Found,
      after: Found,
      kind: 'worse' | 'narrower',
    ) => {
      const { question, values } = dimensions[index]!
      if (kind === 'narrower' && before.notAsked & (1 << index)) return
      const wrong =
        lowOf(after.interval) < lowOf(before.interval) ||
        (kind === 'worse'
          ? highOf(after.interval) < highOf(before.interval)
          : highOf(after.interval) > highOf(before.interval))
      if (wrong && faults.length < 5)
        faults.push(
          `${rule.rule.id}: ${question.id}: ${kind}: ${JSON.stringify([values[one], values[other]])}: ${before.interval} then ${after.interval}`,
        )
    }
    if (total > MOST_COMBINATIONS) {
      const roll = seededDice(20_261_125)
      for (let sample = 0; sample < SAMPLES; sample += 1) {
        // Half of the samples stay near "nothing there", where rules begin and cease to hold.
        const calm = sample % 2 === 0
        const at = dimensions.map(({ values }) =>
          calm && roll(2) === 0 ? Math.min(2, values.length - 1) : roll(values.length),
        )
        const here = evaluate(at)
        look(at, here)
        dimensions.forEach(({ worse, narrower }, index) => {
          const pairs = [
            ...worse.map(pair => ({ pair, kind: 'worse' as const })),
            ...narrower.map(pair => ({ pair, kind: 'narrower' as const })),
          ]
          for (const { pair, kind } of pairs) {
            if (pair[0] !== at[index]) continue
            compare(index, pair[0], pair[1], here, evaluate(at.with(index, pair[1])), kind)
          }
        })
      }
      continue
    }
    const strides: number[] = []
    let size = 1
    for (const { values } of dimensions) {
      strides.push(size)
      size *= values.length
    }
    const found: Found[] = []
    const at = dimensions.map(() => 0)
    for (let number = 0; number < size; number += 1) {
      const here = evaluate(at)
      found.push(here)
      look(at, here)
      for (let index = 0; index < at.length; index += 1) {
        at[index] = (at[index] ?? 0) + 1
        if (at[index] !== dimensions[index]?.values.length) break
        at[index] = 0
      }
    }
    dimensions.forEach(({ worse, narrower, values }, index) => {
      const stride = strides[index]!
      for (let number = 0; number < size; number += 1) {
        if (Math.floor(number / stride) % values.length !== 0) continue
        for (const [one, other] of worse)
          compare(index, one, other, found[number + one * stride]!, found[number + other * stride]!, 'worse')
        for (const [one, other] of narrower)
          compare(
            index,
            one,
            other,
            found[number + one * stride]!,
            found[number + other * stride]!,
            'narrower',
          )
      }
    })
  }
  candidates.sort((one, other) => one.weight - other.weight)
  return {
    rule: rule.rule.id,
    questions: logic.questions.length,
    combinations,
    answerSets,
    holdsSomewhere: candidates.length > 0,
    witness: candidates[0]?.caseFile,
    decides: decidingCase(protocol, rule, candidates),
    faults,
    whole,
  }
}

/** A case that the other questions' mildest answers complete, in which only this rule gives its rank. */
function decidingCase(
  protocol: Protocol,
  rule: PreparedRule,
  candidates: readonly { readonly caseFile: CaseFile; readonly now: Moment }[],
): CaseFile | undefined {
  const { logic } = protocol
  const own = protocol.rules.indexOf(rule)
  for (const { caseFile, now } of candidates.slice(0, 1500)) {
    const answers: Record<string, Answer> = { ...caseFile.answers }
    const concern = logic.questions[logic.concernQuestion]!.id
    const chosen = answers[concern]
    const wanted =
      rule.rule.concern ??
      (chosen?.kind === 'several' ? chosen.chosen[0] : undefined) ??
      logic.concerns.at(-1)!
    if (chosen?.kind !== 'several' || !chosen.chosen.includes(wanted))
      answers[concern] = {
        kind: 'several',
        chosen: [...(chosen?.kind === 'several' ? chosen.chosen : []), wanted],
        rest: 'no',
        given: now.instant,
      }
    const full = { ...caseFile, answers: { ...mildestAnswers(logic, now), ...answers } }
    const { intervals, lower } = standingOf(protocol, full, now)
    if (lower !== rule.rank || lowOf(intervals[own]!) !== TRUE) continue
    const alone = protocol.rules.every(
      (other, index) =>
        other === rule ||
        (lowOf(intervals[index]!) === TRUE
          ? other.rank
          : lowOf(intervals[index]!) > 0
            ? other.floorRank
            : 0) < rule.rank,
    )
    if (alone) return full
  }
  return undefined
}

const mildest = new WeakMap<Logic, Map<string, Record<string, Answer>>>()

/** The mildest answer to every question that has one: none, the first option, or can't measure. */
export function mildestAnswers(logic: Logic, now: Moment): Record<string, Answer> {
  const known = mildest.get(logic) ?? new Map<string, Record<string, Answer>>()
  mildest.set(logic, known)
  const already = known.get(now.instant)
  if (already) return already
  const given = now.instant
  const answers: Record<string, Answer> = {}
  for (const question of logic.questions) {
    const adult = question.fromAgeDays ? question.fromAgeDays.length - 1 : 0
    if (question.phase === 'care') continue
    if (question.kind === 'several' && question.phase !== 'concern')
      answers[question.id] = { kind: 'several', chosen: [], rest: 'no', given }
    else if (question.kind === 'choice')
      answers[question.id] = { kind: 'choice', choice: question.options[adult]!, given }
    else if (question.kind === 'since')
      answers[question.id] = {
        kind: 'since',
        began: new Date(Date.parse(given) - HOUR_MS).toISOString(),
        uncertaintyHours: 0,
        given,
      }
    else if (question.cannotMeasure) answers[question.id] = { kind: 'cannot-measure', given }
  }
  known.set(given, answers)
  return answers
}

/** What was found for one concern. */
export interface ConcernProof {
  readonly concern: string
  readonly rules: readonly RuleProof[]
  readonly chart: ChartWalk
}

export interface ChartWalk {
  readonly states: number
  readonly walks: number
  readonly answerSets: number
  readonly outcomes: number
  readonly longestWalk: number
  readonly steps: number
  readonly whole: boolean
}

/** Proves every rule that a concern brings into play (its own; the general ones under the name `general`), then walks its chart. */
export function enumerateConcern(
  protocol: Protocol,
  concern: string,
  bounds: ChartBounds = {},
): ConcernProof {
  const rules = protocol.rules.filter(({ rule }) => rule.concern === concern)
  return {
    concern,
    rules: rules.map(rule => enumerateRule(protocol, rule)),
    chart: walkChart(protocol, concern, bounds),
  }
}

/** On the walk at most this many lines of one list are chosen at once; the proofs of the rules choose every set. */
const MOST_LINES = 2

export interface ChartBounds {
  /** How many standings are worked out before the walk is cut short. */
  readonly mostSteps?: number
  /** Also walk every way of answering the danger screens; otherwise they are answered "none of these". */
  readonly withDanger?: boolean
}

/**
 * Walks a concern's chart through every reachable pair of question and standing. Two points are the same state when
 * the next question, the lower bound, and what is known of every fact that an open rule or its gates can still read
 * are the same: what follows is then the same too.
 */
export function walkChart(
  protocol: Protocol,
  concern: string,
  { mostSteps = 8_000, withDanger = false }: ChartBounds = {},
): ChartWalk {
  const { logic } = protocol
  const given = NOW.instant
  const start: Record<string, Answer> = {}
  if (!withDanger)
    for (const question of logic.questions)
      if (question.phase === 'danger') start[question.id] = { kind: 'several', chosen: [], rest: 'no', given }
  start[logic.questions[logic.concernQuestion]!.id] = {
    kind: 'several',
    chosen: [concern],
    rest: 'no',
    given,
  }
  const gateFacts = logic.questions.map(({ gate }) => factsIn(gate))
  // The facts that a rule, or a gate on the way to its questions, can read.
  const readable = new Map(
    protocol.rules.map(rule => [
      rule,
      [
        ...new Set([
          ...rule.facts,
          ...rule.questions.flatMap(index => [logic.questions[index]!.fact, ...gateFacts[index]!]),
        ]),
      ],
    ]),
  )
  const memo = new Map<string, { walks: number; sets: number; length: number }>()
  const outcomes = new Set<number>()
  let whole = true
  let steps = 0
  const visit = (
    answers: Record<string, Answer>,
    weighIns: readonly WeighIn[],
  ): { walks: number; sets: number; length: number } => {
    steps += 1
    const standing = standingOf(protocol, { animal: {}, answers, weighIns, events: [], readings: [] }, NOW)
    const [next] = mattering(protocol, standing)
    if (next === undefined) {
      if (!standing.settled)
        throw new Error(`The chart of ${concern} ends unsettled: ${JSON.stringify(answers)}`)
      outcomes.add(standing.lower)
      return { walks: 1, sets: 1, length: 0 }
    }
    if (standing.lower === HIGHEST_RANK) return { walks: 1, sets: 1, length: 0 }
    const facts = new Set<number>()
    const live = protocol.rules.filter((rule, index) => {
      const interval = standing.intervals[index]!
      if (!rule.rule.when || lowOf(interval) === highOf(interval)) return false
      return rule.rank > standing.lower && (rule.concernIndex < 0 || standing.chosen[rule.concernIndex])
    })
    for (const rule of live) for (const fact of readable.get(rule) ?? []) facts.add(fact)
    const { known } = standing
    const key = `${next} ${standing.lower} ${[...facts]
      .sort((one, other) => one - other)
      .map(
        fact =>
          `${fact}:${known.lowOptions[fact]},${known.lowRest[fact]},${known.highOptions[fact]},${known.highRest[fact]}`,
      )
      .join(' ')}`
    const seen = memo.get(key)
    if (seen) return seen
    if (steps >= mostSteps) {
      whole = false
      return { walks: 0, sets: 0, length: 0 }
    }
    const found = { walks: 0, sets: 0, length: 0 }
    memo.set(key, found)
    const conditions = new Set<Condition>()
    for (const { rule, questions } of live) {
      if (rule.when) conditions.add(rule.when)
      for (const index of questions) {
        const { gate } = logic.questions[index]!
        if (gate) conditions.add(gate)
      }
    }
    const { question, values } = dimensionOf(protocol, next, [...conditions], NOW, MOST_LINES)
    if (question.kind === 'several' && question.options.length > MOST_LINES) whole = false
    for (const value of values.slice(1)) {
      const ready = { ...answers, ...(value.answer ? { [question.id]: value.answer } : {}) }
      if (value.weighIns) ready[question.id] = { kind: 'cannot-measure', given }
      if (steps >= mostSteps) {
        whole = false
        break
      }
      const rest = visit(ready, value.weighIns ?? weighIns)
      found.walks += rest.walks
      found.sets += rest.sets * value.standsFor
      found.length = Math.max(found.length, rest.length + 1)
    }
    return found
  }
  const from = visit(start, [])
  return {
    states: memo.size,
    walks: from.walks,
    answerSets: from.sets,
    outcomes: outcomes.size,
    longestWalk: from.length,
    steps,
    whole,
  }
}
