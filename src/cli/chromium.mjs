import { spawnSync } from 'node:child_process'
import { accessSync, constants, existsSync, readFileSync, statSync } from 'node:fs'
import { createRequire } from 'node:module'
import { delimiter, join } from 'node:path'
import { runNode, runProgram } from './steps/child.mjs'
import { inProject } from './steps/places.mjs'
import { PlainFailure, say } from './steps/say.mjs'

/** Names that a Chromium goes by on the PATH. */
const NAMES = ['chromium', 'google-chrome', 'google-chrome-stable', 'chromium-browser', 'chrome']

/**
 * Where a Chromium may be, best first: on the PATH, then the places its installers use.
 *
 * @param {NodeJS.Platform} platform
 * @param {Readonly<Record<string, string | undefined>>} env
 * @returns {string[]}
 */
export function chromiumPlaces(platform, env) {
  const onPath = (env.PATH ?? env.Path ?? '')
    .split(delimiter)
    .filter(folder => folder !== '')
    .flatMap(folder => NAMES.map(name => join(folder, platform === 'win32' ? `${name}.exe` : name)))
  return [...onPath, ...usualPlaces(platform, env)]
}

/**
 * @param {NodeJS.Platform} platform
 * @param {Readonly<Record<string, string | undefined>>} env
 * @returns {string[]}
 */
function usualPlaces(platform, env) {
  if (platform === 'darwin') {
    const apps = [
      'Chromium.app/Contents/MacOS/Chromium',
      'Google Chrome.app/Contents/MacOS/Google Chrome',
      'Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    ]
    const folders = ['/Applications', ...(env.HOME ? [join(env.HOME, 'Applications')] : [])]
    return folders.flatMap(folder => apps.map(app => join(folder, app)))
  }
  if (platform === 'win32') {
    const programs = [
      'Chromium\\Application\\chrome.exe',
      'Google\\Chrome\\Application\\chrome.exe',
      'Microsoft\\Edge\\Application\\msedge.exe',
    ]
    return [env.LOCALAPPDATA, env.ProgramFiles, env['ProgramFiles(x86)']]
      .filter(folder => folder !== undefined)
      .flatMap(folder => programs.map(program => `${folder}\\${program}`))
  }
  return [
    '/usr/bin/chromium',
    '/usr/bin/google-chrome',
    '/opt/google/chrome/chrome',
    '/usr/bin/chromium-browser',
    '/usr/lib/chromium/chromium',
    '/usr/lib/chromium-browser/chromium-browser',
    '/snap/bin/chromium',
  ]
}

/**
 * True when the file is a browser that starts. Ubuntu's chromium-browser may be a mere pointer to a package
 * that is not there, so on Linux it is asked for its version.
 *
 * @param {string} file
 */
function starts(file) {
  try {
    if (!statSync(file).isFile()) return false
    accessSync(file, constants.X_OK)
  } catch {
    return false
  }
  if (process.platform !== 'linux') return true
  const asked = spawnSync(file, ['--version'], { encoding: 'utf8', timeout: 20_000 })
  return asked.status === 0 && /\d+\.\d+/.test(asked.stdout)
}

/** The browser that the test library has downloaded, where it has. */
function downloaded() {
  try {
    const require = createRequire(import.meta.url)
    const { chromium } = /** @type {typeof import('@playwright/test')} */ (require('@playwright/test'))
    const file = chromium.executablePath()
    return existsSync(file) ? file : undefined
  } catch {
    return undefined
  }
}

/**
 * The Chromium to test with: the one named in DUSKCHECK_CHROMIUM, else one on this machine. Installs nothing.
 *
 * @returns {string | undefined}
 */
export function findChromium() {
  const named = process.env.DUSKCHECK_CHROMIUM
  if (named) {
    if (existsSync(named)) return named
    throw new PlainFailure(`DUSKCHECK_CHROMIUM names ${named}, and there is no such file.`)
  }
  const places = new Set(chromiumPlaces(process.platform, process.env))
  for (const place of places) if (starts(place)) return place
  return downloaded()
}

/** @returns {string[]} the names of this Linux and of those it descends from */
function linuxFamily() {
  try {
    const release = readFileSync('/etc/os-release', 'utf8')
    return [...release.matchAll(/^ID(?:_LIKE)?="?([^"\n]*)"?$/gm)].flatMap(match =>
      (match[1] ?? '').split(' '),
    )
  } catch {
    return []
  }
}

/** @returns {Promise<void>} */
async function trySystemPackages() {
  const isRoot = process.getuid?.() === 0
  if (process.platform === 'darwin') {
    say('To have one from Homebrew instead: brew install --cask chromium')
    return
  }
  if (process.platform !== 'linux') return
  const family = linuxFamily()
  if (family.includes('fedora') || family.includes('rhel')) {
    say('To have one from the system instead: sudo dnf install chromium')
    return
  }
  if (!family.includes('debian') && !family.includes('ubuntu')) return
  if (!isRoot) {
    say('To have one from the system instead: sudo apt-get install chromium')
    return
  }
  say('Installing one with the system package manager: apt-get update, apt-get install chromium.')
  const env = { DEBIAN_FRONTEND: 'noninteractive' }
  const updated = await runProgram('apt-get', ['update', '-q'], { env, stdout: 'stderr' })
  if (updated !== 0)
    say('apt-get update failed (no network?); trying with the list of packages that is there.')
  const install = ['install', '-y', '-q', '--no-install-recommends', 'chromium']
  const installed = await runProgram('apt-get', install, { env, stdout: 'stderr' })
  if (installed !== 0) say('apt-get could not install chromium.')
}

/**
 * The Chromium to test with, installed when there is none: by the system's package manager where that is
 * allowed, else by the test library's own download. Says each attempt on stderr.
 *
 * @returns {Promise<string>} its path
 */
export async function ensureChromium() {
  const found = findChromium()
  if (found) return found
  say('No Chromium was found on this machine, and the browser tests need one.')
  await trySystemPackages()
  const fromSystem = findChromium()
  if (fromSystem) return fromSystem
  const isRootOnLinux = process.platform === 'linux' && process.getuid?.() === 0
  say("Downloading one with the test library's own installer (about 170 MB): playwright install chromium.")
  const playwright = inProject('node_modules', '@playwright', 'test', 'cli.js')
  const withDeps = isRootOnLinux ? ['--with-deps'] : []
  await runNode(playwright, ['install', ...withDeps, 'chromium'])
  const fetched = findChromium()
  if (fetched) return fetched
  throw new PlainFailure(
    'No Chromium could be had. Install Chromium or Chrome yourself and run the same command again, or name the one to use: DUSKCHECK_CHROMIUM=/path/to/chromium npm test',
  )
}
