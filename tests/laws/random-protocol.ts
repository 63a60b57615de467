import fc from 'fast-check'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Condition, Fact, Logic, Question, Rule } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Level, rankOf } from '../../shared/urgency.ts'

/** Invented protocols and case files for the laws: small enough that every way of answering can be listed. */

export const NOW: Moment = { instant: '2026-11-25T02:10:00.000Z', zone: 'Europe/London' }

/** A whole number from 0 to `count - 1`. */
export type Dice = (count: number) => number

/** Dice that fast-check rolls, records and shrinks. */
export const dice: fc.Arbitrary<Dice> = fc
  .gen()
  .map(roll => count => (count <= 1 ? 0 : roll(fc.nat, { max: count - 1 })))

/** Dice from a seed, for long runs. */
export function seededDice(seed: number): Dice {
  let state = seed >>> 0
  return count => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) % count
  }
}

const one = <Item>(roll: Dice, items: readonly Item[]): Item => items[roll(items.length)]!

const LEVELS: readonly Level[] = [
  { urgency: 'home' },
  { urgency: 'week', withinHours: 168 },
  { urgency: 'week', withinHours: 72 },
  { urgency: 'day', withinHours: 24 },
  { urgency: 'now', withinHours: 0 },
]

interface Draft {
  readonly facts: Fact[]
  readonly questions: Question[]
}

function addQuestion(
  draft: Draft,
  question: Partial<Question> & Pick<Question, 'id' | 'kind' | 'phase' | 'options'>,
  ordered: boolean,
): number {
  const fact = draft.facts.length
  draft.questions.push({
    fact,
    signs: question.options.map(() => null),
    staysGoodHours: 1000,
    cannotTell: true,
    cannotMeasure: false,
    forHandover: false,
    ...question,
  })
  draft.facts.push({ kind: 'question', id: question.id, options: question.options, question: fact, ordered })
  return fact
}

/** An atom that the content check would accept: on an ordered fact an option and every worse one, never the mildest. */
function randomAtom(roll: Dice, facts: readonly Fact[], from: readonly number[]): Condition {
  const fact = one(roll, from)
  const { options, ordered } = facts[fact]!
  const count = options.length
  if (ordered && count > 1) {
    const first = 1 + roll(count - 1)
    return { kind: 'atom', fact, options: ((1 << count) - 1) & ~((1 << first) - 1) }
  }
  return { kind: 'atom', fact, options: 1 + roll((1 << count) - 1) }
}

function randomCondition(roll: Dice, facts: readonly Fact[], from: readonly number[], depth = 0): Condition {
  const kind = depth > 1 ? 0 : roll(5)
  if (kind <= 1) return randomAtom(roll, facts, from)
  const of = Array.from({ length: 2 + roll(2) }, () => randomCondition(roll, facts, from, depth + 1))
  if (kind === 2) return { kind: 'all', of }
  if (kind === 3) return { kind: 'any', of }
  return { kind: 'atLeast', count: 1 + roll(of.length), of }
}

