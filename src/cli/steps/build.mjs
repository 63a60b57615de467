import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { CACHE, DIST, inProject, ROOT, START_PAGE } from './places.mjs'
import { PlainFailure, say, secondsSince } from './say.mjs'

const STAMP = join(CACHE, 'build.json')
const INPUT_FOLDERS = ['src', 'content', 'shared', 'public']
const INPUT_FILES = ['vite.config.ts', 'tsconfig.json', 'package.json', 'package-lock.json']

/**
 * Every file below a folder, sorted, as absolute paths; none when the folder is not there.
 *
 * @param {string} folder
 * @returns {string[]}
 */
export function filesBelow(folder) {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(entry => entry.isFile())
    .map(entry => join(entry.parentPath, entry.name))
    .sort()
}

/**
 * One hash over names and contents.
 *
 * @param {string[]} files absolute paths
 * @param {string} base the folder that names are taken from, so that a moved project keeps its hash
 * @param {string[]} [more] anything else that counts
 * @returns {string}
 */
export function hashOf(files, base, more = []) {
  const hash = createHash('sha256')
  for (const word of more) hash.update(`${word}\0`)
  for (const file of files) {
    hash.update(`${relative(base, file).split(sep).join('/')}\0`)
    hash.update(readFileSync(file))
    hash.update('\0')
  }
  return hash.digest('hex')
}

function inputsHash() {
  const files = [
    ...INPUT_FOLDERS.flatMap(folder => filesBelow(inProject(folder))),
    ...INPUT_FILES.map(file => inProject(file)).filter(file => existsSync(file)),
  ]
  const settings = Object.entries(process.env)
    .filter(([name]) => name.startsWith('VITE_'))
    .map(([name, value]) => `${name}=${value}`)
  return hashOf(files, ROOT, [process.versions.node, ...settings.sort()])
}

function outputState() {
  return filesBelow(DIST)
    .map(file => `${relative(DIST, file)} ${statSync(file).size}`)
    .join('\n')
}

/** @param {string} inputs */
function isFresh(inputs) {
  if (!existsSync(join(DIST, 'index.html'))) return false
  try {
    const stamp = JSON.parse(readFileSync(STAMP, 'utf8'))
    return stamp.inputs === inputs && stamp.output === outputState()
  } catch {
    return false
  }
}

/**
 * Builds `dist` when it is missing or older than what it is made from. All it says goes to stderr.
 *
 * @param {{ always?: boolean }} [options]
 * @returns {Promise<'built' | 'fresh'>}
 */
export async function buildIfNeeded({ always = false } = {}) {
  if (!existsSync(START_PAGE))
    throw new PlainFailure('There is no app to build: src/app/index.html is missing. Get it back from git.')
  const inputs = inputsHash()
  if (!always && isFresh(inputs)) return 'fresh'
  say(existsSync(DIST) ? 'Building the app (something changed).' : 'Building the app (first time).')
  const began = performance.now()
  // Vite takes its config, and the root that the config names, from the current folder.
  process.chdir(ROOT)
  const { build } = await import('vite')
  const logger = await stderrLogger()
  try {
    await build({ customLogger: logger })
  } catch (error) {
    const told = error instanceof Error ? error.message : String(error)
    throw new PlainFailure(
      `The app could not be built: ${told}\nPut right what is named above, then run "npm run build" to see that step alone.`,
    )
  }
  mkdirSync(CACHE, { recursive: true })
  writeFileSync(STAMP, JSON.stringify({ inputs, output: outputState() }))
  say(`Built in ${secondsSince(began)}.`)
  return 'built'
}

/** Vite's own messages, on stderr. */
export async function stderrLogger() {
  const { createLogger } = await import('vite')
  const logger = createLogger('info')
  const { hasWarned } = logger
  /** @type {Set<string>} */
  const once = new Set()
  return {
    ...logger,
    hasWarned,
    info: say,
    warn: say,
    error: say,
    warnOnce: (/** @type {string} */ message) => {
      if (once.has(message)) return
      once.add(message)
      say(message)
    },
  }
}
