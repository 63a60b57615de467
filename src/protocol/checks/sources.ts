import type { Checking } from './context.ts'

/** Every source is cited by an evidence row, and every cited source exists. */
export function checkSources({ source, refuse }: Checking): void {
  const known = new Set(source.sources.value.map(({ id }) => id))
  const cited = new Set(source.evidence.value.flatMap(({ sources }) => sources))
  source.evidence.value.forEach((row, index) => {
    row.sources.forEach((id, at) => {
      if (!known.has(id))
        refuse(
          source.evidence.document,
          [index, 'sources', at],
          `${row.id}: sources: given: ${id}; accepted: an id of sources.yaml`,
        )
    })
  })
  source.sources.value.forEach(({ id }, index) => {
    if (!cited.has(id))
      refuse(
        source.sources.document,
        [index, 'id'],
        `source ${id}: no evidence row cites it; accepted: a source that a row cites`,
      )
  })
}
