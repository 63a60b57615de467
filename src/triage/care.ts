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
  const leftOut: Care['leftOut'] = []
  const kept: Candidate[] = []
  const usable = (planIds: readonly string[]): CareItem[] =>
    planIds.flatMap(planOf).flatMap(plan =>
      plan.steps.flatMap(step => {
        const item = { plan: plan.id, item: step.id }
        if (step.onlyWhen && lowOf(intervalOf(step.onlyWhen, known)) !== TRUE) return []
        if (kept.some(one => one.item.plan === item.plan && one.item.item === item.item)) return []
        const never = nevers.find(one => one.never.act === step.act && one.never.part === step.part)
        const opposite = kept.find(one => areOpposite(logic, one.step, step))
        const forbidden = step.forbiddenWhen ? intervalOf(step.forbiddenWhen, known) : 0
        if ((plan.kind === 'home' ? highOf(forbidden) : lowOf(forbidden)) !== FALSE)
          leftOut.push({ ...item, because: 'forbidden' })
        else if (never) leftOut.push({ ...item, because: 'never', by: never.item })
        else if (opposite) leftOut.push({ ...item, because: 'opposite', by: opposite.item })
        else if (waiting && plan.kind === 'home' && !step.whileWaiting)
          leftOut.push({ ...item, because: 'not-while-waiting' })
        else {
          kept.push({ plan, step, item })
          return [item]
        }
        return []
      }),
    )

  return {
    firstAid: usable(plans.firstAid),
    holding: usable(plans.holding),
    nevers: nevers.map(({ item }) => item),
    steps: usable(plans.home),
    leftOut,
    plans: ids,
  }
}
