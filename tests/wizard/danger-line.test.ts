import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Answer } from '../../shared/case-file.ts'
import type { DangerPart, Logic, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { dangerPartOf } from '../../src/protocol/danger-part.ts'
import { standingOf } from '../../src/triage/bounds.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import { type DangerLine, dangerLine, lineAfter } from '../../src/wizard/danger-line.ts'
import { logOfStart } from '../../src/wizard/log.ts'
import { type WizardMachine, wizardMachine } from '../../src/wizard/machine.ts'
import { type Dice, dice, NOW, one, randomLogic } from '../laws/random-protocol.ts'
import { realProtocol } from '../laws/real-protocol.ts'
import { wizardOf } from './drive.ts'

const real = realProtocol()
const realMachine = wizardMachine(real)

const later = (now: Moment, hours: number): Moment => ({
  ...now,
  instant: new Date(Date.parse(now.instant) + hours * 3_600_000).toISOString(),
})

/** Any answer to a danger screen, "none of these" more often than not so that walks grow long. */
function drawn(roll: Dice, { options, cannotTell }: Question, given: string): Answer {
  const kind = roll(8)
  if (kind === 0 && cannotTell) return { kind: 'cannot-tell', given }
  const chosen = options.filter(() => kind < 3 && roll(options.length) === 0)
  return { kind: 'several', chosen, rest: cannotTell && kind === 4 ? 'cannot-tell' : 'no', given }
}

/** Where a line stands, in the words of the chart. */
const standOf = ({ screen, draft, log, ended }: DangerLine) => ({
  shown: screen?.id,
  draft: draft?.answer,
  log,
  ended,
})

/** Walks line and chart together and holds them against each other; returns how many answers were given. */
function walkBoth(
  part: DangerPart,
  protocol: Protocol,
  roll: Dice,
  machine: WizardMachine = wizardMachine(protocol),
): number {
  let now = NOW
  const { logic } = protocol
  const concern = roll(2) === 0 ? { concerns: [one(roll, logic.concerns)] } : {}
  const log = logOfStart(part, { thisAnimal: roll(4) > 0, ...concern }, now.instant)
  const door = roll(2) === 0 ? { question: one(roll, part.screens).id } : {}
  const wizard = wizardOf(protocol, now, undefined, machine, log)
  let line = dangerLine(log, now)
  const send = (event: Parameters<typeof lineAfter>[2]) => {
    wizard.send(event)
    line = lineAfter(part, line, event)
  }
  const compare = () => {
    const { context } = wizard.snapshot()
    const shown = wizard.shown()
    expect(standOf(line)).toEqual({
      shown: shown?.phase === 'danger' ? shown.id : undefined,
      draft: shown?.phase === 'danger' ? context.draft?.answer : undefined,
      log: context.log,
      // Reached by the danger screens alone, and said only while nothing is shown again.
      ended: line.screen ? false : standingOf(protocol, context.caseFile, context.now).lower === HIGHEST_RANK,
    })
    // What takes the log over stands where the one stands that took every step.
    if (line.screen) return
    const replayed = wizardOf(protocol, now, undefined, machine, line.log)
    replayed.send({ type: 'START', now })
    expect(replayed.snapshot().value).toEqual(wizard.snapshot().value)
    expect(replayed.snapshot().context.caseFile).toEqual(context.caseFile)
    replayed.stop()
  }
  send({ type: 'START', now, ...door })
  compare()
  let answers = 0
  while (line.screen && answers < 40) {
    now = later(now, roll(6) === 0 ? 1.5 : 0.01)
    send({
      type: 'ANSWER',
      now,
      entry: { question: line.screen.id, answer: drawn(roll, line.screen, now.instant) },
    })
    answers += 1
    compare()
    if (roll(5) === 0) {
      send({ type: 'BACK', now })
      compare()
    }
  }
  wizard.stop()
  return answers
}

describe('the danger line leads as the whole protocol does', () => {
  test('in 1,000 walks through the real danger screens, by any door, with Back and with answers that lapse', () => {
    const part = dangerPartOf(real.logic)
    expect(part.screens.length).toBe(real.logic.questions.filter(({ phase }) => phase === 'danger').length)
    let longest = 0
    fc.assert(
      fc.property(dice, roll => {
        longest = Math.max(longest, walkBoth(part, real, roll, realMachine))
      }),
      { numRuns: 1000, seed: 20_261_125, endOnFailure: true },
    )
    expect(longest).toBeGreaterThan(part.screens.length)
  }, 60_000)

  test('in invented protocols that have a danger part', () => {
    let walked = 0
    fc.assert(
      fc.property(dice, roll => {
        const logic = randomLogic(roll)
        const part = dangerPartOf(logic)
        if (part.screens.length === 0) return
        walked += 1
        walkBoth(part, prepare(logic), roll)
      }),
      { numRuns: 2000, seed: 20_261_125, endOnFailure: true },
    )
    expect(walked).toBeGreaterThan(100)
  }, 60_000)
})

describe('the danger part', () => {
  /** The real logic with one change to its rules. */
  const changed = (change: (logic: Logic) => Partial<Logic>): Logic => ({
    ...real.logic,
    ...change(real.logic),
  })

  test('does not grow with the concerns', () => {
    const size = (logic: Logic) => JSON.stringify({ ...dangerPartOf(logic), hash: '' }).length
    const fewer = changed(({ rules, questions, concerns }) => ({
      rules: rules.filter(({ concern }) => concern === undefined || concern === concerns[0]),
      concerns: concerns.slice(0, 1),
      questions,
    }))
    expect(size(real.logic) - size(fewer)).toBeLessThan(100)
  })

  test('has no screens where one of them has no sign at now', () => {
    const mild = changed(({ rules }) => ({
      rules: rules.map(rule =>
        rule.origin === 'sign' ? { ...rule, level: { urgency: 'day' as const, withinHours: 24 } } : rule,
      ),
    }))
    expect(dangerPartOf(mild).screens).toEqual([])
  })

  test('has no screens where the concern itself can end the questions', () => {
    const [first] = real.logic.rules
    const rule = {
      ...first!,
      level: { urgency: 'now' as const, withinHours: 0 },
      when: { kind: 'atom' as const, fact: real.logic.concernQuestion, options: 1 },
    }
    expect(dangerPartOf(changed(({ rules }) => ({ rules: [...rules, rule] }))).screens).toEqual([])
  })
})
