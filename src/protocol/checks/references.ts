import type { Checking } from './context.ts'

const KIND_OF = { holding: 'holding', firstAid: 'first-aid' } as const

/** Every id that content names exists, and a named plan is of the kind that its place needs. */
export function checkReferences(checking: Checking): void {
  const { source, rules, questions, claims, logic, refuse } = checking
  const rows = new Set(source.evidence.value.map(({ id }) => id))
  for (const { evidence, document, path } of claims)
    evidence.forEach((id, index) => {
      if (!rows.has(id))
        refuse(
          document,
          [...path, 'evidence', index],
          `evidence: given: ${id}; accepted: a row of evidence.yaml`,
        )
    })

  const kinds = new Map(logic.carePlans.map(({ id, kind }) => [id, kind]))
  const named = new Set<string>()
  for (const { written, document, path } of rules) {
    for (const key of ['holding', 'firstAid'] as const) {
      const id = written[key]
      if (id === undefined) continue
      named.add(id)
      const accepted = `accepted: a ${KIND_OF[key]} plan in care/`
      const kind = kinds.get(id)
      if (kind === undefined)
        refuse(document, [...path, key], `${key}: given: ${id}, no such plan; ${accepted}`)
      else if (kind !== KIND_OF[key])
        refuse(document, [...path, key], `${key}: given: ${id}, a ${kind} plan; ${accepted}`)
    }
    written.care.forEach((id, index) => {
      named.add(id)
      const kind = kinds.get(id)
      const accepted = 'accepted: a home plan in care/'
      if (kind === undefined)
        refuse(document, [...path, 'care', index], `care: given: ${id}, no such plan; ${accepted}`)
      else if (kind !== 'home')
        refuse(document, [...path, 'care', index], `care: given: ${id}, a ${kind} plan; ${accepted}`)
    })
  }
  for (const { value, document } of source.carePlans)
    if (!named.has(value.id) && (value.followUp?.begins ?? 'rules') === 'rules')
      refuse(document, ['id'], `plan ${value.id}: no rule names it; accepted: a plan that a rule calls for`)

  const signs = new Set(source.dangerSigns.value.signs.map(({ id }) => id))
  for (const { source: question, document, path } of questions)
    question.options?.forEach(({ sign }, index) => {
      if (sign !== undefined && !signs.has(sign))
        refuse(
          document,
          [...path, 'options', index, 'sign'],
          `sign: given: ${sign}; accepted: an id of danger-signs.yaml`,
        )
    })
  const { species } = source
  if (!questions.some(({ source: question }) => question.id === species.value.speciesQuestion))
    refuse(
      species.document,
      ['speciesQuestion'],
      `speciesQuestion: given: ${species.value.speciesQuestion}; accepted: the id of a question`,
    )
}
