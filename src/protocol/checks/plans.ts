import type { CareStep, NeverDo } from '../../../shared/compiled.ts'
import type { Checking } from './context.ts'
import { canHold } from './witness.ts'

/** Whether the step is left out wherever the never-do is shown, by the very condition of the never-do. */
function yields(step: CareStep, never: NeverDo): boolean {
  const { forbiddenWhen } = step
  if (!never.onlyWhen || !forbiddenWhen) return false
  const same = JSON.stringify(never.onlyWhen)
  const parts = forbiddenWhen.kind === 'any' ? [forbiddenWhen, ...forbiddenWhen.of] : [forbiddenWhen]
  return parts.some(part => JSON.stringify(part) === same)
}

/** Home and holding plans have an end; no plan contradicts itself. */
export function checkPlans({ source, logic, refuse }: Checking): void {
  source.carePlans.forEach(({ value, document }, index) => {
    if (value.kind !== 'first-aid') {
      if (value.lookAgain.length === 0)
        refuse(
          document,
          ['lookAgain'],
          `${value.id}: lookAgain: given: none; accepted: at least one time to look again`,
        )
      if (value.getHelpIf.length === 0)
        refuse(
          document,
          ['getHelpIf'],
          `${value.id}: getHelpIf: given: none; accepted: at least one sign that ends the plan`,
        )
    }
    value.lookAgain.forEach(({ hours, morning, day }, at) => {
      if ([hours, morning, day].filter(one => one !== undefined).length !== 1)
        refuse(
          document,
          ['lookAgain', at],
          `${value.id}: lookAgain: accepted: exactly one of hours, morning, day`,
        )
    })
    const plan = logic.carePlans[index]
    if (!plan) return
    plan.steps.forEach((step, at) => {
      const never = plan.nevers.find(
        one =>
          one.act === step.act &&
          one.part === step.part &&
          !yields(step, one) &&
          canHold(logic, one.onlyWhen, step.onlyWhen),
      )
      if (never)
        refuse(
          document,
          ['steps', at, 'act'],
          `${value.id}: step ${step.id} (${step.act} ${step.part}) contradicts never-do ${never.id}; accepted: another act or part, or onlyWhen or forbiddenWhen that keeps them apart`,
        )
      const opposite = plan.steps
        .slice(0, at)
        .find(
          other =>
            logic.opposites.some(pair => pair.includes(other.act) && pair.includes(step.act)) &&
            other.act !== step.act &&
            canHold(logic, other.onlyWhen, step.onlyWhen),
        )
      if (opposite)
        refuse(
          document,
          ['steps', at, 'act'],
          `${value.id}: step ${step.id} (${step.act}) is the opposite of step ${opposite.id} (${opposite.act}); accepted: onlyWhen that keeps them apart`,
        )
    })
  })
}
