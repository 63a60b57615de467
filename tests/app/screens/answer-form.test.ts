import { describe, expect, test } from 'vitest'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import { EMPTY_FORM, formOf, ON_DATE, presetValue, readForm } from '../../../src/app/screens/answer-form.ts'

const now = { instant: '2026-11-25T02:10:00Z', zone: 'America/New_York' }
const question = (kind: Question['kind'], more: Partial<Question> = {}): Question => ({
  id: 'q',
  kind,
  phase: 'common',
  fact: 0,
  options: ['one', 'two'],
  signs: [null, null],
  staysGoodHours: 4,
  cannotTell: true,
  cannotMeasure: true,
  forHandover: false,
  ...more,
})
const words: QuestionWords = {
  ask: 'How?',
  options: [{ text: 'One' }, { text: 'Two' }],
  presets: [{ text: 'Yesterday', hoursAgo: 24, uncertaintyHours: 6 }],
}
const range = { from: 1, to: 200, unit: 'grams' }

describe('a number', () => {
  test('is taken with a comma or a point', () => {
    const read = readForm(question('amount', { range }), words, { ...EMPTY_FORM, number: ' 31,5 ' }, now)
    expect(read).toMatchObject({ ok: true, entry: { answer: { kind: 'amount', amount: 31.5 } } })
  })

  test.each(['', 'abc', '-3', '0', '201', '1e2', '1.2.3'])(
    '"%s" gets a sentence with the field, the value and what is accepted',
    number => {
      const read = readForm(question('amount', { range }), words, { ...EMPTY_FORM, number }, now)
      expect(read.ok).toBe(false)
      const fault = read.ok ? '' : (read.faults.number ?? '')
      expect(fault).toContain('Your reading')
      expect(fault).toContain(number)
      expect(fault).toContain('from 1 to 200 g.')
    },
  )
})

describe('a duration', () => {
  test('chosen from the list is stored as the moment it began', () => {
    const read = readForm(question('since'), words, { ...EMPTY_FORM, picked: presetValue(0) }, now)
    expect(read).toMatchObject({
      ok: true,
      entry: { answer: { kind: 'since', began: '2026-11-24T02:10:00.000Z', uncertaintyHours: 6 } },
    })
  })

  test('given as a day begins at noon of that day where the owner lives', () => {
    const read = readForm(
      question('since'),
      words,
      { ...EMPTY_FORM, picked: ON_DATE, day: '2026-11-20' },
      now,
    )
    expect(read).toMatchObject({ ok: true, entry: { answer: { began: '2026-11-20T17:00:00.000Z' } } })
  })

  test('in the future is refused, by the calendar of the owner', () => {
    const read = readForm(
      question('since'),
      words,
      { ...EMPTY_FORM, picked: ON_DATE, day: '2026-11-25' },
      now,
    )
    expect(read).toMatchObject({ ok: false, faults: { day: expect.stringContaining('2026-11-25') } })
  })
})

describe('weights', () => {
  test('carry today and the earlier one', () => {
    const form = { ...EMPTY_FORM, number: '52', earlierNumber: '60,5', earlierDay: '2026-11-03' }
    const read = readForm(question('weights', { range }), words, form, now)
    expect(read).toMatchObject({
      ok: true,
      entry: {
        weighIns: [
          { massGrams: 60.5, at: '2026-11-03T17:00:00.000Z' },
          { massGrams: 52, at: now.instant },
        ],
      },
    })
    expect(read.ok && formOf(question('weights'), words, read.entry, now)).toMatchObject({
      number: '52',
      earlierNumber: '60.5',
      earlierDay: '2026-11-03',
    })
  })

  test('with half of an earlier one are refused and nothing is kept', () => {
    const read = readForm(
      question('weights', { range }),
      words,
      { ...EMPTY_FORM, number: '52', earlierNumber: '60' },
      now,
    )
    expect(read).toMatchObject({
      ok: false,
      faults: { earlierDay: expect.stringContaining('Day of the earlier weight') },
    })
  })
})

test('an unticked list is an answer only where content words "none of these"', () => {
  expect(readForm(question('several'), words, EMPTY_FORM, now).ok).toBe(false)
  const read = readForm(question('several'), { ...words, noneText: 'None' }, EMPTY_FORM, now)
  expect(read).toMatchObject({ ok: true, entry: { answer: { kind: 'several', chosen: [], rest: 'no' } } })
})

test('"can\'t measure" stands as a picked line in a list of times, and leaves a field empty', () => {
  const entry = { question: 'q', answer: { kind: 'cannot-measure' as const, given: now.instant } }
  expect(formOf(question('since'), words, entry, now).picked).toBe('cannot-measure')
  const form = formOf(question('amount', { range }), words, entry, now)
  expect(readForm(question('amount', { range }), words, form, now).ok).toBe(false)
})
