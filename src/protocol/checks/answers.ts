import type { Condition } from '../../../shared/compiled.ts'
import type { Checking } from './context.ts'

function atoms(condition: Condition): { fact: number; options: number }[] {
  return condition.kind === 'atom' ? [condition] : condition.of.flatMap(atoms)
}

/**
 * Every answer makes a difference somewhere: to a rule, a gate, a care condition, a danger sign or the page
 * to the vet. One answer of a `choice` may stand for "the rest": the mildest, or one option of a question of
 * fact. Every finding and every number is used too.
 */
export function checkAnswers({ logic, questions, findings, conditions, refuse }: Checking): void {
  const used = new Map<number, number>()
  const mark = (fact: number, options: number) => used.set(fact, (used.get(fact) ?? 0) | options)
  for (const { fact, options } of conditions.flatMap(atoms)) mark(fact, options)
  // The first option of the species question is the animal that the protocol is for: `assess` uses it.
  mark(logic.speciesQuestion, 1)
  const numbersUsed = new Set<number>()
  logic.facts.forEach((fact, index) => {
    if (fact.kind === 'sign') for (const one of [fact.screen, ...fact.lookNow]) mark(one.fact, one.options)
    if (!used.has(index)) return
    if (fact.kind === 'band') {
      numbersUsed.add(fact.question)
      for (const { option } of fact.bands) if (option !== undefined) mark(fact.question, 1 << option)
    }
    if (fact.kind === 'weight-loss') numbersUsed.add(fact.measuredBy)
    if (fact.kind === 'season') mark(fact.hemisphere.fact, 1 << fact.hemisphere.south)
  })

  const places = 'accepted: one that a rule, gate, care condition or the page to the vet uses'
  logic.questions.forEach((question, index) => {
    const placed = questions[index]
    if (!placed || question.forHandover || question.phase === 'handover' || question.phase === 'concern')
      return
    const bits = used.get(index) ?? 0
    const unused = question.options.flatMap((_, option) => (bits & (1 << option) ? [] : [option]))
    const number = question.kind === 'since' || question.kind === 'amount' || question.kind === 'weights'
    if (number && !numbersUsed.has(index))
      refuse(
        placed.document,
        [...placed.path, 'id'],
        `${question.id}: no used finding rests on it; ${places}`,
      )
    const ordered = logic.facts[index]?.ordered === true
    if (question.kind === 'choice' && bits === 0) {
      refuse(
        placed.document,
        [...placed.path, 'id'],
        `${question.id}: none of its answers is used; ${places}`,
      )
      return
    }
    const rest = question.kind === 'choice' ? (ordered ? 0 : unused[0]) : undefined
    for (const option of unused)
      if (option !== rest)
        refuse(
          placed.document,
          [...placed.path, 'options', option, 'id'],
          `${question.id}: answer ${question.options[option]} is not used; ${places}`,
        )
  })
  for (const { source: finding, document, path } of findings) {
    const index = logic.facts.findIndex(
      ({ kind, id }) => kind !== 'sign' && kind !== 'question' && id === finding.id,
    )
    if (index >= 0 && !used.has(index))
      refuse(document, [...path, 'id'], `finding ${finding.id}: not used; ${places}`)
  }
}
