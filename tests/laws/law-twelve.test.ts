import { describe, expect, test } from 'vitest'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { givenAt, inScope, standingOf } from '../../src/triage/bounds.ts'
import { lowOf } from '../../src/triage/intervals.ts'
import { readCaseFile } from '../../src/triage/read-case-file.ts'
import { patterns, publishedCases } from '../published/cases.ts'
import { anyCase } from './any-answer.ts'
import { mildestAnswers } from './mildest.ts'
import { type Dice, NOW, seededDice } from './random-protocol.ts'
import { realProtocol } from './real-protocol.ts'

/**
 * Law 12, as it holds: let a case hold answers, and let a part be left of them (a weigh-in goes with the answer to its
 * question). Where the part is settled, no rule in scope gives more in the whole than the part's urgency, the whole
 * read without what was answered to questions of concerns that are not chosen. For the tool asks such a question of
 * nobody: its answer counts where it stands, and nothing waits for it.
 * It follows from what is proved of each rule (not knowing holds every end); here it is tried on whole cases.
 */

const protocol = realProtocol()
const { logic } = protocol
const concernQuestion = logic.questions[logic.concernQuestion]!.id
const weightQuestions = logic.questions.filter(({ kind }) => kind === 'weights').map(({ id }) => id)

function withoutForeign(caseFile: CaseFile): CaseFile {
  const answer = caseFile.answers[concernQuestion]
  const chosen = answer?.kind === 'several' ? answer.chosen : []
  const answers = Object.fromEntries(
    logic.questions.flatMap(({ id, concern }): [string, Answer][] => {
      const said = caseFile.answers[id]
      return said && (concern === undefined || chosen.includes(concern)) ? [[id, said]] : []
    }),
  )
  return { ...caseFile, answers }
}

/** What is left of a case when some answers are taken away. */
function partOf(caseFile: CaseFile, keeps: (question: string) => boolean): CaseFile {
  const answers = Object.fromEntries(Object.entries(caseFile.answers).filter(([id]) => keeps(id)))
  const weighed = weightQuestions.every(id => id in answers)
  return { ...caseFile, answers, weighIns: weighed ? caseFile.weighIns : [] }
}

/** Whether the law holds for a part of a case; `settled` tells whether it had anything to say. */
function holdsFor(whole: CaseFile, part: CaseFile, now: Moment) {
  const some = standingOf(protocol, part, now)
  if (!some.settled || some.lower === HIGHEST_RANK) return { settled: false, holds: true }
  if (!(concernQuestion in part.answers)) return { settled: true, holds: false }
  const all = standingOf(protocol, withoutForeign(whole), now)
  const holds = protocol.rules.every(
    (rule, at) => !inScope(rule, some.chosen) || givenAt(lowOf(all.intervals[at]!), rule) <= some.lower,
  )
  return { settled: true, holds }
}

/** Any case with nothing ticked on the danger screens and most else mild, so that parts of it can settle. */
function calmCase(roll: Dice): CaseFile {
  const whole = anyCase(logic, roll)
  const mild = mildestAnswers(logic, NOW)
  const answers = Object.fromEntries(
    logic.questions.flatMap(({ id, phase, kind }): [string, Answer][] => {
      const calm = phase === 'danger' || roll(kind === 'several' ? 8 : 3) > 0
      const said = (calm ? mild[id] : undefined) ?? whole.answers[id]
      return said ? [[id, said]] : []
    }),
  )
  return { ...whole, answers }
}

const someOf = (roll: Dice, outOf: number) => () => roll(outOf) > 0

describe('law 12', () => {
  test('the empty case is not settled', () => {
    const empty = { animal: {}, answers: {}, weighIns: [], events: [], readings: [] }
    expect(standingOf(protocol, empty, NOW).settled).toBe(false)
  })
  const written = [...publishedCases, ...patterns].map(({ id, caseFile, now }) => {
    const read = readCaseFile(logic, caseFile, now)
    if (!read.ok) throw new Error(`${id}: ${JSON.stringify(read.faults)}`)
    return { id, caseFile: read.value, now }
  })
  test('no part of a published case or named pattern is settled below what its rules in scope give in full', () => {
    let settled = 0
    written.forEach(({ id, caseFile, now }, seed) => {
      const roll = seededDice(seed)
      const parts = [
        caseFile,
        ...Object.keys(caseFile.answers).map(gone => partOf(caseFile, question => question !== gone)),
        ...Array.from({ length: 12 }, (_, at) => partOf(caseFile, someOf(roll, 2 + at))),
      ]
      for (const part of parts) {
        const law = holdsFor(caseFile, part, now)
        expect(law.holds, `${id}: ${JSON.stringify(part.answers)}`).toBe(true)
        if (law.settled) settled += 1
      }
    })
    expect(settled).toBeGreaterThan(written.length)
  })
  test('no part of any case is', () => {
    let settled = 0
    for (let seed = 0; seed < 400; seed += 1) {
      const roll = seededDice(seed)
      const whole = seed % 4 === 0 ? anyCase(logic, roll) : calmCase(roll)
      for (let at = 0; at < 5; at += 1) {
        const part = partOf(whole, someOf(roll, 4 + 40 * at))
        const law = holdsFor(whole, part, NOW)
        expect(law.holds, `${seed}: ${JSON.stringify(part.answers)}`).toBe(true)
        if (law.settled) settled += 1
      }
    }
    expect(settled).toBeGreaterThan(20)
  })
  test('what cannot be measured gives no more than any measurement would', () => {
    const measured = logic.questions.filter(({ cannotMeasure }) => cannotMeasure).map(({ id }) => id)
    for (let seed = 0; seed < 300; seed += 1) {
      const roll = seededDice(seed)
      const whole = withoutForeign(anyCase(logic, roll))
      const unmeasured = measured.filter(id => id in whole.answers && roll(2) === 0)
      const unknown = Object.fromEntries(
        unmeasured.map(id => [id, { kind: 'cannot-measure', given: NOW.instant } as const]),
      )
      const weighIns = weightQuestions.some(id => unmeasured.includes(id)) ? [] : whole.weighIns
      const without = { ...whole, answers: { ...whole.answers, ...unknown }, weighIns }
      const { lower } = standingOf(protocol, without, NOW)
      expect(lower, String(seed)).toBeLessThanOrEqual(standingOf(protocol, whole, NOW).lower)
    }
  })
})
