import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import { tmpdir } from 'node:os'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, type Page, test } from '@playwright/test'
import { openPage } from './harness.ts'

/** Two builds of the app, one after the other at the same address, as a host has them before and after an update. */

const DIST = fileURLToPath(new URL('../../dist', import.meta.url))
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
}

let folder = ''
let server: Server
let address = ''
/** Which build the host has. */
let build: 'older' | 'newer' = 'older'

/** Makes another build of one: every script has another name, the page is marked, and so the version differs. */
function makeNewer(at: string): void {
  const scripts = readdirSync(join(at, 'assets')).filter(name => name.endsWith('.js'))
  const newName = (name: string) => name.replace(/\.js$/, '-newer.js')
  const renamed = (text: string) => scripts.reduce((all, name) => all.replaceAll(name, newName(name)), text)
  const edit = (file: string, change: (text: string) => string) =>
    writeFileSync(join(at, file), change(renamed(readFileSync(join(at, file), 'utf8'))))
  for (const name of scripts) {
    edit(join('assets', name), text => text)
    renameSync(join(at, 'assets', name), join(at, 'assets', newName(name)))
  }
  edit('index.html', text => text.replace('<html lang="en"', '<html lang="en" data-build="newer"'))
  edit('service-worker.js', text => text.replace(/BUILD_VERSION="\w+"/, 'BUILD_VERSION="newer"'))
}

test.beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'update-'))
  build = 'older'
  for (const name of ['older', 'newer']) cpSync(DIST, join(folder, name), { recursive: true })
  makeNewer(join(folder, 'newer'))
  server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://host')
    const path = normalize(pathname === '/' ? '/index.html' : pathname)
    try {
      const body = readFileSync(join(folder, build, path))
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' })
      response.end(body)
    } catch {
      response.writeHead(404).end()
    }
  })
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve))
  const at = server.address()
  address = `http://127.0.0.1:${typeof at === 'object' ? at?.port : ''}/`
})

test.afterEach(async () => {
  server.closeAllConnections()
  await new Promise(resolve => server.close(resolve))
  rmSync(folder, { recursive: true })
})

const builtAs = (page: Page) => page.evaluate(() => document.documentElement.dataset.build ?? 'older')
const caches = (page: Page) => page.evaluate(() => globalThis.caches.keys())
const waits = (page: Page) =>
  page.evaluate(async () => {
    const worker = await navigator.serviceWorker.getRegistration()
    return worker?.waiting?.state === 'installed'
  })
/** Looks for a newer build, as the browser does at the next start. */
const lookForNewer = (page: Page) =>
  page.evaluate(async () => {
    const worker = await navigator.serviceWorker.getRegistration()
    await worker?.update()
  })

/** One visit, until the page would open without a network. */
async function visitOnce(page: Page): Promise<void> {
  await openPage(page, address)
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  await page.reload()
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
}

test('a newer build waits while a check is under way, and takes over at the start after it', async ({
  page,
}) => {
  await visitOnce(page)
  await page.getByRole('button', { name: /^Losing weight/ }).click()
  await page.getByRole('button', { name: 'None of these' }).click()
  await expect(page.getByText('Urgent signs, page 2 of')).toBeVisible()

  build = 'newer'
  await lookForNewer(page)
  await expect.poll(() => waits(page)).toBe(true)
  // The check goes on, and a reload in the middle of it still opens the older build, whole.
  await page.reload()
  await page.waitForLoadState('networkidle')
  expect(await builtAs(page)).toBe('older')
  await page.getByRole('button', { name: /^Go on where you stopped/ }).click()
  await expect(page.getByText('Urgent signs, page 2 of')).toBeVisible()
  await page.getByRole('button', { name: 'None of these' }).click()
  await expect(page.getByText('Urgent signs, page 3 of')).toBeVisible()
  expect(await caches(page)).toHaveLength(2)
  expect(await waits(page)).toBe(true)

  // Nothing is under way any more: the next start lets the newer one in, and the one after opens it.
  await page.getByRole('link', { name: 'Duskcheck' }).click()
  await page.getByRole('link', { name: /^Delete my answers/ }).click()
  await page.getByRole('button', { name: 'Delete them' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What do you see right now?')
  await page.goto(address)
  await expect.poll(() => waits(page)).toBe(false)
  // A page that is open still gets the files it was made with, though the host has them no more.
  const script = await page.locator('script[src*="/start-"]').getAttribute('src')
  expect(await page.evaluate(async path => (await fetch(path ?? '')).status, script)).toBe(200)
  await page.goto(address)
  expect(await builtAs(page)).toBe('newer')
})

test('a newer build that cannot be fetched whole changes nothing', async ({ page, context }) => {
  await visitOnce(page)
  build = 'newer'
  const [script = ''] =
    readFileSync(join(folder, 'newer', 'index.html'), 'utf8').match(/assets\/start-[^"]+\.js/) ?? []
  rmSync(join(folder, 'newer', script))
  await lookForNewer(page).catch(() => {})
  await expect.poll(() => waits(page)).toBe(false)
  await context.setOffline(true)
  await page.goto(address)
  expect(await builtAs(page)).toBe('older')
  await page.getByRole('button', { name: /^Losing weight/ }).click()
  await expect(page.getByText('Urgent signs, page 1 of')).toBeVisible()
})
