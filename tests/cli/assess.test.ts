import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'

const NOW = ['--now', '2026-11-25T02:10:00Z', '--zone', 'Europe/London']

function assessed(input: string, words: readonly string[] = ['-', ...NOW]) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'assess', ...words], { input, encoding: 'utf8' })
}

test('an empty case file gives an unsettled assessment, a next question and exit code 0', () => {
  const run = assessed('{}')
  expect(run.status).toBe(0)
  const assessment = JSON.parse(run.stdout)
  expect(assessment.settled).toBe(false)
  expect(assessment.urgency).toBeUndefined()
  expect(assessment.nextQuestion).toEqual(expect.any(String))
})

test('a danger sign gives now and exit code 0', () => {
  const run = assessed(JSON.stringify({ answers: { 'look-blood': ['bleeding'] } }))
  expect(run.status).toBe(0)
  expect(JSON.parse(run.stdout)).toMatchObject({ settled: true, urgency: 'now' })
})

test('the same case prints the same bytes twice', () => {
  const input = JSON.stringify({ answers: { 'look-blood': ['bleeding'] } })
  expect(assessed(input).stdout).toBe(assessed(input).stdout)
})

test('bad input exits with 2 and one line for each fault: field, value, accepted', () => {
  const run = assessed(
    JSON.stringify({
      answers: { reaction: 'bouncy', unheard: 'of' },
      weighIns: [{ at: '2026-11-24T20:00:00Z', massGrams: 60 }],
    }),
  )
  expect(run.status).toBe(2)
  expect(run.stdout).toBe('')
  expect(run.stderr.trim().split('\n')).toEqual([
    'answers.reaction: given: bouncy; accepted: one option of as-usual, slower, only-lifts-head, no-reaction; cannot-tell',
    'answers.unheard: given: unheard; accepted: the id of a question of this protocol',
  ])
})

test.each([
  [
    'a weight of zero',
    { weighIns: [{ at: '2026-11-24T20:00:00Z', massGrams: 0 }] },
    'weighIns.0.massGrams: given: 0; accepted: more than 0',
  ],
  [
    'a weight of 6000 g',
    { weighIns: [{ at: '2026-11-24T20:00:00Z', massGrams: 6000 }] },
    'weighIns.0.massGrams: given: 6000; accepted: at most 500',
  ],
  [
    'a weigh-in in the future',
    { weighIns: [{ at: '2027-01-01T00:00:00Z', massGrams: 60 }] },
    'weighIns.0.at: given: 2027-01-01T00:00:00Z; accepted: an instant not after 2026-11-25T02:10:00Z',
  ],
  [
    'a hatch date in the future',
    { animal: { hatchedOn: '2027-01-01' } },
    'animal.hatchedOn: given: 2027-01-01; accepted: a day not after 2026-11-25',
  ],
  [
    'a field nobody knows',
    { mood: 'bad' },
    'case file: given: mood; accepted: only the fields of the published schema',
  ],
])('%s is named with what is accepted', (_, caseFile, line) => {
  const run = assessed(JSON.stringify(caseFile))
  expect(run.status).toBe(2)
  expect(run.stderr.trim()).toBe(line)
})

test('text that is not JSON, a file that is not there and an unknown zone are each named', () => {
  expect(assessed('not json').stderr).toMatch(/^file: given: -; accepted: JSON/)
  expect(assessed('', ['no-such-file.json']).stderr).toMatch(
    /^file: given: no-such-file.json; accepted: a file that can be read/,
  )
  expect(assessed('{}', ['-', '--zone', 'Atlantis/Old']).stderr).toBe(
    'now.zone: given: Atlantis/Old; accepted: an IANA time zone such as Europe/London\n',
  )
  expect(assessed('{}', ['-', '--now', 'tonight']).stderr).toBe(
    '--now: given: tonight; accepted: an instant such as 2026-11-25T02:10:00Z\n',
  )
})

test('--text prints danger signs first and this guide’s own urgency last', () => {
  const { stdout } = assessed(JSON.stringify({ answers: { 'look-blood': ['bleeding'] } }), [
    '-',
    ...NOW,
    '--text',
  ])
  expect(stdout.indexOf('Danger signs that are there')).toBeGreaterThan(0)
  expect(stdout.indexOf('What this guide made of it')).toBeGreaterThan(stdout.indexOf('Never'))
})
