import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { ensureChromium } from '../chromium.mjs'
import { buildIfNeeded, filesBelow } from './build.mjs'
import { lint, types } from './checks.mjs'
import { runNode } from './child.mjs'
import { closingLine, NONE, playwrightCounts, vitestCounts } from './counts.mjs'
import { CACHE, inProject, START_PAGE } from './places.mjs'
import { PlainFailure, say, secondsSince } from './say.mjs'
import { journeys } from './size.mjs'
import { freePort } from './start.mjs'

/** @typedef {import('./counts.mjs').Counts} Counts */
/** @typedef {{ code: number, counts?: Counts }} Outcome */
/**
 * @typedef {object} Step
 * @property {string} id
 * @property {string} does
 * @property {string} again the command that repeats it alone
 * @property {() => string} whySkip '' when it can run; a step is skipped only while its files do not exist
 * @property {(args: string[]) => Promise<Outcome>} run
 */

const VITEST_REPORT = join(CACHE, 'vitest.json')
const PLAYWRIGHT_REPORT = join(CACHE, 'playwright.json')
const FIRST_TEST_PORT = 4190
/** What reckons with dates and hours runs once more where the clocks never change. */
const ZONED = ['triage', 'measure', 'wizard'].map(folder => join('tests', folder))

/** @param {string} path */
function readReport(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return {}
  }
}

/**
 * @param {string[]} args
 * @param {Record<string, string>} [env]
 * @returns {Promise<Outcome>}
 */
async function vitest(args, env = {}) {
  rmSync(VITEST_REPORT, { force: true })
  const reports = ['--reporter=default', '--reporter=json', `--outputFile.json=${VITEST_REPORT}`]
  const code = await runNode(
    inProject('node_modules', 'vitest', 'vitest.mjs'),
    ['run', ...reports, ...args],
    { env },
  )
  return { code, counts: vitestCounts(readReport(VITEST_REPORT)) }
}

/** @param {string[]} args @returns {Promise<Outcome>} */
async function playwright(args) {
  const chromium = await ensureChromium()
  say(`Chromium: ${chromium}`)
  rmSync(PLAYWRIGHT_REPORT, { force: true })
  const port = await freePort(FIRST_TEST_PORT)
  const env = { DUSKCHECK_CHROMIUM: chromium, DUSKCHECK_TEST_PORT: String(port) }
  const code = await runNode(inProject('node_modules', '@playwright', 'test', 'cli.js'), ['test', ...args], {
    env,
  })
  return { code, counts: playwrightCounts(readReport(PLAYWRIGHT_REPORT)) }
}

/** @param {string} path */
function unlessMissing(path) {
  return existsSync(inProject(path)) ? '' : `there is no ${path} yet`
}

function whyNoBuild() {
  return existsSync(START_PAGE) ? '' : 'there is no src/app/index.html yet'
}

function whyNoBrowser() {
  const hasSpec = filesBelow(inProject('tests', 'browser')).some(file => file.endsWith('.spec.ts'))
  return whyNoBuild() || (hasSpec ? '' : 'there is no tests/browser/**/*.spec.ts yet')
}

