import { writeFileSync } from 'node:fs'
import { fuzzLinks } from '../../tests/handover/fuzz/hostile-links.ts'
import { inProject } from './steps/places.mjs'

/**
 * `npm run -s fuzz:links -- [COUNT] [SEED] [--record]`: reads so many damaged, oversized and hostile links and prints
 * what came of it. `--record` keeps the result beside the tests.
 */

const words = process.argv.slice(2)
const [count = 100_000, seed = Date.now() % 1_000_000] = words.filter(word => /^\d+$/.test(word)).map(Number)
const began = performance.now()
const result = await fuzzLinks(count, seed)
const text = `${JSON.stringify({ ...result, seconds: Math.round((performance.now() - began) / 1000) }, null, 2)}\n`
process.stdout.write(text)
if (words.includes('--record'))
  writeFileSync(inProject('tests', 'handover', 'fuzz', 'recorded-fuzz.json'), text)
if (result.crashes.length > 0) process.exitCode = 1
