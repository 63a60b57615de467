import { spawnSync } from 'node:child_process'
import { expect, it } from 'vitest'
import { loadProtocol } from '../../src/protocol/load.ts'
import { DUNE_SKINK, INVENTED } from '../protocol/invented.ts'

function protocol(...words: string[]) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'protocol', '--content', INVENTED, ...words], {
    encoding: 'utf8',
  })
}

it('prints the compiled protocol as JSON', () => {
  const loaded = loadProtocol(INVENTED, DUNE_SKINK)
  const { status, stdout } = protocol('--format', 'json')
  expect(status).toBe(0)
  expect(JSON.parse(stdout)).toEqual(JSON.parse(JSON.stringify(loaded.ok && loaded.compilation.protocol)))
})

it('prints its counts as one line of JSON', () => {
  const { status, stdout } = protocol('--format', 'stats')
  expect(status).toBe(0)
  expect(JSON.parse(stdout)).toMatchObject({
    dangerSigns: 2,
    concerns: 2,
    questions: 14,
    rules: 10,
    rulesByUrgency: { now: 1, day: 2, week: 4, home: 2, well: 1 },
    rulesByFindingBasis: { published: 6, 'common-practice': 3, 'project-judgement': 1 },
    rulesByUrgencyBasis: { published: 1, 'common-practice': 1, 'project-judgement': 8 },
    rulesWithoutBasis: 0,
    sources: 3,
    evidenceRowsUsed: 5,
    evidenceRowsLeftOut: 1,
  })
})

it('prints a page for a reader when no format is named', () => {
  const { status, stdout } = protocol()
  expect(status).toBe(0)
  expect(stdout).toContain('# Dune skink (Scincus inventus), version 0.0.1')
})

it('refuses a format it does not know', () => {
  const { status, stdout, stderr } = protocol('--format', 'html')
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toBe('format: given: html; accepted: json, markdown, mermaid, stats\n')
})

it('refuses words it does not know', () => {
  const { status, stderr } = protocol('everything')
  expect(status).toBe(2)
  expect(stderr).toBe('protocol: given: everything; accepted: --format, --content\n')
})
