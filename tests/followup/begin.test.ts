import { expect, test } from 'vitest'
import { EMPTY_CASE_FILE } from '../../shared/answers.ts'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import { plansToBegin, replacedBy, startOf } from '../../src/followup/begin.ts'
import { standingOfPlan } from '../../src/followup/standing.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { at, realPlan, realProtocol, STAMP, Story } from './invented.ts'

const { logic, followUps } = realProtocol()
const protocol = prepare(logic)
const now = at('2026-11-25T20:00:00Z')
const given = now.instant
const choice = (option: string): Answer => ({ kind: 'choice', choice: option, given })

function started(plan: string, answers: Record<string, Answer>) {
  const caseFile: CaseFile = { ...EMPTY_CASE_FILE, answers }
  return startOf(protocol, realPlan(plan), { runId: 'run', animalId: 'animal', stamp: STAMP, now, caseFile })
}

test('a soak takes over from the damp hide, so that no place is asked for twice', () => {
  const ids = plansToBegin(followUps, ['home-shed-damp-hide', 'home-shed-soak', 'home-weight', 'hold-any'])
  expect(ids.map(({ id }) => id)).toEqual(['home-shed-soak', 'home-weight'])
})

test('the places that were ticked are looked at one by one', () => {
  const places: Answer = { kind: 'several', chosen: ['toes', 'eye'], rest: 'no', given }
  expect(
    started('home-shed-soak', { concern: { ...places, chosen: ['retained-shed'] }, 'shed-where': places })
      .spots,
  ).toEqual(['toes', 'eye'])
})

test('a moment told with uncertainty counts from its earliest', () => {
  const began: Answer = { kind: 'since', began: '2026-11-20T20:00:00Z', uncertaintyHours: 24, given }
  expect(started('home-eating-adult', { 'last-meal': began }).since).toEqual({
    'last-meal': '2026-11-19T20:00:00.000Z',
  })
})

test('an age that is not known takes the limits of the young, a grown one does not', () => {
  const concern: Answer = { kind: 'several', chosen: ['retained-shed'], rest: 'no', given }
  const where: Answer = { ...concern, chosen: ['toes'] }
  const since: Answer = { kind: 'since', began: '2026-11-25T08:00:00Z', uncertaintyHours: 12, given }
  const base = { concern, 'shed-where': where, 'shed-since': since }
  expect(started('home-shed-soak', { ...base, age: choice('adult') }).limits).toEqual([])
  expect(started('home-shed-soak', { ...base, age: choice('juvenile') }).limits).toEqual(['under-a-year'])
  expect(started('home-shed-soak', base).limits).toEqual(['under-a-year'])
  expect(
    started('home-shed-soak', { ...base, age: choice('adult'), 'shed-since': choice('not-known') }).limits,
  ).toEqual(['age-not-known'])
})

test('a winter rest that nobody measured the warmth of has the ordinary two weeks', () => {
  const concern: Answer = { kind: 'several', chosen: ['not-eating'], rest: 'no', given }
  const none: Answer = { ...concern, chosen: [] }
  const rest = {
    concern,
    age: choice('adult'),
    appetite: choice('nothing'),
    'normal-cause': choice('winter'),
    thinness: choice('filled-out'),
    also: none,
    'eating-so-far': none,
    hemisphere: choice('north'),
  }
  const measured: Answer = { kind: 'amount', amount: 32, given }
  const limits = (answers: Record<string, Answer>) => started('home-eating-season', answers).limits
  expect(limits({ ...rest, 'warm-spot': { kind: 'cannot-measure', given } })).toContain('one-missing')
  expect(limits({ ...rest, 'warm-spot': measured })).not.toContain('one-missing')
  expect(limits({ ...rest, 'warm-spot': measured, thinness: choice('thin') })).toContain('one-missing')
})

test('a plan that begins ends those it takes over from, of the same animal only', () => {
  const old = new Story(realPlan('home-shed-damp-hide'), 'old').start('2026-11-24T20:00:00Z')
  const plan = realPlan('home-shed-soak')
  const start = { ...started('home-shed-soak', {}), animalId: 'animal-1' }
  const runs = [{ plan: old.plan.id, events: old.events, isOver: false }]
  const ending = replacedBy(plan, start, runs)
  expect(standingOfPlan(old.plan, [...old.events, ...ending], now)).toMatchObject({
    state: 'ended',
    ended: 'replaced',
  })
  expect(replacedBy(plan, { ...start, animalId: 'animal-2' }, runs)).toEqual([])
  expect(
    replacedBy(plan, start, [{ ...runs[0], plan: old.plan.id, events: old.events, isOver: true }]),
  ).toEqual([])
})

test('a limit that a newer protocol has lost makes every limit count', () => {
  const plan = realPlan('home-eating-young')
  const story = new Story(plan).start('2026-11-01T19:00:00Z', {
    since: { 'last-meal': '2026-11-01T19:00:00Z' },
    limits: ['a-limit-of-an-older-version'],
  })
  expect(standingOfPlan(plan, story.events, at('2026-11-02T19:00:00Z')).limitAt).toBe(
    '2026-11-04T00:00:00.000Z',
  )
})