/** @type {Step[]} */
export const STEPS = [
  {
    id: 'lint',
    does: 'style and layer rules',
    again: 'npm run lint   (npm run lint -- --fix puts right what it can)',
    whySkip: () => '',
    run: async args => ({ code: await lint(args) }),
  },
  {
    id: 'types',
    does: 'types',
    again: 'npm run types',
    whySkip: () => '',
    run: async args => ({ code: await types(args) }),
  },
  {
    id: 'content',
    does: 'the clinical content',
    again: 'npm run content',
    whySkip: () => unlessMissing('src/cli/content.ts'),
    run: async args => ({ code: await runNode(inProject('src', 'cli', 'run.mjs'), ['content', ...args]) }),
  },
  {
    id: 'unit',
    does: 'tests of the logic and of the screens without a browser',
    again: 'npm test -- unit [a file or part of its name]',
    whySkip: () => '',
    run: args => vitest(args),
  },
  {
    id: 'zones',
    does: 'the tests of dates and hours again, in Arizona time',
    again: 'npm test -- zones',
    whySkip: () =>
      ZONED.some(folder => filesBelow(inProject(folder)).some(file => file.endsWith('.test.ts')))
        ? ''
        : `there is no test in ${ZONED.join(', ')} yet`,
    run: args =>
      vitest(['--project', 'core', ...(args.length > 0 ? args : ZONED)], { TZ: 'America/Phoenix' }),
  },
  {
    id: 'build',
    does: 'the app as it is shipped',
    again: 'npm run build',
    whySkip: whyNoBuild,
    run: async () => {
      if ((await buildIfNeeded()) === 'fresh') say('The build is up to date.')
      return { code: 0 }
    },
  },
  {
    id: 'size',
    does: 'what somebody on the way loads, against its budget',
    again: 'npm run size',
    whySkip: whyNoBuild,
    run: async () => ({ code: await journeys() }),
  },
  {
    id: 'browser',
    does: 'the built app in Chromium, desktop and phone',
    again: 'npm test -- browser [a file or part of its name]',
    whySkip: whyNoBrowser,
    run: playwright,
  },
]

/**
 * Which steps the arguments ask for, and what is left for that step itself.
 *
 * @param {string[]} args
 * @returns {{ steps: Step[], rest: string[] }}
 * @example choose(['unit', 'tests/triage']) // only the step "unit", with ['tests/triage'] for it
 */
export function choose(args) {
  const known = new Set(STEPS.map(step => step.id))
  const others = args.filter(arg => !known.has(arg))
  const firstOther = others[0] === undefined ? args.length : args.indexOf(others[0])
  const ids = args.slice(0, firstOther)
  const rest = args.slice(firstOther)
  const steps = ids.length === 0 ? STEPS : STEPS.filter(step => ids.includes(step.id))
  if (rest.length > 0 && ids.length !== 1)
    throw new PlainFailure(
      `"${rest[0]}" is no step. The steps: ${STEPS.map(step => step.id).join(', ')}. More arguments go to one step, as in: npm test -- unit tests/triage`,
    )
  return { steps, rest }
}

/**
 * `npm test`: every step in order, up to the first that fails.
 *
 * @param {string[]} args
 * @returns {Promise<number>} exit code
 */
export async function test(args) {
  const { steps, rest } = choose(args)
  mkdirSync(CACHE, { recursive: true })
  /** @type {Counts[]} */
  const counts = []
  /** @type {string[]} */
  const lines = []
  /** @type {Step | undefined} */
  let failed
  for (const [at, step] of steps.entries()) {
    const why = step.whySkip()
    const name = step.id.padEnd(8)
    if (why) {
      lines.push(`  left out  ${name} ${why}`)
      print(`[${at + 1}/${steps.length}] ${step.id} left out: ${why}`)
      continue
    }
    print(`[${at + 1}/${steps.length}] ${step.id}: ${step.does}`)
    const began = performance.now()
    const outcome = await runStep(step, rest)
    counts.push(outcome.counts ?? NONE)
    lines.push(`  ${outcome.code === 0 ? 'passed  ' : 'FAILED  '}  ${name} ${secondsSince(began)}`)
    print(lines.at(-1) ?? '')
    if (outcome.code !== 0) {
      failed = step
      break
    }
  }
  print(`\nSteps:\n${lines.join('\n')}`)
  if (failed) print(`Stopped at "${failed.id}". To repeat that step alone: ${failed.again}`)
  print(closingLine(counts, failed !== undefined))
  return failed ? 1 : 0
}

/** @param {string} text */
function print(text) {
  process.stdout.write(`${text}\n`)
}

/**
 * @param {Step} step
 * @param {string[]} args
 * @returns {Promise<Outcome>}
 */
async function runStep(step, args) {
  try {
    return await step.run(args)
  } catch (error) {
    if (!(error instanceof PlainFailure)) throw error
    say(error.message)
    return { code: 1 }
  }
}
