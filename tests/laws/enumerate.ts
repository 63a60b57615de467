import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { levelOf } from '../../shared/urgency.ts'
import { dangerPartOf } from '../../src/protocol/danger-part.ts'
import { givenAt, standingOf } from '../../src/triage/bounds.ts'
import { lowOf } from '../../src/triage/intervals.ts'
import type { PreparedRule, Protocol } from '../../src/triage/prepare.ts'
import { logOfStart } from '../../src/wizard/log.ts'
import { type Deciding, decidesAlone, decidingOf, worseGivesLess } from './exhaustive/alone.ts'
import { type ChartProof, type ChartStart, walkChart } from './exhaustive/chart.ts'
import { momentsOf } from './exhaustive/desk.ts'
import { proveRule, type RuleProof } from './exhaustive/rule-proof.ts'

/**
 * The proof of one concern: each of its rules over every answer to what it mentions, then its chart through every
 * state. `exhaustive/` says how each is done; DEVELOPERS.md says what is proved by it and what is not.
 */

/** What was found of the rules of one concern, or of the danger signs and general rules together. */
export interface RulesProof {
  readonly proofs: readonly RuleProof[]
  readonly deciding: ReadonlyMap<string, Deciding>
  readonly faults: readonly string[]
}

const given = (protocol: Protocol, rule: PreparedRule, caseFile: CaseFile, now: Moment) =>
  givenAt(lowOf(standingOf(protocol, caseFile, now).intervals[protocol.rules.indexOf(rule)]!), rule)

/** Proves the rules of a concern; without one, the danger signs and the general rules. */
export function proveRules(protocol: Protocol, concern: string | undefined): RulesProof {
  const rules = protocol.rules.filter(({ rule }) => rule.concern === concern)
  const faults: string[] = []
  const deciding = new Map<string, Deciding>()
  const proofs = rules.map(rule => {
    const { id } = rule.rule
    const proof = proveRule(protocol, rule)
    faults.push(...proof.faults)
    const { witness } = proof
    if (!witness || given(protocol, rule, witness.caseFile, witness.now) !== rule.rank)
      faults.push(`${id}: no case was found in which the program lets it hold`)
    for (const question of proof.lessWhenWorse) {
      const found = worseGivesLess(protocol, rule, question)
      if (found)
        faults.push(
          `${id}: a worse answer to ${protocol.logic.questions[question]!.id} lowers the urgency: ${JSON.stringify(found)}`,
        )
    }
    const decides = decidingOf(protocol, rule)
    deciding.set(id, decides)
    if ('found' in decides && !decidesAlone(protocol, rule, decides.found, decides.kind === 'in-scope'))
      faults.push(`${id}: the program does not let it decide alone: ${JSON.stringify(decides.found)}`)
    return proof
  })
  return { proofs, deciding, faults }
}

/** The ways a walk can begin: as the start button does, which says it is this animal, and without that. */
export function startsOf(protocol: Protocol, concerns: readonly string[]): ChartStart[] {
  const inScope = protocol.rules.filter(
    ({ rule }) => rule.concern === undefined || concerns.includes(rule.concern),
  )
  return momentsOf(protocol, inScope).flatMap((now): ChartStart[] => {
    const [said] = logOfStart(dangerPartOf(protocol.logic), { thisAnimal: true }, now.instant)
    return [
      { concerns, now },
      ...(said ? [{ concerns, now, answered: { [said.question]: said.answer } }] : []),
    ]
  })
}

/** The chart of one concern, or of several chosen together, through every state from every start. */
export function proveChart(
  protocol: Protocol,
  concerns: readonly string[],
  onState?: ChartStart['onState'],
): ChartProof[] {
  return startsOf(protocol, concerns).map(start =>
    walkChart(protocol, { ...start, ...(onState ? { onState } : {}) }),
  )
}

const sum = <Item>(items: readonly Item[], of: (item: Item) => bigint): bigint =>
  items.reduce((total, item) => total + of(item), 0n)

/** A level as the records name it: `week-72`, `home`. */
function nameOfRank(rank: number): string {
  const level = levelOf(rank)
  return level?.withinHours === undefined
    ? (level?.urgency ?? 'nothing')
    : `${level.urgency}-${level.withinHours}`
}

/** The figures of a group of rules, as they are recorded. Numbers without bound are texts. */
export function rulesFigures({ proofs, deciding, faults }: RulesProof) {
  const all = [...deciding]
  const named = (kind: 'dominated' | 'covered') =>
    Object.fromEntries(all.flatMap(([id, one]) => (one.kind === kind ? [[id, one.by]] : [])))
  return {
    rules: proofs.length,
    rulesInFull: proofs.length,
    combinations: String(sum(proofs, ({ combinations }) => combinations)),
    answerSetsOfRules: String(sum(proofs, ({ answerSets }) => answerSets)),
    decideAlone: all.filter(([, { kind }]) => kind === 'alone').length,
    /** Alone among the rules in scope; these of concerns not chosen always give as much. */
    decideInScope: Object.fromEntries(
      all.flatMap(([id, one]) => (one.kind === 'in-scope' ? [[id, one.besides]] : [])),
    ),
    /** Never alone: each of these always gives as much. */
    dominatedBy: named('dominated'),
    /** Never alone: in each case one of these gives as much. */
    coveredBy: named('covered'),
    faults: faults.length,
  }
}

/** The figures of a chart, as they are recorded: over every start together. */
export function chartFigures(charts: readonly ChartProof[]) {
  const outcomes = new Map<number, bigint>()
  for (const chart of charts)
    for (const [rank, sets] of chart.outcomes) outcomes.set(rank, (outcomes.get(rank) ?? 0n) + sets)
  return {
    starts: charts.length,
    states: charts.reduce((total, { states }) => total + states, 0),
    walks: String(sum(charts, ({ walks }) => walks)),
    answerSets: String(sum(charts, ({ answerSets }) => answerSets)),
    outcomes: Object.fromEntries(
      [...outcomes]
        .sort(([one], [other]) => other - one)
        .map(([rank, sets]) => [nameOfRank(rank), String(sets)]),
    ),
    longestWalk: Math.max(...charts.map(({ longestWalk }) => longestWalk)),
    faults: charts.reduce((total, { faults }) => total + faults.length, 0),
  }
}
