import type { Condition, Logic } from '../../../shared/compiled.ts'
import type { DangerSignsSource, RuleSource } from '../../../shared/content.ts'
import type { FollowUps } from '../../../shared/follow-up.ts'
import { type PreparedRule, prepare } from '../../triage/prepare.ts'
import type { Compilation } from '../compile.ts'
import type { ContentDocument, Path } from '../documents.ts'
import { enclosureClaims } from '../enclosure/claims.ts'
import { allFindings, type PlacedFinding, type PlacedQuestion } from '../facts.ts'
import type { ContentFault } from '../fault.ts'
import type { ProtocolSource } from '../source.ts'

/** A rule as written and as compiled, with its place. */
export interface CheckedRule {
  readonly written: RuleSource | DangerSignsSource['signs'][number]
  readonly prepared: PreparedRule
  readonly document: ContentDocument
  readonly path: Path
}

/** Anything that names evidence rows and a basis: a rule, finding, step, never-do or stated normal. */
export interface Claim {
  readonly what: string
  readonly key: string
  readonly basis: string
  readonly evidence: readonly string[]
  readonly document: ContentDocument
  readonly path: Path
}

/** What every cross-check gets. */
export interface Checking {
  readonly source: ProtocolSource
  readonly logic: Logic
  readonly followUps: FollowUps
  readonly rules: readonly CheckedRule[]
  readonly questions: readonly PlacedQuestion[]
  readonly findings: readonly PlacedFinding[]
  readonly claims: readonly Claim[]
  /** Every condition that decides something: rules, gates, steps, never-dos, limits and what a treating vet stops. */
  readonly conditions: readonly Condition[]
  refuse(document: ContentDocument, path: Path, message: string): void
}

function claimsOf(
  source: ProtocolSource,
  rules: readonly CheckedRule[],
  findings: readonly PlacedFinding[],
): Claim[] {
  const { species } = source
  return [
    ...rules.map(({ written, document, path }) => ({
      what: written.id,
      key: 'findingBasis',
      basis: written.findingBasis,
      evidence: written.evidence,
      document,
      path,
    })),
    ...findings.map(({ source: finding, document, path }) => ({
      what: finding.id,
      key: 'basis',
      basis: finding.basis,
      evidence: finding.evidence,
      document,
      path,
    })),
    ...source.carePlans.flatMap(({ value, document }) =>
      (['steps', 'nevers'] as const).flatMap(list =>
        value[list].map((item, index) => ({
          what: `${value.id} ${item.id}`,
          key: 'basis',
          basis: item.basis,
          evidence: item.evidence,
          document,
          path: [list, index],
        })),
      ),
    ),
    ...source.carePlans.flatMap(({ value: { id, followUp }, document }) =>
      followUp
        ? [
            { ...followUp, what: `${id} followUp`, key: 'basis', document, path: ['followUp'] },
            ...followUp.limits.map((limit, index) => ({
              ...limit,
              what: `${id} limit ${limit.id}`,
              key: 'basis',
              document,
              path: ['followUp', 'limits', index],
            })),
          ]
        : [],
    ),
    ...source.concerns.flatMap(({ value, document }) =>
      value.normal
        ? [{ ...value.normal, what: `${value.id} normal`, key: 'basis', document, path: ['normal'] }]
        : [],
    ),
    {
      what: 'weight',
      key: 'basis',
      basis: species.value.weight.basis,
      evidence: species.value.weight.evidence,
      document: species.document,
      path: ['weight'],
    },
    ...enclosureClaims(source),
  ]
}

/** Brings the written and the compiled side together for the checks. */
export function checkingOf(
  source: ProtocolSource,
  compilation: Compilation,
  faults: ContentFault[],
): Checking {
  const { logic, followUps } = compilation.protocol
  const prepared = prepare(logic).rules
  // The order in which compile.ts lists its rules.
  const written = [
    ...source.dangerSigns.value.signs,
    ...source.generalRules.value.rules,
    ...source.concerns.flatMap(({ value }) => [value.base, ...value.rules]),
  ]
  const rules = compilation.rules.flatMap(({ document, path }, index): CheckedRule[] => {
    const [one, other] = [written[index], prepared[index]]
    return one && other ? [{ written: one, prepared: other, document, path }] : []
  })
  const findings = allFindings(source)
  return {
    source,
    logic,
    followUps,
    rules,
    questions: compilation.questions,
    findings,
    claims: claimsOf(source, rules, findings),
    conditions: [
      ...logic.rules.map(({ when }) => when),
      ...logic.questions.map(({ gate }) => gate),
      logic.treatedByVet.when,
      ...logic.carePlans.flatMap(({ steps, nevers }) => [
        ...steps.flatMap(({ onlyWhen, forbiddenWhen }) => [onlyWhen, forbiddenWhen]),
        ...nevers.map(({ onlyWhen }) => onlyWhen),
      ]),
      ...Object.values(followUps.plans).flatMap(({ limits }) => limits.map(({ when }) => when)),
    ].filter(condition => condition !== undefined),
    refuse: (document, path, message) => {
      faults.push(document.faultAt(path, message))
    },
  }
}
