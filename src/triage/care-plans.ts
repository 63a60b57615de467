import type { CareItem } from '../../shared/assessment.ts'
import type { CarePlan, CareStep, NeverDo } from '../../shared/compiled.ts'
import type { Protocol } from './prepare.ts'

/** Care plans with their acts, parts and steps numbered, so that merging compares numbers and not texts. */

export interface PreparedStep {
  readonly step: CareStep
  readonly item: CareItem
  readonly act: number
  readonly actAndPart: number
  /** The same for steps that say the same: content gives them one id, act and part in several plans. */
  readonly says: number
}

export interface PreparedNever {
  readonly never: NeverDo
  readonly item: CareItem
  /** -1 where it forbids no act. */
  readonly actAndPart: number
}

export interface PreparedPlan {
  readonly plan: CarePlan
  readonly steps: readonly PreparedStep[]
  readonly nevers: readonly PreparedNever[]
}

export interface PreparedCare {
  readonly plans: ReadonlyMap<string, PreparedPlan>
  /** Per act, the acts that are opposite to it. */
  readonly oppositesOf: readonly (readonly number[])[]
}

/** Gives each text the next free number, and the same text the same. */
function numbering(): (text: string) => number {
  const numbers = new Map<string, number>()
  return text => {
    const number = numbers.get(text) ?? numbers.size
    numbers.set(text, number)
    return number
  }
}

function makeReady({ logic }: Protocol): PreparedCare {
  const actOf = numbering()
  const pairOf = numbering()
  const saysOf = numbering()
  const pair = (act: string, part: string) => pairOf(JSON.stringify([act, part]))
  // Shared by every outcome that shows it, so nobody may change it.
  const itemOf = (plan: CarePlan, item: string) => Object.freeze({ plan: plan.id, item })
  const plans = logic.carePlans.map(
    (plan): PreparedPlan => ({
      plan,
      steps: plan.steps.map(step => ({
        step,
        item: itemOf(plan, step.id),
        act: actOf(step.act),
        actAndPart: pair(step.act, step.part),
        says: saysOf(JSON.stringify([step.id, step.act, step.part])),
      })),
      nevers: plan.nevers.map(never => ({
        never,
        item: itemOf(plan, never.id),
        actAndPart: never.act === undefined ? -1 : pair(never.act, never.part),
      })),
    }),
  )
  const oppositesOf: number[][] = []
  for (const [one, other] of logic.opposites) {
    const first = actOf(one)
    const second = actOf(other)
    oppositesOf[first] = [...(oppositesOf[first] ?? []), second]
    oppositesOf[second] = [...(oppositesOf[second] ?? []), first]
  }
  return { plans: new Map(plans.map(prepared => [prepared.plan.id, prepared])), oppositesOf }
}

const ready = new WeakMap<Protocol, PreparedCare>()

/** The care plans of a protocol, made ready at the first outcome: a walk that never comes to one pays nothing. */
export function preparedCare(protocol: Protocol): PreparedCare {
  const before = ready.get(protocol)
  if (before) return before
  const made = makeReady(protocol)
  ready.set(protocol, made)
  return made
}

/** The plans of some ids, in their order. */
export function plansOf({ plans }: PreparedCare, ids: readonly string[]): PreparedPlan[] {
  const found: PreparedPlan[] = []
  for (const id of ids) {
    const plan = plans.get(id)
    if (plan) found.push(plan)
  }
  return found
}
