import type { Care, CareItem } from '../../shared/assessment.ts'
import type { CarePlan, CareStep, Logic, NeverDo } from '../../shared/compiled.ts'
import { atLeastAsUrgent, type Level } from '../../shared/urgency.ts'
import type { Standing } from './bounds.ts'
import type { Known } from './fact-states.ts'
import { FALSE, highOf, intervalOf, lowOf, TRUE } from './intervals.ts'
import type { PreparedRule, Protocol } from './prepare.ts'

/** Which plans are in play for the rules that hold, by the part they play. */
export interface PlansInPlay {
  readonly firstAid: readonly string[]
  readonly holding: readonly string[]
  readonly home: readonly string[]
}

/** First aid of the rules at the top urgency, holding plans of every rule at `day` or above, home plans of all that hold. */
export function plansInPlay(held: readonly PreparedRule[], top: Level): PlansInPlay {
  const firstAid = new Set<string>()
  const holding = new Set<string>()
  const home = new Set<string>()
  const urgent = atLeastAsUrgent(top.urgency, 'day')
  for (const { rule } of [...held].sort((one, other) => other.rank - one.rank)) {
    if (rule.firstAid !== undefined && rule.level.urgency === top.urgency) firstAid.add(rule.firstAid)
    if (rule.holding !== undefined && urgent && atLeastAsUrgent(rule.level.urgency, 'day'))
      holding.add(rule.holding)
    for (const plan of rule.care) home.add(plan)
  }
  return { firstAid: [...firstAid], holding: [...holding], home: [...home] }
}

function areOpposite(logic: Logic, one: CareStep, other: CareStep): boolean {
  for (const [first, second] of logic.opposites) {
    if ((one.act === first && other.act === second) || (one.act === second && other.act === first))
      return true
  }
  return false
}

/** Content gives steps that say the same in several plans the same id: the first of them is shown. */
function saysTheSame(one: CareStep, other: CareStep): boolean {
  return one.id === other.id && one.act === other.act && one.part === other.part
}

/** A part of a plan that is in play, with the name it goes by in the outcome. */
interface InPlay<Part> {
  readonly part: Part
  readonly item: CareItem
}

/** Plans while they are merged. */
interface Merging {
  readonly logic: Logic
  readonly known: Known
  readonly nevers: readonly InPlay<NeverDo>[]
  readonly kept: InPlay<CareStep>[]
  readonly leftOut: Care['leftOut']
  readonly treated: boolean
  readonly waiting: boolean
}

function neversOf(plans: readonly CarePlan[], known: Known): InPlay<NeverDo>[] {
  const nevers: InPlay<NeverDo>[] = []
  for (const plan of plans) {
    for (const part of plan.nevers) {
      if (!part.onlyWhen || highOf(intervalOf(part.onlyWhen, known)) !== FALSE)
        nevers.push({ part, item: { plan: plan.id, item: part.id } })
    }
  }
  return nevers
}

/** Why a step is not shown, or undefined where it is. */
function refusal(
  { logic, known, nevers, kept, treated, waiting }: Merging,
  kind: CarePlan['kind'],
  step: CareStep,
): Pick<Care['leftOut'][number], 'because' | 'by'> | undefined {
  const forbidden = step.forbiddenWhen ? intervalOf(step.forbiddenWhen, known) : 0
  // A home step may wait for an answer; first aid may not.
  if ((kind === 'home' ? highOf(forbidden) : lowOf(forbidden)) !== FALSE) return { because: 'forbidden' }
  if (treated && kind === 'home' && !logic.treatedByVet.keeps.includes(step.act))
    return { because: 'treated-by-vet' }
  for (const { part, item } of nevers)
    if (part.act === step.act && part.part === step.part) return { because: 'never', by: item }
  for (const { part, item } of kept)
    if (areOpposite(logic, part, step)) return { because: 'opposite', by: item }
  return waiting && kind === 'home' && !step.whileWaiting ? { because: 'not-while-waiting' } : undefined
}

/** The steps of some plans that can be shown beside those kept already; the others are added to those left out. */
function usable(merging: Merging, plans: readonly CarePlan[]): CareItem[] {
  const items: CareItem[] = []
  for (const plan of plans) {
    for (const step of plan.steps) {
      if (step.onlyWhen && lowOf(intervalOf(step.onlyWhen, merging.known)) !== TRUE) continue
      if (merging.kept.some(one => saysTheSame(one.part, step))) continue
      const item = { plan: plan.id, item: step.id }
      const refused = refusal(merging, plan.kind, step)
      if (refused) merging.leftOut.push({ ...item, ...refused })
      else {
        merging.kept.push({ part: step, item })
        items.push(item)
      }
    }
  }
  return items
}

/**
 * Merges the plans: first aid, then every never-do of every plan, then steps. A never-do beats every step of the
 * same act on the same part; a step that is forbidden, or may be, is left out; of two opposite acts the first
 * stays; from `day` upwards only steps safe while waiting are shown. What is left out is listed with the reason.
 */
export function mergeCare(protocol: Protocol, standing: Standing, plans: PlansInPlay, top: Level): Care {
  const { logic } = protocol
  const { known } = standing
  const plansOf = (ids: readonly string[]) => ids.flatMap(id => protocol.plansById.get(id) ?? [])
  const ids = [...new Set([...plans.firstAid, ...plans.holding, ...plans.home])]
  const nevers = neversOf(plansOf(ids), known)
  const merging: Merging = {
    logic,
    known,
    nevers,
    kept: [],
    leftOut: [],
    treated: lowOf(intervalOf(logic.treatedByVet.when, known)) !== FALSE,
    waiting: atLeastAsUrgent(top.urgency, 'day'),
  }
  const told = new Set<string>()
  return {
    firstAid: usable(merging, plansOf(plans.firstAid)),
    holding: usable(merging, plansOf(plans.holding)),
    nevers: nevers.flatMap(({ item }) => {
      if (told.has(item.item)) return []
      told.add(item.item)
      return item
    }),
    steps: usable(merging, plansOf(plans.home)),
    leftOut: merging.leftOut,
    plans: ids,
  }
}
