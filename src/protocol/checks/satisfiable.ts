import type { Checking } from './context.ts'
import { canHold } from './witness.ts'

/** Some answers make every rule true, and some open every gate. */
export function checkSatisfiable({ logic, rules, questions, refuse }: Checking): void {
  for (const { prepared, document, path } of rules)
    if (!canHold(logic, prepared.rule.when))
      refuse(
        document,
        [...path, 'when'],
        `rule ${prepared.rule.id}: can never be true; accepted: a condition that some answers fulfil`,
      )
  logic.questions.forEach(({ id, gate }, index) => {
    const placed = questions[index]
    if (placed && gate && !canHold(logic, gate))
      refuse(
        placed.document,
        [...placed.path, 'onlyIf'],
        `question ${id}: its gate can never open; accepted: a condition that some answers fulfil`,
      )
  })
}
