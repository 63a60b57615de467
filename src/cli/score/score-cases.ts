import type { ScoredCase } from '../../../shared/scored-case.ts'
import { atLeastAsUrgent, URGENCIES, type Urgency } from '../../../shared/urgency.ts'
import { type Share, shareOf } from './wilson.ts'

/** A case with what came out of it. */
export interface Outcome {
  readonly id: string
  readonly allowed: ScoredCase['allowed']
  /** Absent where the answers do not settle how urgent it is. */
  readonly got?: Urgency
  /** What the owner came with; none where the case names none. */
  readonly concerns: readonly string[]
}

const STANDINGS = ['within', 'below', 'above', 'notSettled'] as const
type Standing = (typeof STANDINGS)[number]

/** How many cases stand where, with 95 % intervals. */
export type Standings = Readonly<Record<Standing, Share>>

export interface Score {
  readonly cases: number
  readonly all: Standings
  /** By the most urgent level that is right for the case. */
  readonly byLevel: Readonly<Partial<Record<Urgency, Standings>>>
  /** A case with several concerns counts under each. */
  readonly byConcern: Readonly<Record<string, Standings>>
  /** Every case that is not within its range. */
  readonly outside: readonly (Pick<Outcome, 'id' | 'allowed' | 'got'> & { readonly standing: Standing })[]
}

const NO_CONCERN = 'no concern named'

function standingOf({ got, allowed }: Outcome): Standing {
  if (got === undefined) return 'notSettled'
  if (!atLeastAsUrgent(got, allowed.min)) return 'below'
  return atLeastAsUrgent(allowed.max, got) ? 'within' : 'above'
}

function standingsOf(outcomes: readonly Outcome[]): Standings {
  const share = (standing: Standing) =>
    shareOf(outcomes.filter(one => standingOf(one) === standing).length, outcomes.length)
  return {
    within: share('within'),
    below: share('below'),
    above: share('above'),
    notSettled: share('notSettled'),
  }
}

function grouped<Key extends string>(
  outcomes: readonly Outcome[],
  keys: readonly Key[],
  isIn: (outcome: Outcome, key: Key) => boolean,
): Partial<Record<Key, Standings>> {
  const groups: Partial<Record<Key, Standings>> = {}
  for (const key of keys) {
    const members = outcomes.filter(outcome => isIn(outcome, key))
    if (members.length > 0) groups[key] = standingsOf(members)
  }
  return groups
}

/** Scores what came out of cases against what is right for them. There is at least one. */
export function scoreOf(outcomes: readonly Outcome[]): Score {
  const named = outcomes.map(outcome =>
    outcome.concerns.length > 0 ? outcome : { ...outcome, concerns: [NO_CONCERN] },
  )
  const concerns = [...new Set(named.flatMap(outcome => outcome.concerns))].sort()
  const byConcern: Record<string, Standings> = {}
  for (const [concern, standings] of Object.entries(
    grouped(named, concerns, (outcome, concern) => outcome.concerns.includes(concern)),
  ))
    if (standings) byConcern[concern] = standings
  return {
    cases: outcomes.length,
    all: standingsOf(outcomes),
    byLevel: grouped(outcomes, [...URGENCIES].reverse(), ({ allowed }, level) => allowed.max === level),
    byConcern,
    outside: outcomes.flatMap(outcome => {
      const standing = standingOf(outcome)
      const { id, allowed, got } = outcome
      return standing === 'within' ? [] : [{ id, standing, allowed, ...(got === undefined ? {} : { got }) }]
    }),
  }
}
