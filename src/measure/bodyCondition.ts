/** The five steps of body condition, thinnest first: wasted, thin, good, heavy, obese. */
export const CONDITION_STEPS = [1, 2, 3, 4, 5] as const

export type ConditionStep = (typeof CONDITION_STEPS)[number]

/** What is looked at. The tail is one view, the other three are the other. */
export const CONDITION_PARTS = ['tail', 'hipsAndSpine', 'flanksAndThighs', 'forelegPads'] as const

export type ConditionPart = (typeof CONDITION_PARTS)[number]

/** A step seen; `saysNothing` for a look that fits several steps (no pads); `cantTell` after looking. */
export type ConditionLook = ConditionStep | 'saysNothing' | 'cantTell'

export interface ConditionSeen {
  readonly looks: Readonly<Partial<Record<ConditionPart, ConditionLook>>>
  readonly tail: 'original' | 'regrown' | 'lost' | 'unknown'
  /** Whether she may carry eggs, which fill the flanks. */
  readonly gravid: boolean
}

export interface BodyCondition {
  /** The thinner of the two views; undefined when neither can be told. */
  readonly step: ConditionStep | undefined
  readonly tailView: ConditionStep | undefined
  readonly bodyView: ConditionStep | undefined
  /** Steps between the two views; 0 when there is only one. */
  readonly disagreementSteps: number
  readonly notUsed: readonly {
    readonly part: ConditionPart
    readonly why: 'tailRegrown' | 'tailLost' | 'gravid'
  }[]
  /** Parts nobody looked at, or that could not be told. */
  readonly missing: readonly ConditionPart[]
  readonly certainty: 'sure' | 'likely' | 'cantTellYet'
}

/**
 * The five-step look from four observations: the thinner of the tail view and the body view, and the body
 * view is the thinnest of its own looks. A regrown tail stores more fat than the first and is not used; a lost
 * one cannot be; with eggs inside, flanks and thighs are not used. The scale is expert custom, not a
 * validated score.
 */
export function bodyCondition(seen: ConditionSeen): BodyCondition {
  const notUsed: { part: ConditionPart; why: 'tailRegrown' | 'tailLost' | 'gravid' }[] = []
  if (seen.tail === 'regrown') notUsed.push({ part: 'tail', why: 'tailRegrown' })
  if (seen.tail === 'lost') notUsed.push({ part: 'tail', why: 'tailLost' })
  if (seen.gravid) notUsed.push({ part: 'flanksAndThighs', why: 'gravid' })
  const used = CONDITION_PARTS.filter(part => !notUsed.some(unused => unused.part === part))
  const missing = used.filter(part => seen.looks[part] === undefined || seen.looks[part] === 'cantTell')
  const steps = (parts: readonly ConditionPart[]): ConditionStep | undefined =>
    thinnest(
      parts.flatMap(part => {
        const look = seen.looks[part]
        return typeof look === 'number' ? [look] : []
      }),
    )
  const tailView = steps(used.filter(part => part === 'tail'))
  const bodyView = steps(used.filter(part => part !== 'tail'))
  const step = thinnest([tailView, bodyView].filter(view => view !== undefined))
  const both = tailView !== undefined && bodyView !== undefined
  return {
    step,
    tailView,
    bodyView,
    disagreementSteps: both ? Math.abs(tailView - bodyView) : 0,
    notUsed,
    missing,
    certainty: certaintyOf(),
  }

  function certaintyOf(): BodyCondition['certainty'] {
    if (step === undefined) return 'cantTellYet'
    return both && missing.length === 0 && tailView === bodyView && seen.tail === 'original'
      ? 'sure'
      : 'likely'
  }
}

function thinnest(steps: readonly ConditionStep[]): ConditionStep | undefined {
  return steps.reduce<ConditionStep | undefined>(
    (thin, step) => (thin === undefined || step < thin ? step : thin),
    undefined,
  )
}

/** Tail width over neck width, both in millimetres, to three places. Custom, without a validated cut-off. */
export function tailOverNeck(tailMillimetres: number, neckMillimetres: number): number {
  if (!(tailMillimetres > 0)) throw new RangeError(`tailMillimetres: ${tailMillimetres} is not above 0 mm`)
  if (!(neckMillimetres > 0)) throw new RangeError(`neckMillimetres: ${neckMillimetres} is not above 0 mm`)
  return Math.round((1000 * tailMillimetres) / neckMillimetres) / 1000
}
