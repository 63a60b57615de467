import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

function score(words: readonly string[], input = '') {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'score', ...words], { input, encoding: 'utf8' })
}

const FOLDER = 'tests/cases/published'
const files = readdirSync(FOLDER).map(name => `${FOLDER}/${name}`)
const [first = ''] = files
const written = () => JSON.parse(readFileSync(first, 'utf8'))

// What the project asks of itself: nothing below its range, 9 % or less above.
const MOST_ABOVE = 0.09

test('published cases: none below its range, none unsettled, few above', () => {
  const { status, stdout } = score(files)
  expect(status).toBe(0)
  const { cases, all, outside } = JSON.parse(stdout)
  expect(cases).toBe(files.length)
  expect(all.below).toMatchObject({ count: 0, of: files.length, low: 0 })
  expect(all.notSettled.count).toBe(0)
  expect(all.above.share).toBeLessThanOrEqual(MOST_ABOVE)
  expect(outside).toHaveLength(all.above.count)
})

test('a list from standard input counts as its cases do alone; a case out of its range is named', () => {
  const [right, wrong] = [written(), written()]
  wrong.id = 'made to fail'
  wrong.allowed = { min: 'well', max: 'well' }
  const { status, stdout } = score(['-'], JSON.stringify([right, wrong]))
  expect(status).toBe(0)
  const { all, outside } = JSON.parse(stdout)
  expect(all.within).toMatchObject({ count: 1, of: 2, low: 0.0945, high: 0.9055 })
  expect(outside).toMatchObject([{ id: 'made to fail', standing: 'above' }])
})

describe('bad input exits with 2, prints nothing, and says field, value and what is accepted', () => {
  test.each([
    ['no file', [], '', 'command: given: nothing; accepted: FILE or - for standard input, once or more'],
    ['an unknown option', ['--all'], '', 'command: given: --all; accepted: FILE'],
    [
      'a file that is not there',
      ['nowhere.json'],
      '',
      'file: given: nowhere.json; accepted: a file that can be read',
    ],
    ['no JSON', ['-'], '{', 'file: given: -; accepted: JSON'],
    ['no case', ['-'], '[]', 'cases: given: none; accepted: at least one case'],
    ['a case without a range', ['-'], '[{"id":"X"}]', '-: 0: allowed: given: missing; accepted: object'],
  ])('%s', (_what, words, input, line) => {
    const { status, stdout, stderr } = score(words, input)
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toContain(line)
  })

  test('a range upside down, an answer the guide does not know, an id used twice', () => {
    const upside = { ...written(), id: 'upside', allowed: { min: 'now', max: 'home' } }
    const odd = { ...written(), id: 'odd', caseFile: { answers: { 'no-such-question': 'yes' } } }
    const { status, stderr } = score(['-'], JSON.stringify([upside, odd, written(), written()]))
    expect(status).toBe(2)
    expect(stderr).toContain('-: 0: allowed.max: given: home; accepted: now or more urgent, as allowed.min')
    expect(stderr).toContain('-: 1: caseFile.answers.no-such-question: given: ')
    expect(stderr).toContain(`-: 3: id: given: ${written().id}; accepted: an id used once`)
  })
})
