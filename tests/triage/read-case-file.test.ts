import { describe, expect, test } from 'vitest'
import { readCaseFile } from '../../src/triage/read-case-file.ts'
import { NOW, randomLogic, seededDice } from '../laws/random-protocol.ts'
import { realProtocol } from '../laws/real-protocol.ts'

const { logic } = realProtocol()
const read = (value: unknown, now = NOW) => readCaseFile(logic, value, now)
const faultsOf = (value: unknown, now = NOW) => {
  const result = read(value, now)
  return result.ok ? [] : result.faults
}

describe('law 10: each fault names the field, the value and what is accepted', () => {
  const choice = logic.questions.find(({ kind }) => kind === 'choice')!
  const since = logic.questions.find(({ kind, cannotMeasure }) => kind === 'since' && cannotMeasure)!
  const amount = logic.questions.find(({ kind, range }) => kind === 'amount' && range)!
  const cases: readonly [string, unknown, string][] = [
    ['no object', 7, 'case file'],
    ['a field that is not there', { answer: {} }, 'case file'],
    ['a question that is not there', { answers: { nonsense: 'yes' } }, 'answers.nonsense'],
    ['an option that is not there', { answers: { [choice.id]: 'nonsense' } }, `answers.${choice.id}`],
    ['a number for a choice', { answers: { [choice.id]: 3 } }, `answers.${choice.id}`],
    ['a number out of range', { answers: { [amount.id]: 1e9 } }, `answers.${amount.id}`],
    [
      'a moment to come',
      { answers: { [since.id]: { began: '2027-01-01T00:00:00Z' } } },
      `answers.${since.id}.began`,
    ],
    [
      'a moment that is none',
      { answers: { [since.id]: { began: 'yesterday' } } },
      `answers.${since.id}.began`,
    ],
    ['another animal', { animal: { species: 'invented' } }, 'animal.species'],
    ['a hatch day to come', { animal: { hatchedOn: '2027-01-01' } }, 'animal.hatchedOn'],
    ['a day that is none', { animal: { hatchedOn: '2026-02-30' } }, 'animal.hatchedOn'],
    [
      'a mass of nothing',
      { weighIns: [{ at: '2026-11-01T00:00:00Z', massGrams: 0 }] },
      'weighIns.0.massGrams',
    ],
    ['a weigh-in to come', { weighIns: [{ at: '2027-01-01T00:00:00Z', massGrams: 50 }] }, 'weighIns.0.at'],
    ['an event of no kind', { events: [{ at: '2026-11-01T00:00:00Z', kind: 'party' }] }, 'events.0.kind'],
  ]
  test.each(cases)('%s', (_, value, field) => {
    const faults = faultsOf(value)
    expect(faults.map(fault => fault.field)).toContain(field)
    for (const fault of faults) {
      expect(fault.accepted).not.toBe('')
      expect(fault.value).not.toBe('')
    }
  })
  test('a zone that is not there', () => {
    expect(faultsOf({}, { ...NOW, zone: 'Europe/Nowhere' })[0]?.field).toBe('now.zone')
  })
  test('every fault is told at once', () => {
    expect(faultsOf({ answers: { nonsense: 'yes', [choice.id]: 'nonsense' } })).toHaveLength(2)
  })
})

test('every part may be missing', () => {
  expect(read({}).ok).toBe(true)
})

test('names that every object has are no questions', () => {
  expect(faultsOf({ answers: { constructor: 'yes', toString: 'yes' } })).toHaveLength(2)
})

test('short forms say the same as full forms', () => {
  const invented = randomLogic(seededDice(1))
  const given = NOW.instant
  const short = readCaseFile(
    invented,
    { answers: { 'screen-0': 'sign-0-0', concern: ['first'], 'first-sign': 'cannot-tell' } },
    NOW,
  )
  const full = readCaseFile(
    invented,
    {
      answers: {
        'screen-0': { chosen: ['sign-0-0'], given },
        concern: { chosen: ['first'], rest: 'no', given },
        'first-sign': { cannotTell: true, given },
      },
    },
    NOW,
  )
  expect(short.ok).toBe(true)
  expect(short).toEqual(full)
})
