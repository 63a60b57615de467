import type { Care, CareItem } from '../../shared/assessment.ts'
import type { CarePlan } from '../../shared/compiled.ts'
import { atLeastAsUrgent, type Level } from '../../shared/urgency.ts'
import type { Standing } from './bounds.ts'
import {
  type PreparedCare,
  type PreparedPlan,
  type PreparedStep,
  plansOf,
  preparedCare,
} from './care-plans.ts'
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

/** Plans while they are merged. */
interface Merging {
  readonly care: PreparedCare
  readonly known: Known
  readonly keeps: readonly string[]
  readonly treated: boolean
  readonly waiting: boolean
  /** The first never-do of each act on each part. */
  readonly never: ReadonlyMap<number, CareItem>
  /** Steps kept so far, by what they say; and the place of the first of each act among them. */
  readonly said: Set<number>
  readonly kept: CareItem[]
  readonly firstOfAct: Map<number, number>
  readonly leftOut: Care['leftOut']
}

/** The first kept step whose act is opposite to `act`. */
function oppositeOf({ care, kept, firstOfAct }: Merging, act: number): CareItem | undefined {
  let first = kept.length
  for (const opposite of care.oppositesOf[act] ?? NONE)
    first = Math.min(first, firstOfAct.get(opposite) ?? kept.length)
  return kept[first]
}

const NONE: readonly number[] = []

/** Why a step is not shown, or undefined where it is. */
function refusal(
  merging: Merging,
  kind: CarePlan['kind'],
  { step, act, actAndPart }: PreparedStep,
): Pick<Care['leftOut'][number], 'because' | 'by'> | undefined {
  const forbidden = step.forbiddenWhen ? intervalOf(step.forbiddenWhen, merging.known) : 0
  // A home step may wait for an answer; first aid may not.
  if ((kind === 'home' ? highOf(forbidden) : lowOf(forbidden)) !== FALSE) return { because: 'forbidden' }
  if (merging.treated && kind === 'home' && !merging.keeps.includes(step.act))
    return { because: 'treated-by-vet' }
  const never = merging.never.get(actAndPart)
  if (never) return { because: 'never', by: never }
  const opposite = oppositeOf(merging, act)
  if (opposite) return { because: 'opposite', by: opposite }
  return merging.waiting && kind === 'home' && !step.whileWaiting
    ? { because: 'not-while-waiting' }
    : undefined
}

/** The steps of some plans that can be shown beside those kept already; the others are added to those left out. */
function usable(merging: Merging, ids: readonly string[]): CareItem[] {
  const items: CareItem[] = []
  const { said, kept, firstOfAct, leftOut } = merging
  for (const { plan, steps } of plansOf(merging.care, ids)) {
    for (const prepared of steps) {
      const { step, item, act, says } = prepared
      if (step.onlyWhen && lowOf(intervalOf(step.onlyWhen, merging.known)) !== TRUE) continue
      if (said.has(says)) continue
      const refused = refusal(merging, plan.kind, prepared)
      if (refused) {
        leftOut.push({ ...item, ...refused })
        continue
      }
      said.add(says)
      if (!firstOfAct.has(act)) firstOfAct.set(act, kept.length)
      kept.push(item)
      items.push(item)
    }
  }
  return items
}

/** Every never-do of some plans once, and the first of them for each act on each part. */
function neversOf(plans: readonly PreparedPlan[], known: Known) {
  const nevers: CareItem[] = []
  const told = new Set<string>()
  const firstOf = new Map<number, CareItem>()
  for (const plan of plans) {
    for (const { never, item, actAndPart } of plan.nevers) {
      if (never.onlyWhen && highOf(intervalOf(never.onlyWhen, known)) === FALSE) continue
      if (!firstOf.has(actAndPart)) firstOf.set(actAndPart, item)
      if (told.has(item.item)) continue
      told.add(item.item)
      nevers.push(item)
    }
  }
  return { nevers, firstOf }
}

/**
 * Merges the plans: first aid, then every never-do of every plan, then steps. A never-do beats every step of the
 * same act on the same part; a step that is forbidden, or may be, is left out; of two opposite acts the first
 * stays; from `day` upwards only steps safe while waiting are shown. What is left out is listed with the reason.
 */
export function mergeCare(protocol: Protocol, standing: Standing, plans: PlansInPlay, top: Level): Care {
  const { treatedByVet } = protocol.logic
  const { known } = standing
  const care = preparedCare(protocol)
  const ids = [...new Set([...plans.firstAid, ...plans.holding, ...plans.home])]
  const { nevers, firstOf } = neversOf(plansOf(care, ids), known)
  const merging: Merging = {
    care,
    known,
    keeps: treatedByVet.keeps,
    treated: lowOf(intervalOf(treatedByVet.when, known)) !== FALSE,
    waiting: atLeastAsUrgent(top.urgency, 'day'),
    never: firstOf,
    said: new Set(),
    kept: [],
    firstOfAct: new Map(),
    leftOut: [],
  }
  return {
    firstAid: usable(merging, plans.firstAid),
    holding: usable(merging, plans.holding),
    nevers,
    steps: usable(merging, plans.home),
    leftOut: merging.leftOut,
    plans: ids,
  }
}
