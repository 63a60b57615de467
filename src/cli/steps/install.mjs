import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { inProject, ROOT } from './places.mjs'
import { PlainFailure, say, secondsSince } from './say.mjs'

/** @typedef {{ version?: string, integrity?: string, optional?: boolean, devOptional?: boolean, link?: boolean }} LockedPackage */
/** @typedef {{ packages?: Record<string, LockedPackage> }} Lock */

/**
 * Why the installed packages are not those of the lock file, or '' when they are. Compares what is recorded,
 * not the files' times: a fresh checkout gives every file a new time.
 *
 * @param {Lock} wanted package-lock.json
 * @param {Lock | undefined} installed node_modules/.package-lock.json; npm writes it when an install ends well
 * @returns {string}
 * @example whyInstall({ packages: {} }, undefined) // 'nothing is installed yet'
 */
export function whyInstall(wanted, installed) {
  if (!installed) return 'nothing is installed yet'
  const present = installed.packages ?? {}
  for (const [path, want] of Object.entries(wanted.packages ?? {})) {
    if (path === '') continue
    const have = present[path]
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
    if (!have) {
      // Optional packages are there only on the kind of machine they are for.
      if (want.optional || want.devOptional) continue
      return `${name} is missing`
    }
    if (have.version !== want.version)
      return `${name} is ${have.version ?? 'of no version'}, not ${want.version}`
    if (have.integrity !== want.integrity) return `${name} is not the file that the lock names`
  }
  return ''
}

/** @param {string} path @returns {unknown} */
function readJson(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return undefined
  }
}

/** @returns {string} */
function whyInstallHere() {
  const wanted = /** @type {Lock | undefined} */ (readJson(inProject('package-lock.json')))
  if (!wanted)
    throw new PlainFailure(
      'package-lock.json is missing or cannot be read: get it back from git, then run this again.',
    )
  const installed = /** @type {Lock | undefined} */ (
    readJson(inProject('node_modules', '.package-lock.json'))
  )
  const why = whyInstall(wanted, installed)
  if (why) return why
  const manifest = /** @type {Record<string, Record<string, string> | undefined>} */ (
    readJson(inProject('package.json')) ?? {}
  )
  for (const name of Object.keys({ ...manifest.dependencies, ...manifest.devDependencies })) {
    if (!existsSync(inProject('node_modules', ...name.split('/'), 'package.json')))
      return `${name} is missing`
  }
  return ''
}

/**
 * What a person can do about a failed `npm ci`, from what it printed.
 *
 * @param {string} printed
 * @returns {string}
 * @example adviceFor('npm error code ENOTFOUND') // 'The package registry was not reached. …'
 */
export function adviceFor(printed) {
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ERR_SOCKET_TIMEOUT/.test(printed))
    return 'The package registry was not reached. Check the network (and the proxy, if you use one), then run the same command again; it goes on from what was already fetched.'
  if (/CERT|certificate/.test(printed))
    return "The registry's certificate was not accepted. On a company network, ask for its certificate and name it in NODE_EXTRA_CA_CERTS."
  if (/can only install|EUSAGE|in sync/.test(printed))
    return 'package.json and package-lock.json do not belong together. Get both from git again, or run "npm install" if you changed package.json.'
  if (/EACCES|EPERM|EROFS/.test(printed))
    return 'Some file could not be written. Check that the project folder belongs to you and that no other program holds node_modules open.'
  if (/ENOSPC/.test(printed)) return 'The disk is full: the packages need about 300 MB.'
  return 'Look at the lines above. If npm itself is older than version 7, update it ("npm install -g npm"); else delete the folder node_modules and run the same command again.'
}

/** @returns {{ program: string, args: string[], shell: boolean }} */
function npmProgram() {
  const running = process.env.npm_execpath
  if (running && /^npm(-cli)?\.c?js$/.test(basename(running)))
    return { program: process.execPath, args: [running], shell: false }
  return process.platform === 'win32'
    ? { program: 'npm.cmd', args: [], shell: true }
    : { program: 'npm', args: [], shell: false }
}

/** Installs the locked packages when they are not all there. Says so on stderr; silent when nothing is to do. */
export async function installMissing() {
  const why = whyInstallHere()
  if (!why) return
  say(`Installing the packages that this project needs (${why}). This takes about a minute.`)
  const began = performance.now()
  const { program, args, shell } = npmProgram()
  // "npm run -s" hands its silence down to this npm, and its errors would be lost.
  const npmArgs = [...args, 'ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']
  const { code, printed } = await new Promise(
    /** @param {(outcome: { code: number, printed: string }) => void} resolve */ resolve => {
      let printed = ''
      const child = spawn(program, npmArgs, { cwd: ROOT, shell, stdio: ['ignore', 'pipe', 'pipe'] })
      for (const stream of [child.stdout, child.stderr]) {
        stream.on('data', chunk => {
          printed += chunk
          process.stderr.write(chunk)
        })
      }
      child.on('error', error => resolve({ code: 127, printed: printed + error.message }))
      child.on('close', exit => resolve({ code: exit ?? 1, printed }))
    },
  )
  if (code === 127)
    throw new PlainFailure(
      'npm could not be started. It comes with Node: check that "npm --version" answers in this terminal.',
    )
  if (code !== 0) throw new PlainFailure(`The packages could not be installed. ${adviceFor(printed)}`)
  say(`Installed in ${secondsSince(began)}.`)
}
