import type { AnimalRecord } from '../../../shared/record.ts'
import type {
  ConditionLook,
  ConditionPart,
  ConditionSeen,
  ConditionStep,
} from '../../measure/bodyCondition.ts'
import {
  againstOwnPastPercent,
  type IndexScale,
  massOverLength,
  scaledMassIndexGrams,
} from '../../measure/massIndex.ts'
import type { GeckoShape } from '../drawing/geckoShape.ts'

/**
 * The words of the body condition look. The scale is expert custom put together from what vets and keepers write
 * (Hess 2017 borrows the 1 to 9 of cats and dogs; no tested scale for leopard geckos was found), and says so on screen.
 */

/** Names under which a look and a length are kept among the readings. */
export const LOOK = 'body-look'
export const LENGTH = 'snout-to-vent'

const STEP_WORDS: Readonly<Record<ConditionStep, string>> = {
  1: 'wasted, no reserve left',
  2: 'thin',
  3: 'good',
  4: 'heavy',
  5: 'very heavy',
}

/** "2 of 5, thin". */
export function conditionWords(step: number): string {
  const words = Object.entries(STEP_WORDS).find(([one]) => Number(one) === step)?.[1]
  return words === undefined ? `${step} of 5` : `${step} of 5, ${words}`
}

export interface PartWords {
  readonly ask: string
  readonly hint: string
  /** Thinnest first; a part need not show every step. */
  readonly looks: readonly (readonly [look: ConditionLook, words: string])[]
}

/** What is asked of each part. */
export const partWords: Readonly<Record<ConditionPart, PartWords>> = {
  tail: {
    ask: 'How wide is the tail at its widest?',
    hint: 'Look from above. The dashed lines on the drawing are as wide as the neck.',
    looks: [
      [1, 'Half as wide as the neck, or thinner'],
      [2, 'Clearly thinner than the neck'],
      [3, 'About as wide as the neck, or a little more, and round'],
      [4, 'As wide as the head'],
      [5, 'Wider than the head, stiff and bulging'],
    ],
  },
  hipsAndSpine: {
    ask: 'How do the hips and the backbone look?',
    hint: 'Look from above and from behind. Stroke along the back with one finger.',
    looks: [
      [1, 'Sharp, seen from across the room'],
      [2, 'Hip points and backbone can be seen'],
      [3, 'Not seen. The backbone is felt, not sharp'],
      [4, 'The backbone is hard to feel'],
      [5, 'No backbone can be felt'],
    ],
  },
  flanksAndThighs: {
    ask: 'How full are the flanks and thighs?',
    hint: 'The flanks are the sides between the legs.',
    looks: [
      [1, 'Flanks sunken, thighs like sticks'],
      [2, 'Flanks a little hollow'],
      [3, 'Smooth'],
      [4, 'Full thighs'],
      [5, 'Folds of skin, the belly rests on the floor'],
    ],
  },
  forelegPads: {
    ask: 'Are there soft pads behind the front legs?',
    hint: 'Soft, the same on both sides, and not sore. One hard lump is something else: show it to a vet.',
    looks: [
      ['saysNothing', 'No pads'],
      [4, 'Small soft pads on both sides'],
      [5, 'Large soft pads on both sides'],
    ],
  },
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
export function lastLook({
  readings,
}: AnimalRecord): { readonly at: string; readonly words: string } | undefined {
  const last = readings.findLast(({ what }) => what === LOOK)
  return last && { at: last.at, words: conditionWords(last.value) }
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
