import fc from 'fast-check'
import { expect, test } from 'vitest'
import { createActor } from 'xstate'
import type { Answer } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import { type WizardEvent, wizardChart } from '../../src/wizard/chart.ts'
import { wizardMachine } from '../../src/wizard/machine.ts'
import { chartWalk, type Standpoint } from '../../src/wizard/walk.ts'
import { answersTo, type Dice, dice, NOW, one, randomLogic } from '../laws/random-protocol.ts'
import { realProtocol } from '../laws/real-protocol.ts'
import { saysNothing } from './drive.ts'

/** Later by up to two days, so that answers lapse. */
function later({ instant, zone }: Moment, roll: Dice): Moment {
  const hours = roll(3) === 0 ? roll(48) : 0
  return { instant: new Date(Date.parse(instant) + hours * 3_600_000).toISOString(), zone }
}

/** A long list has more answers than can be listed: there one line is chosen. */
function anyAnswer(question: Question, roll: Dice): Answer {
  if (question.kind === 'several' && question.options.length > 4)
    return { kind: 'several', chosen: [one(roll, question.options)], rest: 'no', given: NOW.instant }
  const answers = answersTo(question)
  return answers.length > 0 ? one(roll, answers) : saysNothing(question, NOW.instant)
}

/** Any event that a screen can send, and some that none would send there. */
function anyEvent(protocol: Protocol, shown: string | undefined, now: Moment, roll: Dice): WizardEvent {
  const { questions } = protocol.logic
  const kind = roll(16)
  if (kind === 0) return { type: 'BACK', now }
  // A question of care has no screen of its own, so that nothing leads there.
  const screens = questions.filter(({ phase }) => phase !== 'care')
  if (kind === 1) return { type: 'GO', question: one(roll, screens).id, now }
  if (kind === 2) return { type: 'DETAILS', now }
  if (kind === 3) return { type: 'SKIP', now }
  if (kind === 4) return { type: 'START', now, ...(roll(2) === 0 ? { question: one(roll, screens).id } : {}) }
  const asked = kind === 5 ? undefined : questions.find(({ id }) => id === shown)
  const question = asked ?? one(roll, questions)
  const answer = roll(3) === 0 ? anyAnswer(question, roll) : saysNothing(question, now.instant)
  return { type: 'ANSWER', entry: { question: question.id, answer: { ...answer, given: now.instant } }, now }
}

const tagOf = ({ states }: Standpoint) => states.at(-1)?.tags?.[0]
const shownBy = ({ states }: Standpoint) => states.at(-1)?.meta?.question

/** Sends both the same events; returns what the library showed after each. */
function compare(protocol: Protocol, roll: Dice, machine: ReturnType<typeof wizardMachine>, events: number) {
  const actor = createActor(machine, { input: { now: NOW } })
  actor.start()
  const walk = chartWalk(wizardChart(protocol))
  let own = walk.begin({ now: NOW })
  let now = NOW
  const seen = new Set<string>()
  for (let at = 0; at <= events; at += 1) {
    const snapshot = actor.getSnapshot()
    expect(tagOf(own)).toBe([...snapshot.tags][0])
    const metas: ({ readonly question?: string } | undefined)[] = Object.values(snapshot.getMeta())
    expect(shownBy(own)).toBe(metas.find(meta => meta?.question !== undefined)?.question)
    expect(own.context).toEqual(snapshot.context)
    seen.add(tagOf(own) ?? '')
    now = later(now, roll)
    const event = anyEvent(protocol, shownBy(own), now, roll)
    actor.send(event)
    own = walk.after(own, event)
  }
  actor.stop()
  return seen
}

const real = realProtocol()
const realMachine = wizardMachine(real)

test('the page walks the chart of the real protocol as the statechart library does, whatever is sent', () => {
  const seen = new Set<string>()
  fc.assert(
    fc.property(dice, roll => {
      for (const tag of compare(real, roll, realMachine, 60)) seen.add(tag)
    }),
    { numRuns: 150, seed: 20_261_125, endOnFailure: true },
  )
  expect([...seen].sort()).toEqual(['outcome', 'question', 'start'])
}, 60_000)

test('the page walks charts of invented protocols as the statechart library does, whatever is sent', () => {
  const seen = new Set<string>()
  fc.assert(
    fc.property(dice, roll => {
      const protocol = prepare(randomLogic(roll))
      for (const tag of compare(protocol, roll, wizardMachine(protocol), 60)) seen.add(tag)
    }),
    { numRuns: 150, seed: 20_261_125, endOnFailure: true },
  )
  expect([...seen].sort()).toEqual(['outcome', 'question', 'start'])
}, 60_000)
