import type { AnimalRecord } from '../../../shared/record.ts'
import type { WeightsContent } from '../../../shared/weights.ts'
import type { ConditionSeen } from '../../measure/bodyCondition.ts'
import {
  againstOwnPastPercent,
  type IndexScale,
  massOverLength,
  scaledMassIndexGrams,
} from '../../measure/massIndex.ts'
import type { GeckoShape } from '../drawing/geckoShape.ts'

/** The words of the look, from content. */
export type ConditionContent = WeightsContent['condition']

/** Names under which a look and a length are kept among the readings. */
export const LOOK = 'body-look'
export const LENGTH = 'snout-to-vent'

/** "2 of 5, thin". */
export function conditionWords(step: number, { steps }: ConditionContent): string {
  const words = steps[step - 1]
  return words === undefined ? `${step} of 5` : `${step} of 5, ${words}`
}

const BODY = [-1, -0.55, 0, 0.55, 1]
const TAIL = [0.5, 0.75, 1.3, 1.75, 2]

/** The drawing as it was said to look so far. */
export function shapeOf({ looks }: ConditionSeen): Partial<GeckoShape> {
  const body = [looks.hipsAndSpine, looks.flanksAndThighs].filter(look => typeof look === 'number')
  const step = body.length === 0 ? 3 : Math.min(...body)
  return {
    condition: BODY[step - 1] ?? 0,
    ...(typeof looks.tail === 'number' ? { tailWidth: TAIL[looks.tail - 1] ?? 1.3 } : {}),
  }
}

/** The newest look on record. */
export function lastLook(
  { readings }: AnimalRecord,
  content: ConditionContent,
): { readonly at: string; readonly words: string } | undefined {
  const last = readings.findLast(({ what }) => what === LOOK)
  return last && { at: last.at, words: conditionWords(last.value, content) }
}

export interface OwnIndex {
  readonly gramsPerMillimetre: number
  readonly scaledGrams: number
  /** The newest against the median of the animal's earlier ones; undefined for the first. */
  readonly gramsPerMillimetreChangePercent: number | undefined
  readonly scaledChangePercent: number | undefined
}

/** Both indices at every length on record, each with the last weight up to then, against the animal's own past. */
export function ownIndex({ readings, weighIns }: AnimalRecord, scale: IndexScale): OwnIndex | undefined {
  const plain: number[] = []
  const scaled: number[] = []
  for (const { what, at, value } of readings) {
    const weighed = weighIns.findLast(one => Date.parse(one.at) <= Date.parse(at))
    if (what !== LENGTH || weighed === undefined) continue
    plain.push(massOverLength(weighed.massGrams, value))
    scaled.push(scaledMassIndexGrams(weighed.massGrams, value, scale))
  }
  const [gramsPerMillimetre, scaledGrams] = [plain.at(-1), scaled.at(-1)]
  if (gramsPerMillimetre === undefined || scaledGrams === undefined) return undefined
  return {
    gramsPerMillimetre,
    scaledGrams,
    gramsPerMillimetreChangePercent: againstOwnPastPercent(gramsPerMillimetre, plain.slice(0, -1)),
    scaledChangePercent: againstOwnPastPercent(scaledGrams, scaled.slice(0, -1)),
  }
}
