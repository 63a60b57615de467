import { FALSE, highOf, lowOf, TRUE } from '../../../src/triage/intervals.ts'

/**
 * Conditions over what is not known yet. An expression is a number: below 16 it is a settled interval, packed as in
 * src/triage/intervals.ts; above, it is an entry of the table. Equal expressions have equal numbers, so that two
 * pasts that leave the same condition over the same open questions are one state.
 */
export type Expression = number

export const NEVER: Expression = FALSE
export const ALWAYS: Expression = TRUE | (TRUE << 2)
/** From false to true: an atom that is not asked yet. */
export const OPEN: Expression = FALSE | (TRUE << 2)

/** How finely an atom is read: false, unsure, true; only "is it true"; only "is it more than false". */
export type Reading = 'full' | 'sure' | 'some'

/** What an atom reads of the answer to one question. */
export interface Leaf {
  readonly question: number
  readonly fact: number
  readonly options: number
  /** For weighings: what weigh-ins say, or what is still open without them. */
  readonly part: 'answer' | 'weighed' | 'unweighed'
  readonly reading: Reading
}

type Shape =
  | { readonly kind: 'leaf'; readonly leaf: number }
  | { readonly kind: 'all' | 'any'; readonly of: readonly Expression[] }
  | { readonly kind: 'atLeast'; readonly count: number; readonly of: readonly Expression[] }
  /** `of` where the gate is more than false; false, or the settled `shut`, where it is not. */
  | {
      readonly kind: 'gated' | 'unlessShut'
      readonly gate: Expression
      readonly of: Expression
      readonly shut: Expression
    }

interface Entry {
  readonly shape: Shape
  readonly low: number
  readonly high: number
  readonly leaves: readonly number[]
}

// Functions inside hot functions are kept nameless or moved out: the runner names each one anew at every call.
const packed = (low: number, high: number) => low | (high << 2)
const ascending = (one: number, other: number) => one - other

function endAs(value: number, reading: Reading): number {
  return value === TRUE || (reading === 'some' && value > FALSE) ? TRUE : FALSE
}

/** An interval read more coarsely. */
export function readAs(interval: number, reading: Reading): number {
  if (reading === 'full') return interval
  return packed(endAs(lowOf(interval), reading), endAs(highOf(interval), reading))
}

function nth(ends: readonly number[], count: number): number {
  return [...ends].sort((one, other) => other - one)[count - 1] ?? FALSE
}

const noLeaves: readonly number[] = []

