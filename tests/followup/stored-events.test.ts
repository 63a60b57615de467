import { expect, test } from 'vitest'
import { followUpEventSchema } from '../../shared/follow-up-event.ts'
import { INVENTED_PLAN, Story } from './invented.ts'

const [started] = new Story(INVENTED_PLAN).start('2026-11-10T09:00:00Z').events

test('an event that was written is read back as it was', () => {
  expect(followUpEventSchema.parse(JSON.parse(JSON.stringify(started)))).toEqual(started)
})

test.each([
  ['a later form', { form: 2 }],
  ['a time that is none', { at: 'yesterday' }],
  ['no zone', { zone: '' }],
  ['a place before the first', { seq: -1 }],
  ['a kind nobody knows', { kind: 'forgotten' }],
  ['a field nobody knows', { mood: 'good' }],
  ['a name longer than any of ours', { runId: 'x'.repeat(65) }],
])('an event with %s is refused', (_what, wrong) => {
  expect(followUpEventSchema.safeParse({ ...started, ...wrong }).success).toBe(false)
})
