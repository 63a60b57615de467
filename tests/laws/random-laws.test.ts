import { describe, expect, test } from 'vitest'
import {
  boundsHoldEveryEnd,
  highestGivenWins,
  partsNeverSettleLower,
  prove,
  stoppingIsSafe,
  worseNeverLowers,
} from './proofs.ts'
import { dice } from './random-protocol.ts'

describe('over 500 invented protocols', () => {
  test('law 1: the urgency is the highest of what the rules give, by an evaluation of its own', () => {
    expect(prove(highestGivenWins, dice, 500)).toBeGreaterThan(500)
  })
  test('law 2: a worse option, "cannot tell" for the mildest or one more concern never lowers the urgency, whatever is asked then', () => {
    expect(prove(worseNeverLowers, dice, 500)).toBeGreaterThan(500)
  })
  test('law 4: where the wizard stops, no answer to a question of the rules in scope changes the urgency', () => {
    expect(prove(stoppingIsSafe, dice, 600)).toBeGreaterThan(600)
  })
  test('both bounds hold every end a case can come to, and while they differ something matters', () => {
    expect(prove(boundsHoldEveryEnd, dice, 500)).toBeGreaterThan(500)
  })
  test('law 12: part of the answers never settles below the whole, and the empty case is never settled', () => {
    expect(prove(partsNeverSettleLower, dice, 500)).toBeGreaterThan(500)
  })
})
