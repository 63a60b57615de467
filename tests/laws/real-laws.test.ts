import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import { HIGHEST_RANK, type Level, rankOf, URGENCIES } from '../../shared/urgency.ts'
import { assess } from '../../src/triage/assess.ts'
import { mattering, standingOf } from '../../src/triage/bounds.ts'
import { mergeCare, type PlansInPlay } from '../../src/triage/care.ts'
import { intervalOf, lowOf, TRUE } from '../../src/triage/intervals.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { anyAnswer as anyAnswerOf, anyCase as anyCaseOf } from './any-answer.ts'
import { mildestAnswers } from './mildest.ts'
import { type Dice, dice, NOW, one, randomLogic, seededDice } from './random-protocol.ts'
import { realProtocol } from './real-protocol.ts'

const protocol = realProtocol()
const { logic } = protocol
const given = NOW.instant
const seed = 20_261_125

const anyAnswer = (roll: Dice, index: number) => anyAnswerOf(logic, roll, index)
/** A case file without weigh-ins. */
const anyCase = (roll: Dice, missing = 0): CaseFile => ({ ...anyCaseOf(logic, roll, missing), weighIns: [] })

describe('the real protocol', () => {
  test('law 1: a complete case has the highest urgency of its reasons', () => {
    fc.assert(
      fc.property(dice, roll => {
        const result = assess(protocol, anyCase(roll), NOW)
        expect(result.settled).toBe(true)
        const highest = Math.max(...result.reasons.map(({ level }) => rankOf(level as Level)))
        expect(
          rankOf({
            urgency: result.urgency!,
            ...(result.withinHours === undefined ? {} : { withinHours: result.withinHours }),
          }),
        ).toBe(highest)
      }),
      { numRuns: 300, seed, endOnFailure: true },
    )
  })
  test('law 1: a weigh-in added to a case without any settles what was open and never lowers the urgency', () => {
    fc.assert(
      fc.property(dice, fc.integer({ min: 30, max: 60 }), (roll, newest) => {
        const before = anyCase(roll, 3)
        const weighIns: WeighIn[] = [
          { at: '2026-11-10T02:10:00Z', massGrams: 60 },
          { at: '2026-11-25T01:10:00Z', massGrams: newest },
        ]
        expect(standingOf(protocol, { ...before, weighIns }, NOW).lower).toBeGreaterThanOrEqual(
          standingOf(protocol, before, NOW).lower,
        )
      }),
      { numRuns: 300, seed, endOnFailure: true },
    )
  })
  test('law 2: a worse answer never lowers the urgency', () => {
    fc.assert(
      fc.property(dice, roll => {
        const before = anyCase(roll)
        const index = roll(logic.questions.length)
        const question = logic.questions[index]!
        const answer = before.answers[question.id]
        let worse: Answer | undefined
        if (answer?.kind === 'several')
          worse = { ...answer, chosen: [...new Set([...answer.chosen, one(roll, question.options)])] }
        if (answer?.kind === 'choice' && logic.facts[question.fact]!.ordered) {
          const more = question.options.slice(question.options.indexOf(answer.choice) + 1)
          worse = more.length > 0 ? { ...answer, choice: one(roll, more) } : undefined
          if (question.cannotTell && answer.choice === question.options[0] && roll(2) === 0)
            worse = { kind: 'cannot-tell', given }
        }
        if (!worse) return
        const after = { ...before, answers: { ...before.answers, [question.id]: worse } }
        expect(standingOf(protocol, after, NOW).lower).toBeGreaterThanOrEqual(
          standingOf(protocol, before, NOW).lower,
        )
      }),
      { numRuns: 3000, seed, endOnFailure: true },
    )
  })
  test('law 4: where the questions stop, 40 ways of answering the rest of the chosen concerns change nothing', () => {
    fc.assert(
      fc.property(dice, roll => {
        const answers: Record<string, Answer> = {}
        for (;;) {
          const [next] = mattering(
            protocol,
            standingOf(protocol, { animal: {}, answers, weighIns: [], events: [], readings: [] }, NOW),
          )
          if (next === undefined) break
          const { id, phase, kind } = logic.questions[next]!
          const calm = mildestAnswers(logic, NOW)[id]
          answers[id] = (phase === 'danger' || (kind === 'several' && roll(3) > 0) ? calm : undefined) ??
            anyAnswer(roll, next) ?? { kind: 'cannot-measure', given }
        }
        const end = standingOf(protocol, { animal: {}, answers, weighIns: [], events: [], readings: [] }, NOW)
        expect(end.settled).toBe(true)
        if (end.lower === HIGHEST_RANK) return
        for (let at = 0; at < 40; at += 1) {
          const { answers: others } = anyCase(roll)
          const own = Object.entries(others).filter(([id]) => {
            const { concern } = logic.questions.find(question => question.id === id)!
            return concern === undefined || end.chosen[logic.concerns.indexOf(concern)]
          })
          const full = standingOf(
            protocol,
            {
              animal: {},
              answers: { ...Object.fromEntries(own), ...answers },
              weighIns: [],
              events: [],
              readings: [],
            },
            NOW,
          )
          expect(full.upper === end.upper || full.lower > full.upper || outOfScopeOnly(full, end.lower)).toBe(
            true,
          )
        }
      }),
      { numRuns: 60, seed, endOnFailure: true },
    )
  })
  test('law 6: the same input gives the same JSON, in any order of keys and any time zone of the machine', () => {
    const zone = process.env['TZ']
    try {
      for (let at = 0; at < 40; at += 1) {
        const caseFile = anyCase(seededDice(at), 4)
        process.env['TZ'] = 'Australia/Lord_Howe'
        const first = JSON.stringify(assess(protocol, caseFile, NOW))
        process.env['TZ'] = 'America/New_York'
        const turned = {
          ...caseFile,
          answers: Object.fromEntries(Object.entries(structuredClone(caseFile.answers)).reverse()),
        }
        expect(JSON.stringify(assess(prepare(structuredClone(logic)), turned, { ...NOW }))).toBe(first)
      }
    } finally {
      if (zone === undefined) delete process.env['TZ']
      else process.env['TZ'] = zone
    }
  })
  test('law 7: every reason holds by its grounds, each ground is needed, and every outcome has one', () => {
    fc.assert(
      fc.property(dice, roll => {
        const caseFile = anyCase(roll)
        const result = assess(protocol, caseFile, NOW)
        expect(result.reasons.length).toBeGreaterThan(0)
        for (const reason of result.reasons) {
          expect(reason.because.length).toBeGreaterThan(0)
          expect(new Set(reason.because.map(({ fact }) => fact)).size).toBe(reason.because.length)
          const { when } = logic.rules.find(({ id }) => id === reason.rule)!
          const { known } = standingOf(protocol, caseFile, NOW)
          const kept = new Set(reason.because.map(({ fact }) => fact))
          const without = (left: string | undefined) => {
            const lowOptions = known.lowOptions.map((bits, fact) =>
              kept.has(logic.facts[fact]!.id) && logic.facts[fact]!.id !== left ? bits : 0,
            )
            const lowRest = known.lowRest.map((rest, fact) =>
              kept.has(logic.facts[fact]!.id) && logic.facts[fact]!.id !== left ? rest : 0,
            )
            return lowOf(intervalOf(when!, { ...known, lowOptions, lowRest }))
          }
          const end = reason.unsure ? 1 : TRUE
          expect(without(undefined), `${reason.rule} by its grounds`).toBe(end)
          for (const { fact } of reason.because)
            expect(without(fact), `${reason.rule} without ${fact}`).toBeLessThan(end)
        }
      }),
      { numRuns: 100, seed, endOnFailure: true },
    )
  })
  test('law 11: no pair of plans leaves two opposite steps, or a step beside a never-do of the same act and part', () => {
    const standings = [
      standingOf(
        protocol,
        { animal: {}, answers: mildestAnswers(logic, NOW), weighIns: [], events: [], readings: [] },
        NOW,
      ),
      standingOf(protocol, { animal: {}, answers: {}, weighIns: [], events: [], readings: [] }, NOW),
    ]
    let pairs = 0
    const contradictions: string[] = []
    for (const first of logic.carePlans)
      for (const second of logic.carePlans) {
        const ids = (kind: string) => [first, second].filter(plan => plan.kind === kind).map(({ id }) => id)
        const plans: PlansInPlay = { firstAid: ids('first-aid'), holding: ids('holding'), home: ids('home') }
        for (const standing of standings)
          for (const urgency of URGENCIES) {
            const care = mergeCare(protocol, standing, plans, { urgency })
            const shown = [...care.firstAid, ...care.holding, ...care.steps].map(
              ({ plan, item }) =>
                logic.carePlans.find(({ id }) => id === plan)!.steps.find(({ id }) => id === item)!,
            )
            const nevers = care.nevers.map(
              ({ plan, item }) =>
                logic.carePlans.find(({ id }) => id === plan)!.nevers.find(({ id }) => id === item)!,
            )
            for (const step of shown) {
              if (nevers.some(({ act, part }) => act === step.act && part === step.part))
                contradictions.push(`${first.id} ${second.id} ${step.id}: a never-do`)
              for (const [one, other] of logic.opposites)
                if (step.act === one && shown.some(({ act }) => act === other))
                  contradictions.push(`${first.id} ${second.id} ${step.id}: ${other}`)
            }
          }
        pairs += 1
      }
    expect(contradictions).toEqual([])
    expect(pairs).toBe(logic.carePlans.length ** 2)
  })
})

