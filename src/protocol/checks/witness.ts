import type { BandFact, Condition, Logic } from '../../../shared/compiled.ts'

/** Per fact the options that are still possible, as far as it has been narrowed. */
type Narrowed = ReadonlyMap<number, number>

function inBand(fact: BandFact, value: number, mask: number): boolean {
  return fact.bands.some(
    ({ from, below, option }, index) =>
      mask & (1 << index) &&
      option === undefined &&
      (from === undefined || value >= from) &&
      (below === undefined || value < below),
  )
}

/** Whether one answer to `question` can put all its narrowed findings into their bands at once. */
function answerExists(logic: Logic, question: number, narrowed: Narrowed): boolean {
  const bands = logic.facts.flatMap((fact, index) => {
    const mask = narrowed.get(index)
    return fact.kind === 'band' && fact.question === question && mask !== undefined ? [{ fact, mask }] : []
  })
  if (bands.length === 0) return true
  const own = narrowed.get(question)
  const option = logic.questions[question]?.options.some(
    (_, at) =>
      (own === undefined || own & (1 << at)) &&
      bands.every(({ fact, mask }) =>
        fact.bands.some((band, index) => mask & (1 << index) && band.option === at),
      ),
  )
  if (option) return true
  if (own !== undefined) return false
  const range = logic.questions[question]?.range ?? { from: 0, to: 1_000_000 }
  const edges = bands.flatMap(({ fact }) => fact.bands.flatMap(({ from, below }) => [from, below]))
  const values = [range.from, range.to, ...edges.filter(edge => edge !== undefined)]
  return values.some(
    value =>
      value >= range.from && value <= range.to && bands.every(({ fact, mask }) => inBand(fact, value, mask)),
  )
}

/** Narrows one fact; undefined where no answer is left. */
function narrow(logic: Logic, index: number, options: number, narrowed: Narrowed): Narrowed | undefined {
  const fact = logic.facts[index]
  const question = fact?.kind === 'question' ? logic.questions[fact.question] : undefined
  // Lines of `several` and danger signs hold side by side; they narrow nothing.
  if (!fact || fact.kind === 'sign' || question?.kind === 'several') return new Map(narrowed)
  const left = (narrowed.get(index) ?? -1) & options
  if (left === 0) return undefined
  const next = new Map(narrowed).set(index, left)
  const rests = fact.kind === 'band' ? fact.question : fact.kind === 'question' ? fact.question : undefined
  return rests === undefined || answerExists(logic, rests, next) ? next : undefined
}

/** The gate that must be open for a fact to be known at all. */
function gatesOf(logic: Logic, index: number): Condition[] {
  const fact = logic.facts[index]
  const question =
    fact?.kind === 'question' || fact?.kind === 'band'
      ? fact.question
      : fact?.kind === 'weight-loss'
        ? fact.measuredBy
        : undefined
  const gate = question === undefined ? undefined : logic.questions[question]?.gate
  return gate ? [gate] : []
}

function choose<Member>(list: readonly Member[], count: number): Member[][] {
  if (count === 0) return [[]]
  const [first, ...rest] = list
  if (first === undefined || list.length < count) return []
  return [...choose(rest, count - 1).map(one => [first, ...one]), ...choose(rest, count)]
}

function search(logic: Logic, goals: readonly Condition[], narrowed: Narrowed): boolean {
  const [goal, ...rest] = goals
  if (!goal) return true
  switch (goal.kind) {
    case 'atom': {
      const next = narrow(logic, goal.fact, goal.options, narrowed)
      const gates = narrowed.has(goal.fact) ? [] : gatesOf(logic, goal.fact)
      return next !== undefined && search(logic, [...gates, ...rest], next)
    }
    case 'all':
      return search(logic, [...goal.of, ...rest], narrowed)
    case 'any':
      return goal.of.some(one => search(logic, [one, ...rest], narrowed))
    case 'atLeast':
      return choose(goal.of, goal.count).some(some => search(logic, [...some, ...rest], narrowed))
  }
}

/** Whether some set of answers makes all the conditions true together. */
export function canHold(logic: Logic, ...conditions: readonly (Condition | undefined)[]): boolean {
  return search(
    logic,
    conditions.filter(one => one !== undefined),
    new Map(),
  )
}
