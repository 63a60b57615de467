import { expect, test } from 'vitest'
import type { FollowUps } from '../../shared/follow-up.ts'
import { opensOn, runsOf } from '../../src/followup/overview.ts'
import { at, INVENTED_PLAN, Story } from './invented.ts'

const followUps: FollowUps = { hash: '', plans: { [INVENTED_PLAN.id]: INVENTED_PLAN }, words: {} }
const now = at('2026-11-10T12:00:00Z')
const run = (id: string) => new Story(INVENTED_PLAN, id)
const order = (...stories: Story[]) =>
  runsOf(
    followUps,
    stories.flatMap(({ events }) => events),
    now,
  ).runs.map(({ runId, standing }) => `${runId} ${standing.state}`)

const due = () => run('due').start('2026-11-10T09:00:00Z')
const raised = () => run('raised').start('2026-11-09T09:00:00Z').look('2026-11-10T10:00:00Z', 'redder')
const checking = () => run('checking').start('2026-11-09T09:00:00Z').look('2026-11-10T11:00:00Z', 'worse')
const passed = () => run('passed').start('2026-11-01T09:00:00Z')
const ended = () =>
  run('ended')
    .start('2026-11-01T09:00:00Z')
    .add('2026-11-02T09:00:00Z', { kind: 'stopped', because: 'owner' })
const quiet = () => run('quiet').start('2026-11-10T09:00:00Z').look('2026-11-10T11:30:00Z', 'same')

test('several plans of one animal stand side by side, the most pressing first', () => {
  expect(order(quiet(), ended(), due(), raised(), passed(), checking())).toEqual([
    'checking danger-check',
    'raised raised',
    'passed limit-passed',
    'due look-due',
    'quiet under-way',
    'ended ended',
  ])
})

test('the page opens on the most pressing plan, and on none where nothing is due', () => {
  const opens = (...stories: Story[]) =>
    opensOn(
      runsOf(
        followUps,
        stories.flatMap(({ events }) => events),
        now,
      ).runs,
    )?.runId
  expect(opens(quiet(), ended())).toBeUndefined()
  expect(opens(quiet(), due())).toBe('due')
  expect(opens(due(), passed())).toBe('passed')
  // A last look that is due is asked for too, though its plan has closed.
  expect(
    opens(quiet(), run('better').start('2026-11-01T09:00:00Z').look('2026-11-02T09:00:00Z', 'gone')),
  ).toBe('better')
})

test('a run whose plan or beginning is missing is handed back, not dropped', () => {
  const other = run('gone').start('2026-11-10T09:00:00Z', { plan: 'a-plan-of-before' })
  const headless = run('headless').start('2026-11-10T09:00:00Z').look('2026-11-10T11:30:00Z', 'same')
  const { runs, lost } = runsOf(followUps, [...other.events, ...headless.events.slice(1)], now)
  expect(runs).toEqual([])
  expect(lost).toEqual([
    { runId: 'gone', plan: 'a-plan-of-before' },
    { runId: 'headless', plan: '' },
  ])
})