/** Whether only rules of concerns that were not chosen lift a case above `rank`; they count once they hold, but ask nothing. */
function outOfScopeOnly(standing: ReturnType<typeof standingOf>, rank: number): boolean {
  return protocol.rules.every((rule, index) => {
    const low = lowOf(standing.intervals[index]!)
    const gives = low === TRUE ? rule.rank : low > 0 ? rule.floorRank : 0
    return gives <= rank || (rule.concernIndex >= 0 && !standing.chosen[rule.concernIndex])
  })
}

test('a look-again time in the morning is today before the morning hour and tomorrow after it', () => {
  const invented = randomLogic(seededDice(3))
  const base = invented.rules.find(({ origin, concern }) => origin === 'base' && concern === 'first')!
  const plan = {
    id: 'plan',
    kind: 'home' as const,
    steps: [],
    nevers: [],
    lookAgain: [{ morning: 1 }, { hours: 2 }, { day: 1 }],
  }
  const morning = prepare({ ...invented, carePlans: [plan], rules: [{ ...base, care: ['plan'] }] })
  const caseFile: CaseFile = {
    animal: {},
    answers: { concern: { kind: 'several', chosen: ['first'], rest: 'no', given } },
    weighIns: [],
    events: [],
    readings: [],
  }
  const looks = (instant: string) =>
    assess(morning, caseFile, { instant, zone: 'Europe/London' }).lookAgain.map(({ at }) => at)
  expect(looks('2026-11-25T02:10:00Z')).toEqual([
    '2026-11-25T04:10:00.000Z',
    '2026-11-25T08:00:00.000Z',
    '2026-11-26T19:00:00.000Z',
  ])
  expect(looks('2026-11-25T08:00:00Z')).toContain('2026-11-26T08:00:00.000Z')
  expect(looks('2026-10-24T21:00:00Z')).toContain('2026-10-25T08:00:00.000Z')
})
