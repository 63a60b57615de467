import { describe, expect, test } from 'vitest'
import type { Logic, Question } from '../../shared/compiled.ts'
import { keptUnder, type LogEntry, logOf } from '../../src/records/log.ts'
import { answered, at, began, caseOf, choice, PROTOCOL } from './fixtures.ts'

describe('logOf', () => {
  test('takes answers in the order of their places, whatever order they are read in', () => {
    const events = caseOf(began(), answered(choice('skin', 'pale')), answered(choice('eyes', 'open')))
    expect(logOf(events.reverse())).toEqual([choice('skin', 'pale'), choice('eyes', 'open')])
  })

  test('a later answer replaces the earlier one and moves to the end', () => {
    const events = caseOf(
      answered(choice('skin', 'pale')),
      answered(choice('eyes', 'open')),
      answered(choice('skin', 'dark')),
    )
    expect(logOf(events)).toEqual([choice('eyes', 'open'), choice('skin', 'dark')])
  })

  test('going back drops the last answer, and does nothing where there is none', () => {
    const back = { kind: 'went-back', at: at(1), protocol: PROTOCOL } as const
    const skin = answered(choice('skin', 'pale'))
    expect(logOf(caseOf(began(), skin, answered(choice('eyes', 'open')), back))).toEqual([
      choice('skin', 'pale'),
    ])
    expect(logOf(caseOf(began(), back, skin))).toEqual([choice('skin', 'pale')])
  })

  test('weigh-ins stay with their answer', () => {
    const entry: LogEntry = {
      question: 'weights',
      answer: { kind: 'cannot-measure', given: at(0) },
      weighIns: [{ at: at(0), massGrams: 52.5 }],
    }
    expect(logOf(caseOf(answered(entry)))).toEqual([entry])
  })
})

const question = (id: string, more: Partial<Question>): Question => ({
  id,
  kind: 'choice',
  phase: 'common',
  fact: 0,
  options: ['pale', 'dark'],
  signs: [null, null],
  staysGoodHours: 12,
  cannotTell: false,
  cannotMeasure: false,
  forHandover: false,
  ...more,
})
const logicWith = (...questions: readonly Question[]) => ({ questions }) as unknown as Logic

describe('keptUnder', () => {
  const given = at(0)

  test('keeps what the protocol still takes and names why the rest goes', () => {
    const log = [choice('skin', 'pale'), choice('skin', 'green'), choice('gills', 'pale')]
    expect(keptUnder(log, logicWith(question('skin', {})))).toEqual({
      kept: [log[0]],
      dropped: [
        { entry: log[1], why: 'answer-gone' },
        { entry: log[2], why: 'question-gone' },
      ],
    })
  })

  test.each<[string, Partial<Question>, LogEntry['answer'], boolean]>([
    ["can't tell where it may be said", { cannotTell: true }, { kind: 'cannot-tell', given }, true],
    ["can't tell where it may not", {}, { kind: 'cannot-tell', given }, false],
    ["can't measure where it may be said", { cannotMeasure: true }, { kind: 'cannot-measure', given }, true],
    ["can't measure where it may not", {}, { kind: 'cannot-measure', given }, false],
    [
      'several known lines',
      { kind: 'several' },
      { kind: 'several', chosen: ['dark'], rest: 'no', given },
      true,
    ],
    [
      'one line of several gone',
      { kind: 'several' },
      { kind: 'several', chosen: ['dark', 'green'], rest: 'no', given },
      false,
    ],
    [
      'one line where several are asked',
      { kind: 'several' },
      { kind: 'choice', choice: 'dark', given },
      false,
    ],
    [
      'an amount in range',
      { kind: 'amount', range: { from: 1, to: 9, unit: 'days' } },
      { kind: 'amount', amount: 9, given },
      true,
    ],
    [
      'an amount out of range',
      { kind: 'amount', range: { from: 1, to: 9, unit: 'days' } },
      { kind: 'amount', amount: 10, given },
      false,
    ],
    ['a moment', { kind: 'since' }, { kind: 'since', began: given, uncertaintyHours: 1, given }, true],
    ['a moment where none is asked', {}, { kind: 'since', began: given, uncertaintyHours: 1, given }, false],
    ['a line in place of a moment', { kind: 'since' }, { kind: 'choice', choice: 'dark', given }, true],
  ])('%s', (_name, more, answer, isKept) => {
    const { kept } = keptUnder([{ question: 'skin', answer }], logicWith(question('skin', more)))
    expect(kept).toHaveLength(isKept ? 1 : 0)
  })
})
