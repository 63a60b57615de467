import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { handoverSchema } from '../../shared/handover.ts'
import { decodeLink } from '../../src/handover/link/codec.ts'
import { HISTORY_LINK } from '../../src/handover/links.ts'

const SCRIPT = fileURLToPath(new URL('../../src/cli/handover.ts', import.meta.url))
const TSX = fileURLToPath(new URL('../../node_modules/tsx/dist/cli.mjs', import.meta.url))
const CASE = JSON.stringify({
  note: 'An invented <b>gecko</b>.',
  answers: { concern: ['retained-shed'], 'shed-where': ['toes'] },
  weighIns: [{ at: '2026-11-20T19:00:00Z', massGrams: 58 }],
})

function handover(...words: string[]) {
  return spawnSync(
    process.execPath,
    [TSX, SCRIPT, '-', '--now', '2026-11-25T02:10:00Z', '--zone', 'Europe/London', ...words],
    { input: CASE, encoding: 'utf8' },
  )
}

test('text, page, file, FHIR and link tell of the same weight and the same sign', async () => {
  const json = handoverSchema.parse(JSON.parse(handover('--format', 'json').stdout))
  const [mark, data = ''] = handover('--format', 'link').stdout.trim().split('/')
  expect(mark).toBe('#history')
  expect(await decodeLink(HISTORY_LINK, data)).toEqual({ ok: true, value: json })
  for (const format of ['text', 'page', 'fhir']) {
    const { stdout, status } = handover('--format', format)
    expect(status).toBe(0)
    expect(stdout).toContain('On one or more toes')
    expect(stdout).toContain('58')
  }
}, 120_000)

test('the page is HTML in which everything told is text', () => {
  const { stdout } = handover('--format', 'page')
  expect(stdout).toContain('An invented &lt;b>gecko&lt;/b>.')
  expect(stdout).not.toMatch(/<script|<b>gecko/)
}, 60_000)

test('an unknown format is named, with exit 2', () => {
  const { stderr, status } = handover('--format', 'fax')
  expect(status).toBe(2)
  expect(stderr).toBe('--format: given: fax; accepted: text, page, json, fhir, link\n')
}, 60_000)
