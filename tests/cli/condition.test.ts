import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'

function condition(input: string, words: readonly string[] = ['-']) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'condition', ...words], { input, encoding: 'utf8' })
}

test('the thinner of two views wins, the disagreement is shown, and the exit code is 0', () => {
  const run = condition(
    JSON.stringify({
      seen: {
        looks: { tail: 3, hipsAndSpine: 2, flanksAndThighs: 3, forelegPads: 'saysNothing' },
        tail: 'original',
      },
    }),
  )
  expect(run.status).toBe(0)
  expect(JSON.parse(run.stdout).look).toMatchObject({ step: 2, disagreementSteps: 1, certainty: 'likely' })
})

test('the indices come with their exponent, reference length and basis', () => {
  const measured = [
    { at: '2026-01-01T18:00:00Z', massGrams: 60, lengthMillimetres: 120 },
    { at: '2026-03-01T18:00:00Z', massGrams: 54, lengthMillimetres: 120 },
  ]
  const printed = JSON.parse(condition(JSON.stringify({ measured })).stdout)
  expect(printed.scale).toEqual({ exponent: expect.any(Number), referenceLengthMillimetres: 120 })
  expect(printed.scaleBasis.basis).toBe('project-judgement')
  expect(printed.againstOwnPast.massOverLengthPercent).toBeCloseTo(-10, 2)
})

test('bad input exits with 2 and one line for each fault', () => {
  const run = condition(JSON.stringify({ seen: { looks: { tail: 9 } }, neckMillimetres: 0 }))
  expect(run.status).toBe(2)
  expect(run.stdout).toBe('')
  expect(run.stderr.trim().split('\n')).toEqual([
    'seen.looks.tail: given: 9; accepted: one of 1, 2, 3, 4, 5, saysNothing, cantTell',
    'neckMillimetres: given: 0; accepted: more than 0',
  ])
  expect(condition('no json').stderr).toMatch(/^file: given: -; accepted: JSON/)
  expect(condition('', []).stderr).toBe('command: given: nothing; accepted: FILE or - for standard input\n')
  expect(condition('', ['no-such-file.json']).status).toBe(2)
})
