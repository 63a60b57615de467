import type { Checking } from './context.ts'

const KEEPER = 'keeper-page'

/** `published` is claimed only where a source that is not a keeper page says so. */
export function checkBases({ source, rules, claims, refuse }: Checking): void {
  const classes = new Map(source.sources.value.map(({ id, class: kind }) => [id, kind]))
  const rows = new Map(source.evidence.value.map(row => [row.id, row]))
  const beyondKeepers = (id: string) =>
    rows.get(id)?.sources.some(one => classes.has(one) && classes.get(one) !== KEEPER) === true
  const named = (evidence: readonly string[]) => (evidence.length > 0 ? evidence.join(', ') : 'no evidence')

  for (const { what, key, basis, evidence, document, path } of claims)
    if (basis === 'published' && !evidence.some(beyondKeepers))
      refuse(
        document,
        [...path, key],
        `${what}: ${key}: given: published with ${named(evidence)}; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement`,
      )
  for (const { written, document, path } of rules)
    if (
      written.urgencyBasis === 'published' &&
      !written.evidence.some(id => rows.get(id)?.speedFromSource === true && beyondKeepers(id))
    )
      refuse(
        document,
        [...path, 'urgencyBasis'],
        `${written.id}: urgencyBasis: given: published with ${named(written.evidence)}; accepted: published with a row that has speedFromSource and a source other than a keeper page, else common-practice or project-judgement`,
      )
}
