import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'

const folder = mkdtempSync(join(tmpdir(), 'enclosure-'))
afterAll(() => rmSync(folder, { recursive: true }))

function enclosure(words: readonly string[], input = '') {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', 'tsx', 'src/cli/enclosure.ts', ...words],
    { encoding: 'utf8', input },
  )
  return { status, stdout, lines: stderr.trim().split('\n') }
}
function file(name: string, text: string): string {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

const CSV = 'Date,Temperature\n2026-05-04 10:00,75\n2026-05-04 11:00,77\n'

describe('npm run -s enclosure', () => {
  it('prints the check as JSON, ranked by the concern, with the logger beside', () => {
    const input = JSON.stringify({
      answers: { 'warm-spot': 26, 'damp-hide': 'none' },
      logger: { place: 'at-cool-end', temperatureUnit: 'fahrenheit' },
    })
    const { status, stdout } = enclosure(
      ['-', '--concern', 'retained-shed', '--logger', file('log.csv', CSV)],
      input,
    )
    expect(status).toBe(0)
    const printed = JSON.parse(stdout)
    expect(printed.faults.map(({ id }: { id: string }) => id)).toEqual(['no-damp-hide', 'warm-spot-too-cold'])
    expect(printed.logger).toMatchObject({ readings: 2, temperature: { day: { quantity: 'cool-end' } } })
  })

  it('exits with 2 and one line for each fault', () => {
    const { status, stdout, lines } = enclosure(
      ['-'],
      '{ "answers": { "warm-spot": 300, "company": "cat" } }',
    )
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
    expect(lines).toEqual([
      'answers.warm-spot: given: 300; accepted: from 0 to 70 celsius',
      'answers.company: given: cat; accepted: one of alone, with-others, another-ill, or not-known-yet',
    ])
  })

  it('exits with 2 and the question where the logger does not tell', () => {
    const { status, lines } = enclosure(['-', '--logger', file('log.csv', CSV)], '{}')
    expect(status).toBe(2)
    expect(lines[0]).toMatch(/^logger\.temperatureUnit: given: not told\. .*; accepted: celsius, fahrenheit$/)
  })

  it.each([
    [['-', '--concern', 'the-weather'], '{}', /^--concern: given: the-weather; accepted: not-eating/],
    [['-'], 'not json', /^file: given: -; accepted: JSON/],
    [['no-such-file.json'], '', /^file: given: no-such-file\.json; accepted: a file that can be read/],
    [
      ['-', '--logger', 'no-such.csv'],
      '{}',
      /^--logger: given: no-such\.csv; accepted: a file that can be read/,
    ],
    [[], '', /^command: given: nothing; accepted: FILE/],
    [['-', '--colour'], '{}', /^command: given: - --colour; accepted: FILE/],
    [['-', '--now', 'soon'], '{}', /^--now: given: soon; accepted: an instant/],
  ])('%j exits with 2 and says why', (words, input, line) => {
    const { status, lines } = enclosure(words, input)
    expect(status).toBe(2)
    expect(lines[0]).toMatch(line)
  })

  it('prints every conflict with the range that is used', () => {
    const { status, stdout } = enclosure(['--conflicts'])
    expect(status).toBe(0)
    expect(stdout.match(/\*\*used here\*\*/g)).toHaveLength(9)
    expect(stdout).toContain('80 to 90, with dry and humid zones; alone with this')
  })
})
