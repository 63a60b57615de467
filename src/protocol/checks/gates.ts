import { factsIn } from '../../triage/prepare.ts'
import type { Compilation } from '../compile.ts'
import type { ContentFault } from '../fault.ts'

/**
 * A gate names earlier questions only, and no danger sign or screen. That a worse answer never shuts one is
 * refused where conditions are read (conditions.ts): an atom takes every option from some point to the worst.
 * Says whether all gates are in order.
 */
export function checkGates({ protocol: { logic }, questions }: Compilation, faults: ContentFault[]): boolean {
  let inOrder = true
  logic.questions.forEach((question, index) => {
    const placed = questions[index]
    if (!placed || !question.gate) return
    const say = (message: string) => {
      inOrder = false
      faults.push(placed.document.faultAt([...placed.path, 'onlyIf'], `${question.id}: onlyIf: ${message}`))
    }
    for (const at of factsIn(question.gate)) {
      const fact = logic.facts[at]
      if (!fact) continue
      if (fact.kind === 'sign') {
        say(`given: danger sign ${fact.id}; accepted: earlier questions and findings`)
        continue
      }
      const rests =
        fact.kind === 'weight-loss'
          ? fact.measuredBy
          : fact.kind === 'season'
            ? fact.hemisphere.fact
            : fact.question
      if (logic.questions[rests]?.phase === 'danger')
        say(`given: danger screen ${fact.id}; accepted: earlier questions and findings`)
      else if (rests >= index)
        say(`given: ${fact.id}, which is asked later; accepted: earlier questions and findings`)
    }
  })
  return inOrder
}
