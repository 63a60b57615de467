import type { Moment } from '../../../shared/moment.ts'
import type { PreparedRule, Protocol } from '../../../src/triage/prepare.ts'
import { NOW } from '../random-protocol.ts'
import { AnswerBook } from './classes.ts'
import { Compiler } from './compile.ts'
import { Expressions } from './expressions.ts'

/** A summer's moment beside the winter's: between them every season that a rule can tell apart. */
export const SUMMER: Moment = { ...NOW, instant: '2026-06-10T20:30:00.000Z' }

/** The moments at which rules have to be looked at. */
export function momentsOf(protocol: Protocol, rules: readonly PreparedRule[]): readonly Moment[] {
  const reads = ({ facts }: PreparedRule) => facts.some(fact => protocol.logic.facts[fact]?.kind === 'season')
  return rules.some(reads) ? [NOW, SUMMER] : [NOW]
}

/** What the proofs of one protocol at one moment share, so that each answer is read once. */
export interface Desk {
  readonly table: Expressions
  readonly book: AnswerBook
  /** Conditions where the record may hold weigh-ins before they are asked for, and where it is empty. */
  readonly withRecord: Compiler
  readonly emptyRecord: Compiler
}

const desks = new WeakMap<Protocol, Map<string, Desk>>()

export function deskOf(protocol: Protocol, now: Moment): Desk {
  const ofProtocol = desks.get(protocol) ?? new Map<string, Desk>()
  desks.set(protocol, ofProtocol)
  const before = ofProtocol.get(now.instant)
  if (before) return before
  const table = new Expressions()
  const made = {
    table,
    book: new AnswerBook(protocol, table, now),
    withRecord: new Compiler(protocol, table, now, true),
    emptyRecord: new Compiler(protocol, table, now, false),
  }
  ofProtocol.set(now.instant, made)
  return made
}
