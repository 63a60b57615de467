import type { ContentDocument, Path } from '../documents.ts'
import type { Checking } from './context.ts'

interface Named {
  readonly id: string
  readonly document: ContentDocument
  readonly path: Path
}

/** No id stands twice among things that are looked up by it. */
export function checkDuplicates({ source, questions, findings, rules, refuse }: Checking): void {
  const unique = (what: string, list: readonly Named[], key: readonly string[] = ['id']) => {
    const seen = new Set<string>()
    for (const { id, document, path } of list) {
      if (seen.has(id))
        refuse(document, [...path, ...key], `${what} ${id}: stands twice; accepted: an id used once`)
      seen.add(id)
    }
  }
  const listed = (document: ContentDocument, below: Path, list: readonly { readonly id: string }[]) =>
    list.map(({ id }, index): Named => ({ id, document, path: [...below, index] }))

  // Questions and findings share one set of names: a condition names either by its id alone.
  unique(
    'question or finding',
    [...questions, ...findings].map(({ source: { id }, document, path }) => ({ id, document, path })),
  )
  for (const { source: question, document, path } of questions)
    if (question.options) unique('option', listed(document, [...path, 'options'], question.options))
  for (const { source: finding, document, path } of findings)
    for (const key of ['bands', 'grid', 'months'] as const)
      unique('band', listed(document, [...path, key], finding[key] ?? []))
  unique(
    'rule',
    rules.map(({ written: { id }, document, path }) => ({ id, document, path })),
  )
  const { generalRules, species } = source
  unique('term', listed(generalRules.document, ['terms'], generalRules.value.terms))
  unique(
    'concern',
    species.value.concerns.map((id, index) => ({
      id,
      document: species.document,
      path: ['concerns', index],
    })),
    [],
  )
  for (const { value, document } of source.carePlans)
    unique(`${value.id}: step or never-do`, [
      ...listed(document, ['steps'], value.steps),
      ...listed(document, ['nevers'], value.nevers),
    ])
  unique('source', listed(source.sources.document, [], source.sources.value))
  unique('evidence row', listed(source.evidence.document, [], source.evidence.value))
  unique('hazard', listed(source.hazards.document, [], source.hazards.value))
}