/** A protocol with danger screens, look-now questions, ordered and fact questions, bands, gates, every kind of rule. */
export function randomLogic(roll: Dice): Logic {
  const draft: Draft = { facts: [], questions: [] }
  const concerns = ['first', 'second', 'third'].slice(0, 2 + roll(2))
  const signs: { readonly id: string; readonly screen: number; readonly bit: number }[] = []
  for (let screen = 0; screen < 1 + roll(2); screen += 1) {
    const ids = Array.from({ length: 1 + roll(2) }, (_, at) => `sign-${screen}-${at}`)
    const fact = addQuestion(
      draft,
      { id: `screen-${screen}`, kind: 'several', phase: 'danger', options: ids, signs: ids },
      false,
    )
    for (const [at, id] of ids.entries()) signs.push({ id, screen: fact, bit: 1 << at })
  }
  const screenFacts = draft.facts.map((_, index) => index)
  const concernQuestion = addQuestion(
    draft,
    { id: 'concern', kind: 'several', phase: 'concern', options: concerns, cannotTell: false },
    false,
  )
  const gateFrom = (more: readonly number[]) =>
    roll(2) === 0 ? {} : { gate: randomCondition(roll, draft.facts, more, 1) }
  const own = concerns.map(concern => {
    const mine: number[] = []
    if (roll(3) > 0) {
      const named = one(roll, signs).id
      const options = roll(2) === 0 ? ['look-sign'] : ['look-sign', 'look-other']
      mine.push(
        addQuestion(
          draft,
          {
            id: `${concern}-look`,
            kind: 'several',
            phase: 'concerns',
            concern,
            options,
            signs: options.map((_, at) => (at === 0 ? named : null)),
          },
          false,
        ),
      )
    }
    const options = ['mild', 'bad', 'worse'].slice(0, 2 + roll(2))
    mine.push(
      addQuestion(
        draft,
        {
          id: `${concern}-sign`,
          kind: 'choice',
          phase: 'concerns',
          concern,
          options,
          ...gateFrom([...screenFacts, ...mine]),
        },
        true,
      ),
    )
    return mine
  })
  const common: number[] = []
  common.push(
    addQuestion(
      draft,
      {
        id: 'common-fact',
        kind: 'choice',
        phase: 'common',
        options: ['one', 'other', 'unknown'].slice(0, 2 + roll(2)),
        cannotTell: roll(2) === 0,
      },
      false,
    ),
  )
  common.push(
    addQuestion(
      draft,
      {
        id: 'common-sign',
        kind: 'choice',
        phase: 'common',
        options: ['mild', 'bad', 'worse'],
        ...gateFrom([...screenFacts, concernQuestion, ...common]),
      },
      true,
    ),
  )
  const amount =
    roll(2) === 0
      ? undefined
      : addQuestion(
          draft,
          {
            id: 'common-amount',
            kind: 'amount',
            phase: 'common',
            options: [],
            cannotTell: false,
            cannotMeasure: true,
            ...gateFrom([...common]),
          },
          false,
        )
  if (amount !== undefined) {
    draft.facts.push({
      kind: 'band',
      id: 'amount-band',
      options: ['low', 'middle', 'high'],
      ordered: true,
      question: amount,
      unit: 'other',
      worse: 'higher',
      bands: [{ below: 10 }, { from: 10, below: 20 }, { from: 20 }],
    })
    common.push(draft.facts.length - 1)
  }
  const signFacts = signs.map(sign => {
    const lookNow = draft.questions.flatMap((question, fact) => {
      const bits =
        question.phase === 'danger'
          ? 0
          : question.signs.reduce((sum, id, at) => (id === sign.id ? sum | (1 << at) : sum), 0)
      return bits === 0 ? [] : [{ fact, options: bits }]
    })
    draft.facts.push({
      kind: 'sign',
      id: sign.id,
      options: [sign.id],
      ordered: false,
      screen: { fact: sign.screen, options: sign.bit },
      lookNow,
    })
    return draft.facts.length - 1
  })

  const rules: Rule[] = []
  const addRule = (
    id: string,
    origin: Rule['origin'],
    when: Condition,
    level: Level,
    unsure: Level,
    concern?: string,
  ) => {
    rules.push({
      id,
      origin,
      when,
      level,
      unsure: rankOf(unsure) > rankOf(level) ? level : unsure,
      care: [],
      evidence: [],
      findingBasis: 'project-judgement',
      urgencyBasis: 'project-judgement',
      ...(concern === undefined ? {} : { concern }),
    })
  }
  signFacts.forEach((fact, at) => {
    addRule(
      `rule-${signs[at]!.id}`,
      'sign',
      { kind: 'atom', fact, options: 1 },
      one(roll, LEVELS.slice(3)),
      one(roll, LEVELS),
    )
  })
  for (let at = 0; at < 1 + roll(3); at += 1)
    addRule(
      `general-${at}`,
      'general',
      randomCondition(roll, draft.facts, [...signFacts, ...common, concernQuestion]),
      one(roll, LEVELS),
      one(roll, LEVELS),
    )
  concerns.forEach((concern, index) => {
    const base: Level = roll(2) === 0 ? { urgency: 'well' } : { urgency: 'home' }
    addRule(
      `base-${concern}`,
      'base',
      { kind: 'atom', fact: concernQuestion, options: 1 << index },
      base,
      base,
      concern,
    )
    const from = [...own[index]!, ...common, ...signFacts]
    for (let at = 0; at < 1 + roll(3); at += 1)
      addRule(
        `${concern}-${at}`,
        'concern',
        randomCondition(roll, draft.facts, from),
        one(roll, LEVELS),
        one(roll, LEVELS),
        concern,
      )
  })
  return {
    species: 'invented-animal',
    version: '0',
    hash: 'invented',
    facts: draft.facts,
    questions: draft.questions,
    rules,
    concerns,
    concernQuestion,
    carePlans: [],
    opposites: [],
    treatedByVet: { when: { kind: 'any', of: [] }, keeps: [] },
    speciesQuestion: -1,
    clock: { morningHour: 8, eveningHour: 19 },
    weight: {
      referenceDays: 30,
      slowReferenceDays: 60,
      neighboursWithinDays: 7,
      freshDays: 3,
      enoughReadings: 3,
      coarseStepPercent: 2,
      explainedWithinDays: 14,
      newBaselineDays: 30,
      defaultScaleStepGrams: 1,
      daySwingPercent: 5,
      confidence: 0.9,
      explanations: [],
      outliers: { readingsEachSide: 3, withinDays: 30, atLeastReadings: 5, threshold: 5 },
    },
  }
}

/** Every answer that a question of a small protocol accepts. */
export function answersTo(question: Question, given = NOW.instant): Answer[] {
  const answers: Answer[] = []
  if (question.kind === 'choice')
    answers.push(...question.options.map(choice => ({ kind: 'choice' as const, choice, given })))
  if (question.kind === 'several') {
    const none = question.phase === 'concern' ? 1 : 0
    for (let bits = none; bits < 1 << question.options.length; bits += 1) {
      const chosen = question.options.filter((_, at) => bits & (1 << at))
      answers.push({ kind: 'several', chosen, rest: 'no', given })
      if (question.cannotTell) answers.push({ kind: 'several', chosen, rest: 'cannot-tell', given })
    }
  }
  if (question.kind === 'amount')
    answers.push(...[5, 15, 25].map(amount => ({ kind: 'amount' as const, amount, given })))
  if (question.cannotTell) answers.push({ kind: 'cannot-tell', given })
  if (question.cannotMeasure) answers.push({ kind: 'cannot-measure', given })
  return answers
}

/** A case file with an answer to each question, or to each with a chance of `outOf - 1` in `outOf`. */
export function randomCase(roll: Dice, logic: Logic, outOf = 0): CaseFile {
  const answers: Record<string, Answer> = {}
  for (const question of logic.questions) {
    if (outOf > 0 && roll(outOf) === 0) continue
    answers[question.id] = one(roll, answersTo(question))
  }
  return { animal: {}, answers, weighIns: [], events: [], readings: [] }
}

export { one }
