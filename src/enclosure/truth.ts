import type { Condition } from '../../shared/compiled.ts'

/** What is known of a fact or a condition, on the chain no < unsure < yes. */
export type Truth = 'no' | 'unsure' | 'yes'

const RANK: Readonly<Record<Truth, number>> = { no: 0, unsure: 1, yes: 2 }
const least = (one: Truth, other: Truth): Truth => (RANK[one] <= RANK[other] ? one : other)
const greatest = (one: Truth, other: Truth): Truth => (RANK[one] >= RANK[other] ? one : other)

/** The options of each fact that hold, as bits; undefined where the fact is not known. */
export type KnownFacts = readonly (number | undefined)[]

/**
 * Whether a condition holds: `all` takes the least, `any` the greatest, `atLeast n` the n-th greatest of its parts.
 * It means what the triage means by the same words, without its intervals: here nothing is settled later.
 */
export function truthOf(condition: Condition, known: KnownFacts): Truth {
  switch (condition.kind) {
    case 'atom': {
      const options = known[condition.fact]
      if (options === undefined) return 'unsure'
      return options & condition.options ? 'yes' : 'no'
    }
    case 'all':
      return condition.of.reduce<Truth>((so, part) => least(so, truthOf(part, known)), 'yes')
    case 'any':
      return condition.of.reduce<Truth>((so, part) => greatest(so, truthOf(part, known)), 'no')
    case 'atLeast': {
      const parts = condition.of.map(part => truthOf(part, known)).sort((a, b) => RANK[b] - RANK[a])
      return parts[condition.count - 1] ?? 'no'
    }
  }
}

/** Facts named by a condition, each once, in order. */
export function factsIn(condition: Condition): number[] {
  if (condition.kind === 'atom') return [condition.fact]
  return [...new Set(condition.of.flatMap(factsIn))]
}
