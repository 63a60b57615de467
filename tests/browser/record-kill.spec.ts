import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { type Browser, chromium, expect, type Page, test } from '@playwright/test'
import { findChromium } from '../../src/cli/chromium.mjs'
import { openRecord, serveRecords } from './record-page.ts'

/** Milliseconds of writing before the browser is killed; spread so that the kill hits all parts of a write. */
const MOMENTS = [0, 7, 31, 120]
/** Weigh-ins that are saved together, all or none. */
const TOGETHER = 5

interface Running {
  readonly process: ChildProcess
  readonly browser: Browser
}

/** Starts a browser of its own that can be killed, and keeps its data in `profile`. */
async function start(profile: string): Promise<Running> {
  const program = findChromium()
  if (program === undefined) throw new Error('no Chromium')
  const process = spawn(
    program,
    [
      '--headless=new',
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'pipe'], detached: true },
  )
  for await (const line of createInterface({ input: process.stderr ?? [] })) {
    const [, address] = line.match(/DevTools listening on (ws:\S+)/) ?? []
    if (address !== undefined) return { process, browser: await chromium.connectOverCDP(address) }
  }
  throw new Error('Chromium ended before it listened')
}

/** Kills the browser with all of its processes, as a phone does that needs the room. */
async function kill({ process }: Running): Promise<void> {
  if (process.pid === undefined || process.exitCode !== null) return
  const ended = once(process, 'exit')
  globalThis.process.kill(-process.pid, 'SIGKILL')
  await ended
}

async function openPage({ browser }: Running, home: string): Promise<Page> {
  const [context] = browser.contexts()
  if (!context) throw new Error('no context')
  await serveRecords(context)
  const page = context.pages()[0] ?? (await context.newPage())
  await openRecord(page, home)
  return page
}

test('a browser killed at any moment loses nothing that was confirmed and half-saves nothing', async ({
  baseURL,
}, { project }) => {
  test.skip(project.name !== 'desktop', 'the window’s size changes nothing here')
  test.setTimeout(180_000)
  const home = (baseURL ?? '').replace(/\/$/, '')
  const profile = mkdtempSync(join(tmpdir(), 'duskcheck-kill-'))
  let confirmed = 0
  let running: Running | undefined
  try {
    for (const moment of [...MOMENTS, undefined]) {
      running = await start(profile)
      const page = await openPage(running, home)
      const found = await page.evaluate(() =>
        window.store.record().animals.flatMap(({ weighIns }) => weighIns.map(({ massGrams }) => massGrams)),
      )
      expect(found.length, 'no confirmed weigh-in is lost').toBeGreaterThanOrEqual(confirmed)
      expect(found.length % TOGETHER, 'no batch is saved in part').toBe(0)
      confirmed = found.length
      if (moment === undefined) break
      await page.exposeFunction('tellConfirmed', (count: number) => {
        confirmed = Math.max(confirmed, count)
      })
      await page.evaluate(together => {
        const { actions } = window.records
        const writing = () => window.store.writing(new Date().toISOString())
        const write = async () => {
          if (window.store.record().animals.length === 0)
            await window.store.append([actions.addAnimal(writing(), { name: 'Dune' })])
          const animalId = window.store.record().animals[0]?.animalId ?? ''
          for (;;) {
            const at = new Date().toISOString()
            const batch = Array.from({ length: together }, (_, index) =>
              actions.saveWeighIn(writing(), animalId, { at, massGrams: 50 + index }),
            )
            const saved = await window.store.append(batch)
            if (saved.kind === 'kept') tell(window.store.record().animals[0]?.weighIns.length ?? 0)
          }
        }
        const tell: (count: number) => void = Reflect.get(window, 'tellConfirmed')
        void write()
      }, TOGETHER)
      await expect.poll(() => confirmed, { message: 'writing has begun' }).toBeGreaterThan(found.length)
      await new Promise(resolve => setTimeout(resolve, moment))
      await kill(running)
    }
    expect(confirmed).toBeGreaterThan(MOMENTS.length * TOGETHER - 1)
  } finally {
    if (running) await kill(running)
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  }
})
