import type { Checking } from './context.ts'

/** How many evidence rows are used and how many are left out. */
export interface Coverage {
  readonly used: number
  readonly leftOut: number
  readonly total: number
}

/** Every evidence row is named by a rule, finding or plan, or stands in left-out.yaml, and never both. */
export function checkCoverage({ source, claims, refuse }: Checking): Coverage {
  const used = new Set(claims.flatMap(({ evidence }) => evidence))
  const rows = new Set(source.evidence.value.map(({ id }) => id))
  const leftOut = new Set<string>()
  source.leftOut.value.forEach((group, index) => {
    group.rows.forEach((id, at) => {
      const say = (message: string) => refuse(source.leftOut.document, [index, 'rows', at], message)
      if (!rows.has(id)) say(`left out: given: ${id}; accepted: a row of evidence.yaml`)
      else if (used.has(id))
        say(`left out: given: ${id}, which is used too; accepted: a row that no rule, finding or plan names`)
      else if (leftOut.has(id)) say(`left out: given: ${id}, a second time; accepted: each row once`)
      leftOut.add(id)
    })
  })
  source.evidence.value.forEach(({ id }, index) => {
    if (!used.has(id) && !leftOut.has(id))
      refuse(
        source.evidence.document,
        [index, 'id'],
        `evidence row ${id}: neither used nor left out; accepted: a rule, finding or plan that names it, or left-out.yaml`,
      )
  })
  const inTable = (id: string) => rows.has(id)
  return {
    used: [...used].filter(inTable).length,
    leftOut: [...leftOut].filter(inTable).length,
    total: rows.size,
  }
}
