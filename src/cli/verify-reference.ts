import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { inProject } from './steps/places.mjs'

/**
 * `npm run -s verify:reference [-- --record]`: makes the reference values of the weight statistics again with R and
 * SciPy and compares them with the record that the tests hold our own figures against; `--record` writes it anew.
 * Exit 1 where a value differs or a program is missing.
 */

const FOLDER = inProject('tests', 'records', 'weight-reference')
const RECORD = `${FOLDER}/reference.json`
const NEEDS = 'apt-get install r-base-core r-cran-mass r-cran-nlme python3-scipy'
/** Two builds of one program may differ in the last digits. */
const RELATIVE = 1e-9

/** What a program printed; undefined where it is missing or failed, which is said. */
function printed(program: string, words: readonly string[], input = ''): string | undefined {
  const run = spawnSync(program, words, { input, encoding: 'utf8', maxBuffer: 1 << 26 })
  if (run.status === 0) return run.stdout
  process.stderr.write(`${program}: ${run.error?.message ?? run.stderr.trim()}\nNeeded: ${NEEDS}\n`)
  return undefined
}

function made(): unknown {
  const fromR = printed('Rscript', [`${FOLDER}/reference.R`])
  if (fromR === undefined) return undefined
  // The system's own Python first: another one on the path need not have SciPy.
  const python = existsSync('/usr/bin/python3') ? '/usr/bin/python3' : 'python3'
  const fromSciPy = printed(python, [`${FOLDER}/reference.py`], fromR)
  if (fromSciPy === undefined) return undefined
  return { r: JSON.parse(fromR), scipy: JSON.parse(fromSciPy) }
}

/** The paths at which two JSON values differ by more than the last digits; names of versions may differ. */
function differences(one: unknown, other: unknown, path = ''): string[] {
  if (path.endsWith('.madeWith')) return []
  if (typeof one === 'number' && typeof other === 'number') {
    const near = Math.abs(one - other) <= RELATIVE * Math.max(Math.abs(one), Math.abs(other))
    return near ? [] : [`${path}: recorded ${one}, now ${other}`]
  }
  if (typeof one === 'object' && one !== null && typeof other === 'object' && other !== null) {
    const keys = new Set([...Object.keys(one), ...Object.keys(other)])
    return [...keys].flatMap(key =>
      differences(Reflect.get(one, key), Reflect.get(other, key), `${path}.${key}`),
    )
  }
  return one === other ? [] : [`${path}: recorded ${JSON.stringify(one)}, now ${JSON.stringify(other)}`]
}

const now = made()
if (now === undefined) process.exitCode = 1
else if (process.argv.includes('--record')) {
  writeFileSync(RECORD, `${JSON.stringify(now, undefined, 1)}\n`)
  process.stderr.write(`Written: ${RECORD}\n`)
} else {
  const recorded: unknown = JSON.parse(readFileSync(RECORD, 'utf8'))
  const found = differences(recorded, now)
  for (const line of found) process.stderr.write(`${line}\n`)
  process.stdout.write(
    `${JSON.stringify({ compared: 'tests/records/weight-reference/reference.json', differences: found.length })}\n`,
  )
  if (found.length > 0) process.exitCode = 1
}
