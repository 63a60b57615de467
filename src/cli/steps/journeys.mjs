import { existsSync, readFileSync } from 'node:fs'
import { basename, join, relative } from 'node:path'
import { brotliCompressSync, constants } from 'node:zlib'
import { filesBelow } from './build.mjs'

/**
 * What somebody on the way loads, in bytes as hosts send them.
 *
 * @typedef {{ name: string, bytes: number, most?: number, what: string }} Figure `most` where there is a budget
 */

/** @param {string} path */
function sent(path) {
  const params = { [constants.BROTLI_PARAM_QUALITY]: 11 }
  return brotliCompressSync(readFileSync(path), { params }).length
}

/** @param {Iterable<string>} paths */
function sum(paths) {
  return [...paths].reduce((bytes, path) => bytes + sent(path), 0)
}

/**
 * The scripts that a script needs before it can run, itself among them.
 *
 * @param {string} script absolute path
 * @param {Set<string>} [found]
 */
function needed(script, found = new Set()) {
  if (found.has(script) || !existsSync(script)) return found
  found.add(script)
  // Only what stands outside of any function is fetched at once; a fetch later is written `import(`.
  for (const [, path] of readFileSync(script, 'utf8').matchAll(/(?:from|import)\s*["']([^"']+\.js)["']/g))
    needed(join(script, '..', path ?? ''), found)
  return found
}

/** @param {string} dist */
function scriptsOf(dist) {
  return filesBelow(dist).filter(path => path.endsWith('.js') && !isWorker(path))
}

/** What the protocol plugin serves is named `content-`; everything else is what the tool does. @param {string} path */
const isContent = path => basename(path).startsWith('content-')
/** Desk work (a whole shelf, files taken in) is fetched when its screen is opened; the build names it so. @param {string} path */
const isDesk = path => basename(path).startsWith('desk-')
/** The keeper's record is fetched last, in its turn, whether it is opened or not. @param {string} path */
const isRecord = path => basename(path).startsWith('record-')
/** @param {string} path */
const isWorker = path => basename(path) === 'service-worker.js'

/** The search of the start page: an aid beside the way, with a budget of its own. @param {string} path */
const isSearch = path => basename(path).startsWith('find-doors-')

/** Names that only the YAML parser and the schema library have: neither belongs into the browser. */
export const FOREIGN = [/\bYAMLParseError\b/, /\b_zod\b/]

/**
 * The sizes of a build by journey.
 *
 * @param {string} dist
 * @returns {Figure[]}
 */
export function figuresOf(dist) {
  const page = readFileSync(join(dist, 'index.html'), 'utf8')
  /** @type {Set<string>} */
  const initial = new Set()
  for (const [, path] of page.matchAll(/(?:src|href)="\.?\/?([^":]+\.js)"/g))
    needed(join(dist, path ?? ''), initial)
  const files = filesBelow(dist)
  const scripts = scriptsOf(dist)
  return [
    {
      name: 'js.initial.brotliBytes',
      bytes: sum(initial),
      most: 35_000,
      what: 'script and content, up to and including the danger signs',
    },
    {
      name: 'js.owner.brotliBytes',
      bytes: sum(
        scripts.filter(path => !isContent(path) && !isDesk(path) && !isRecord(path) && !isSearch(path)),
      ),
      most: 60_000,
      what: 'every script from the start to the outcome, the store of the case and the print; no content',
    },
    {
      name: 'js.ownerWithRecord.brotliBytes',
      bytes: sum(scripts.filter(path => !isContent(path) && !isDesk(path))),
      what: 'the same with the search and the record of animals; the aim of all together is 60,000',
    },
    {
      name: 'js.desk.brotliBytes',
      bytes: sum(scripts.filter(isDesk)),
      what: 'script of desk work, fetched when its screen is opened: a whole shelf, files taken in',
    },
    {
      name: 'js.search.brotliBytes',
      bytes: sum(scripts.filter(isSearch)),
      most: 7_000,
      what: 'the search of the start page',
    },
    { name: 'content.all.brotliBytes', bytes: sum(scripts.filter(isContent)), what: 'all content' },
    { name: 'app.all.brotliBytes', bytes: sum(files), what: 'every file; the aim is 200,000' },
  ]
}

/**
 * What is wrong with a build's scripts: over budget, or holding what belongs to the build alone.
 *
 * @param {string} dist
 * @param {Figure[]} figures
 * @returns {string[]}
 */
export function faultsOf(dist, figures) {
  const over = figures.flatMap(({ name, bytes, most }) =>
    most !== undefined && bytes > most ? [`${name}: given: ${bytes}; accepted: at most ${most}`] : [],
  )
  const foreign = filesBelow(dist)
    .filter(path => path.endsWith('.js'))
    .flatMap(path => {
      const text = readFileSync(path, 'utf8')
      // What strangers wrote, links and files of a clinic, is read with the schemas themselves.
      const foreign = isDesk(path) ? FOREIGN.slice(0, 1) : FOREIGN
      return foreign
        .flatMap(name => text.match(name) ?? [])
        .map(name => `${relative(dist, path)}: holds ${name}, which belongs to the build alone`)
    })
  const misplaced = scriptsOf(dist)
    .filter(path => !isDesk(path))
    .flatMap(path => [...needed(path)].filter(isDesk).map(desk => [path, desk]))
    .map(
      ([path = '', desk = '']) =>
        `${relative(dist, path)}: needs ${relative(dist, desk)}, which is desk work`,
    )
  return [...over, ...foreign, ...misplaced]
}