/** The table of all expressions met so far. */
export class Expressions {
  readonly leaves: Leaf[] = []
  readonly #entries: Entry[] = []
  readonly #known = new Map<string, Expression>()
  readonly #leafKnown = new Map<string, Expression>()
  readonly #read: Record<Reading, Map<Expression, Expression>> = {
    full: new Map(),
    sure: new Map(),
    some: new Map(),
  }

  isSettled = (expression: Expression): boolean => expression < 16
  #entry = (expression: Expression): Entry => {
    const entry = this.#entries[expression - 16]
    if (!entry) throw new Error(`no expression ${expression}`)
    return entry
  }
  low = (one: Expression): number => (one < 16 ? lowOf(one) : this.#entry(one).low)
  high = (one: Expression): number => (one < 16 ? highOf(one) : this.#entry(one).high)
  /** The atoms that are still open in it, by their place in `leaves`. */
  leavesOf = (one: Expression): readonly number[] => (one < 16 ? noLeaves : this.#entry(one).leaves)

  #store(shape: Shape, key: string, low: number, high: number, parts: readonly Expression[]): Expression {
    // Ends only ever draw together, so a condition whose ends are equal is settled whatever is still open.
    if (low === high) return packed(low, high)
    const known = this.#known.get(key)
    if (known !== undefined) return known
    const leaves = shape.kind === 'leaf' ? [shape.leaf] : this.#leavesIn(parts)
    if (leaves.length === 0) return packed(low, high)
    const made = this.#entries.push({ shape, low, high, leaves }) + 15
    this.#known.set(key, made)
    return made
  }

  #leavesIn(parts: readonly Expression[]): number[] {
    const leaves = new Set<number>()
    for (const part of parts) for (const leaf of this.leavesOf(part)) leaves.add(leaf)
    return [...leaves].sort(ascending)
  }

  leaf(leaf: Leaf): Expression {
    const key = `${leaf.question} ${leaf.fact} ${leaf.options} ${leaf.part} ${leaf.reading}`
    const known = this.#leafKnown.get(key)
    if (known !== undefined) return known
    const place = this.leaves.push(leaf) - 1
    const made = this.#store({ kind: 'leaf', leaf: place }, `leaf ${place}`, FALSE, TRUE, [])
    this.#leafKnown.set(key, made)
    return made
  }

  /** The parts of a joined condition, those of the same kind written out; joins the settled ones into one interval. */
  #parts(kind: 'all' | 'any', given: readonly Expression[], parts: Set<Expression>, settled: number): number {
    let low = lowOf(settled)
    let high = highOf(settled)
    for (const one of given) {
      if (one < 16) {
        low = kind === 'all' ? Math.min(low, lowOf(one)) : Math.max(low, lowOf(one))
        high = kind === 'all' ? Math.min(high, highOf(one)) : Math.max(high, highOf(one))
        continue
      }
      const { shape } = this.#entry(one)
      if (shape.kind === kind) {
        const inner = this.#parts(kind, shape.of, parts, packed(low, high))
        low = lowOf(inner)
        high = highOf(inner)
      } else parts.add(one)
    }
    return packed(low, high)
  }

  #joined(kind: 'all' | 'any', given: readonly Expression[]): Expression {
    const parts = new Set<Expression>()
    const neutral = kind === 'all' ? ALWAYS : NEVER
    const settled = this.#parts(kind, given, parts, neutral)
    if (parts.size === 0 || settled === (kind === 'all' ? NEVER : ALWAYS)) return settled
    let low = lowOf(settled)
    let high = highOf(settled)
    for (const part of parts) {
      const entry = this.#entry(part)
      low = kind === 'all' ? Math.min(low, entry.low) : Math.max(low, entry.low)
      high = kind === 'all' ? Math.min(high, entry.high) : Math.max(high, entry.high)
    }
    if (low === high) return packed(low, high)
    if (settled !== neutral) parts.add(settled)
    const of = [...parts].sort(ascending)
    if (of.length === 1) return of[0] ?? NEVER
    return this.#store({ kind, of }, `${kind} ${of.join(' ')}`, low, high, of)
  }

  all = (of: readonly Expression[]): Expression => this.#joined('all', of)
  any = (of: readonly Expression[]): Expression => this.#joined('any', of)

  atLeast(count: number, given: readonly Expression[]): Expression {
    const needed = count - given.filter(one => one === ALWAYS).length
    const of = given.filter(one => one !== ALWAYS && one !== NEVER).sort((one, other) => one - other)
    if (needed <= 0) return ALWAYS
    if (needed > of.length) return NEVER
    if (needed === 1) return this.any(of)
    if (needed === of.length) return this.all(of)
    const low = nth(of.map(this.low), needed)
    const high = nth(of.map(this.high), needed)
    return this.#store(
      { kind: 'atLeast', count: needed, of },
      `least ${needed} ${of.join(' ')}`,
      low,
      high,
      of,
    )
  }

  /** An atom behind a gate: false where the gate is false; where the gate may still be false, its low end is. */
  gated(gate: Expression, of: Expression): Expression {
    const open = this.read(gate, 'some')
    if (open === NEVER || of === NEVER) return NEVER
    if (open === ALWAYS) return of
    const high = this.high(of)
    if (open < 16 && of < 16) return packed(FALSE, high)
    return this.#store(
      { kind: 'gated', gate: open, of, shut: NEVER },
      `gated ${open} ${of}`,
      FALSE,
      this.high(open) > FALSE ? high : FALSE,
      [open, of],
    )
  }

  /** A finding that has a value of its own where its question does not apply. */
  unlessShut(gate: Expression, of: Expression, shut: Expression): Expression {
    const open = this.read(gate, 'some')
    if (open === NEVER) return shut
    if (open === ALWAYS || of === shut) return of
    // As the program does: while the gate may be open, the answer counts in full.
    if (open < 16) return of
    const low = Math.min(this.low(of), this.low(shut))
    const high = Math.max(this.high(of), this.high(shut))
    return this.#store(
      { kind: 'unlessShut', gate: open, of, shut },
      `unless ${open} ${of} ${shut}`,
      low,
      high,
      [open, of],
    )
  }

  /** The same condition read more coarsely. Gates keep their own reading: they open on unsure. */
  read(one: Expression, reading: Reading): Expression {
    if (reading === 'full') return one
    if (one < 16) return readAs(one, reading)
    const memo = this.#read[reading]
    const known = memo.get(one)
    if (known !== undefined) return known
    const { shape } = this.#entry(one)
    const made = this.#map(
      shape,
      part => this.read(part, reading),
      leaf => (leaf.reading === 'full' ? this.leaf({ ...leaf, reading }) : one),
      gate => gate,
    )
    memo.set(one, made)
    return made
  }

  #map(
    shape: Shape,
    onPart: (part: Expression) => Expression,
    onLeaf: (leaf: Leaf, place: number) => Expression,
    onGate: (gate: Expression) => Expression,
  ): Expression {
    switch (shape.kind) {
      case 'leaf': {
        const leaf = this.leaves[shape.leaf]
        if (!leaf) throw new Error(`no atom ${shape.leaf}`)
        return onLeaf(leaf, shape.leaf)
      }
      case 'all':
      case 'any':
        return this.#joined(shape.kind, shape.of.map(onPart))
      case 'atLeast':
        return this.atLeast(shape.count, shape.of.map(onPart))
      case 'gated':
        return this.gated(onGate(shape.gate), onPart(shape.of))
      case 'unlessShut':
        return this.unlessShut(onGate(shape.gate), onPart(shape.of), onPart(shape.shut))
    }
  }

  /** The condition that is left when some atoms have become known; `memo` holds for one such set of values. */
  settle(
    one: Expression,
    values: ReadonlyMap<number, number>,
    memo: Map<Expression, Expression>,
  ): Expression {
    if (one < 16) return one
    const known = memo.get(one)
    if (known !== undefined) return known
    const { shape, leaves } = this.#entry(one)
    const made = leaves.some(leaf => values.has(leaf))
      ? this.#map(
          shape,
          part => this.settle(part, values, memo),
          (_, place) => values.get(place) ?? one,
          gate => this.settle(gate, values, memo),
        )
      : one
    memo.set(one, made)
    return made
  }
}
