import type { InstrumentKind, Quantity, RangeRow, UsedRange } from '../../shared/enclosure.ts'
import { rounded } from './units.ts'

export type Position = 'inside' | 'below' | 'above' | 'no-range'

export interface RangeJudgement {
  readonly quantity: string
  readonly name: string
  readonly value: number
  readonly unit: string
  readonly position: Position
  /** How far outside, in the quantity's unit; 0 inside. */
  readonly outBy: number
  readonly used: UsedRange
  /** Every published row, and where the value stands to it. */
  readonly rows: readonly (RangeRow & { readonly position: Position })[]
  readonly instrument: InstrumentDoubt
}

export interface InstrumentDoubt {
  readonly kind?: string
  readonly name?: string
  /** How far it may be off; absent where no source states it for this kind. */
  readonly plusMinus?: number
  readonly source?: string
  readonly note?: string
  /** Whether the value could stand on the other side of an edge of the range used. */
  readonly couldBeOtherSide: 'yes' | 'no' | 'not-known'
}

/** Where a value stands to a range; both ends are included. */
export function positionIn(
  value: number,
  { low, high }: { readonly low?: number | undefined; readonly high?: number | undefined },
): Position {
  if (low === undefined && high === undefined) return 'no-range'
  if (low !== undefined && value < low) return 'below'
  return high !== undefined && value > high ? 'above' : 'inside'
}

/** The least distance from a value to an end of a range. */
function toNearestEdge(value: number, { low, high }: UsedRange): number {
  return Math.min(
    low === undefined ? Number.POSITIVE_INFINITY : Math.abs(value - low),
    high === undefined ? Number.POSITIVE_INFINITY : Math.abs(value - high),
  )
}

function doubtOf(value: number, quantity: Quantity, instrument: InstrumentKind | undefined): InstrumentDoubt {
  const named = instrument ? { kind: instrument.id, name: instrument.name } : {}
  const stated = instrument?.accuracy.find(({ unit }) => unit === quantity.unit)
  if (!stated) return { ...named, couldBeOtherSide: 'not-known' }
  const { plusMinus, source, note } = stated
  // A hair more than the stated width, so that 29.0 with 1.0 either way does reach 30.
  const reaches = toNearestEdge(value, quantity.used) <= plusMinus + 1e-9
  return { ...named, plusMinus, source, note, couldBeOtherSide: reaches ? 'yes' : 'no' }
}

/** Holds a value, in the quantity's unit, against the published rows and the range that is used. */
export function judgeRange(
  value: number,
  quantity: Quantity,
  instrument: InstrumentKind | undefined,
): RangeJudgement {
  const { used, places } = quantity
  const position = positionIn(value, used)
  const edge = position === 'below' ? used.low : position === 'above' ? used.high : undefined
  return {
    quantity: quantity.id,
    name: quantity.name,
    value: rounded(value, places + 1),
    unit: quantity.unit,
    position,
    outBy: edge === undefined ? 0 : rounded(Math.abs(value - edge), places + 1),
    used,
    rows: quantity.rows.map(row => ({ ...row, position: positionIn(value, row) })),
    instrument: doubtOf(value, quantity, instrument),
  }
}
