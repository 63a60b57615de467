import { describe, expect, test } from 'vitest'
import type { CaseFile } from '../../shared/case-file.ts'
import { atLeastAsUrgent, rankOf } from '../../shared/urgency.ts'
import { assess } from '../../src/triage/assess.ts'
import { mildestAnswers } from '../laws/mildest.ts'
import { NOW } from '../laws/random-protocol.ts'
import { realProtocol } from '../laws/real-protocol.ts'
import { walkCase } from '../wizard/drive.ts'

const protocol = realProtocol()
const { logic } = protocol
const given = NOW.instant
const concernQuestion = logic.questions[logic.concernQuestion]?.id ?? ''

/** Every answer the mildest, one door chosen. */
function calm(concern: string): CaseFile {
  return {
    animal: {},
    answers: {
      ...mildestAnswers(logic, NOW),
      [concernQuestion]: { kind: 'several', chosen: [concern], rest: 'no', given },
    },
    weighIns: [],
    events: [],
    readings: [],
  }
}

/** The same with one line or option of a question chosen. */
function saying(caseFile: CaseFile, question: number, option: number): CaseFile {
  const { id, kind, options } = logic.questions[question]!
  const choice = options[option]!
  return {
    ...caseFile,
    answers: {
      ...caseFile.answers,
      [id]:
        kind === 'several'
          ? { kind: 'several', chosen: [choice], rest: 'no', given }
          : { kind: 'choice', choice, given },
    },
  }
}

describe.each(logic.concerns)('the door %s', concern => {
  const own = logic.questions.flatMap((question, index) =>
    question.concern === concern && question.gate === undefined
      ? question.signs.flatMap((sign, option) => (sign === null ? [] : [{ question: index, option, sign }]))
      : [],
  )

  test('asks danger signs again: seen there after none of these, each is as urgent as on its screen', () => {
    expect(own.length).toBeGreaterThanOrEqual(2)
    for (const { question, option, sign } of own) {
      const { urgency } = assess(protocol, saying(calm(concern), question, option), NOW)
      const rule = logic.rules.find(({ id }) => id === sign)!
      expect(urgency && atLeastAsUrgent(urgency, rule.level.urgency), sign).toBe(true)
    }
  })

  test('ends at home or well, with care and a time to look again, when nothing is found', () => {
    const { settled, urgency, care, lookAgain } = assess(protocol, calm(concern), NOW)
    expect(settled).toBe(true)
    expect(['home', 'well']).toContain(urgency)
    expect(care.steps.length).toBeGreaterThan(0)
    expect(lookAgain.length).toBeGreaterThan(0)
  })

  test('takes no more than 25 screens when nothing is found', () => {
    const { questions, reached } = walkCase(protocol, calm(concern), NOW)
    expect(reached).toBe(true)
    expect(questions.length + 2).toBeLessThanOrEqual(25)
  })
})

test('half of all doors take 12 screens or fewer when nothing is found, the door being picked at the start', () => {
  const screens = logic.concerns
    .map(concern => walkCase(protocol, calm(concern), NOW).questions.length + 1)
    .sort((one, other) => one - other)
  expect(screens[Math.floor(screens.length / 2)]).toBeLessThanOrEqual(12)
})

test('where it was never changes the urgency; very hot shows no warming, cold no cooling, not known neither', () => {
  const question = logic.questions.findIndex(({ id }) => id === 'where-was-it')
  const places = logic.questions[question]!.options
  const actsOf = (caseFile: CaseFile) => {
    const result = assess(protocol, caseFile, NOW)
    const acts = [...result.care.firstAid, ...result.care.holding, ...result.care.steps].flatMap(
      ({ plan, item }) => {
        const step = logic.carePlans.find(({ id }) => id === plan)?.steps.find(({ id }) => id === item)
        return step?.part === 'body' ? [step.act] : []
      },
    )
    return { acts, level: rankOf({ urgency: result.urgency! }) }
  }
  // An overheated or a chilled animal says itself where it was.
  const saysItself = ['overheated', 'chilled-weak']
  let told = 0
  for (const { id: sign, origin } of logic.rules) {
    if (origin !== 'sign' || saysItself.includes(sign)) continue
    const screen = logic.questions.findIndex(({ phase, signs }) => phase === 'danger' && signs.includes(sign))
    const there = saying(calm(logic.concerns[0]!), screen, logic.questions[screen]!.signs.indexOf(sign))
    const seen = places.map((_, place) => actsOf(saying(there, question, place)))
    expect(new Set(seen.map(({ level }) => level)).size, sign).toBe(1)
    const at = (place: string) => seen[places.indexOf(place)]!.acts
    expect(at('very-hot'), sign).not.toContain('warm')
    expect(at('cold'), sign).not.toContain('cool')
    if (at('very-hot').includes('cool')) told += 1
    expect(at('not-known'), sign).not.toContain('warm')
    expect(at('not-known'), sign).not.toContain('cool')
  }
  expect(told).toBeGreaterThan(0)
})

test('a case taken up after five hours asks every danger screen again', () => {
  const later = { ...NOW, instant: new Date(Date.parse(given) + 5 * 3_600_000).toISOString() }
  const screens = logic.questions.filter(({ phase }) => phase === 'danger').map(({ id }) => id)
  for (const concern of logic.concerns)
    expect(assess(protocol, calm(concern), later).open).toEqual(expect.arrayContaining(screens))
})
