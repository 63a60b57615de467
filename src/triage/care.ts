import type { Care, CareItem } from '../../shared/assessment.ts'
import type { CarePlan, CareStep, Logic } from '../../shared/compiled.ts'
import { atLeastAsUrgent, type Level } from '../../shared/urgency.ts'
import type { Standing } from './bounds.ts'
import { FALSE, highOf, intervalOf, lowOf, TRUE } from './intervals.ts'
import type { PreparedRule, Protocol } from './prepare.ts'

interface Candidate {
  readonly plan: CarePlan
  readonly step: CareStep
  readonly item: CareItem
}

/** Which plans are in play for the rules that hold, by the part they play. */
export interface PlansInPlay {
  readonly firstAid: readonly string[]
  readonly holding: readonly string[]
  readonly home: readonly string[]
}

const unique = (ids: readonly string[]) => [...new Set(ids)]

/** First aid of the rules at the top urgency, holding plans of every rule at `day` or above, home plans of all that hold. */
export function plansInPlay(held: readonly PreparedRule[], top: Level): PlansInPlay {
  const byRank = [...held].sort((one, other) => other.rank - one.rank)
  const urgent = byRank.filter(({ rule }) => atLeastAsUrgent(rule.level.urgency, 'day'))
  return {
    firstAid: unique(
      byRank
        .filter(({ rule }) => rule.level.urgency === top.urgency)
        .flatMap(({ rule }) => rule.firstAid ?? []),
    ),
    holding: atLeastAsUrgent(top.urgency, 'day')
      ? unique(urgent.flatMap(({ rule }) => rule.holding ?? []))
      : [],
    home: unique(byRank.flatMap(({ rule }) => rule.care)),
  }
}

function areOpposite(logic: Logic, one: CareStep, other: CareStep): boolean {
  return logic.opposites.some(
    ([first, second]) =>
      (one.act === first && other.act === second) || (one.act === second && other.act === first),
  )
}

/** Content gives steps that say the same in several plans the same id: the first of them is shown. */
function saysTheSame(one: CareStep, other: CareStep): boolean {
  return one.id === other.id && one.act === other.act && one.part === other.part
}

/**
 * Merges the plans: first aid, then every never-do of every plan, then steps. A never-do beats every step of the
 * same act on the same part; a step that is forbidden, or may be, is left out; of two opposite acts the first
 * stays; from `day` upwards only steps safe while waiting are shown. What is left out is listed with the reason.
 */
export function mergeCare(protocol: Protocol, standing: Standing, plans: PlansInPlay, top: Level): Care {
  const { logic } = protocol
  const { known } = standing
  const planOf = (id: string) => logic.carePlans.filter(plan => plan.id === id)
  const waiting = atLeastAsUrgent(top.urgency, 'day')
  const ids = unique([...plans.firstAid, ...plans.holding, ...plans.home])

  const nevers = ids
    .flatMap(planOf)
    .flatMap(plan =>
      plan.nevers
        .filter(never => !never.onlyWhen || highOf(intervalOf(never.onlyWhen, known)) !== FALSE)
        .map(never => ({ never, item: { plan: plan.id, item: never.id } })),
    )
  const treated = lowOf(intervalOf(logic.treatedByVet.when, known)) !== FALSE
  const leftOut: Care['leftOut'] = []
  const kept: Candidate[] = []

  /** Why a step is not shown, or undefined where it is. */
  const refusal = ({
    plan,
    step,
  }: Candidate): Pick<Care['leftOut'][number], 'because' | 'by'> | undefined => {
    const forbidden = step.forbiddenWhen ? intervalOf(step.forbiddenWhen, known) : 0
    // A home step may wait for an answer; first aid may not.
    if ((plan.kind === 'home' ? highOf(forbidden) : lowOf(forbidden)) !== FALSE)
      return { because: 'forbidden' }
    if (treated && plan.kind === 'home' && !logic.treatedByVet.keeps.includes(step.act)) {
      return { because: 'treated-by-vet' }
    }
    const never = nevers.find(one => one.never.act === step.act && one.never.part === step.part)
    if (never) return { because: 'never', by: never.item }
    const opposite = kept.find(one => areOpposite(logic, one.step, step))
    if (opposite) return { because: 'opposite', by: opposite.item }
    return waiting && plan.kind === 'home' && !step.whileWaiting
      ? { because: 'not-while-waiting' }
      : undefined
  }
  const usable = (planIds: readonly string[]): CareItem[] =>
    planIds.flatMap(planOf).flatMap(plan =>
      plan.steps.flatMap(step => {
        const candidate = { plan, step, item: { plan: plan.id, item: step.id } }
        if (step.onlyWhen && lowOf(intervalOf(step.onlyWhen, known)) !== TRUE) return []
        if (kept.some(one => saysTheSame(one.step, step))) return []
        const refused = refusal(candidate)
        if (refused) {
          leftOut.push({ ...candidate.item, ...refused })
          return []
        }
        kept.push(candidate)
        return [candidate.item]
      }),
    )

  return {
    firstAid: usable(plans.firstAid),
    holding: usable(plans.holding),
    nevers: nevers
      .filter(({ item }, at) => nevers.findIndex(one => one.item.item === item.item) === at)
      .map(({ item }) => item),
    steps: usable(plans.home),
    leftOut,
    plans: ids,
  }
}
