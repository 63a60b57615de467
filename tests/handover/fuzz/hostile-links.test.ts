import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { LINK_SENTENCES } from '../../../src/handover/link/codec.ts'
import { fuzzLinks } from './hostile-links.ts'

const ALLOWED = ['read', ...Object.keys(LINK_SENTENCES)]

it('damaged, oversized and hostile links never crash, each gets one sentence, memory stays bounded', async () => {
  const result = await fuzzLinks(2_800, 20_261_125)
  expect(result.crashes).toEqual([])
  for (const outcome of Object.keys(result.outcomes)) expect(ALLOWED).toContain(outcome)
  // Every kind of trouble is met, so that the sentences are not only there.
  for (const because of ['over-length', 'other-version', 'damaged', 'not-this'])
    expect(result.outcomes[because], because).toBeGreaterThan(0)
  expect(result.mostMemoryMegabytes).toBeLessThan(500)
}, 120_000)

it('the recorded run read a hundred thousand of them without a crash', () => {
  const recorded = JSON.parse(readFileSync(new URL('./recorded-fuzz.json', import.meta.url), 'utf8'))
  expect(recorded.links).toBeGreaterThanOrEqual(100_000)
  expect(recorded.crashes).toEqual([])
  for (const outcome of Object.keys(recorded.outcomes)) expect(ALLOWED).toContain(outcome)
})
