import type { Claim } from '../checks/context.ts'
import type { Path } from '../documents.ts'
import type { ProtocolSource } from '../source.ts'

/** Keys under which the two files cite sources one by one. */
export const CITING: ReadonlySet<string> = new Set(['source', 'sources', 'mineralSource', 'oxygenSource'])

interface Claiming {
  readonly basis: string
  readonly evidence: readonly string[]
}

/** Everything in enclosure.yaml and feeders.yaml that names evidence rows and a basis. */
export function enclosureClaims({ enclosure }: ProtocolSource): Claim[] {
  if (!enclosure) return []
  const { home, feeders } = enclosure
  const claim = (what: string, { basis, evidence }: Claiming, path: Path): Claim => ({
    what,
    key: 'basis',
    basis,
    evidence,
    document: home.document,
    path,
  })
  // What only cites, without a claim of its own, is no more than judgement as far as bases go.
  const cites = (evidence: readonly string[]): Claiming => ({ basis: 'project-judgement', evidence })
  const { quantities, findings, faults, light } = home.value
  return [
    ...quantities.map((one, at) =>
      claim(one.id, { basis: one.used.basis, evidence: one.evidence }, ['quantities', at]),
    ),
    ...findings.map((one, at) => claim(one.id, one, ['findings', at])),
    ...faults.flatMap((fault, at) => [
      claim(fault.id, fault, ['faults', at]),
      ...fault.fix.steps.map((step, index) =>
        claim(`${fault.id} ${step.id}`, step, ['faults', at, 'fix', 'steps', index]),
      ),
    ]),
    claim('light', light, ['light']),
    claim('instruments', cites(home.value.evidence), ['evidence']),
    { ...claim('feeders', cites(feeders.value.evidence), ['evidence']), document: feeders.document },
    { ...claim('dusting', cites(feeders.value.dusting.evidence), ['dusting']), document: feeders.document },
  ]
}
