import { fileURLToPath } from 'node:url'
import type { BrowserContext, Page } from '@playwright/test'
import { build } from 'vite'

/** What the bundle below offers in the page. */
type Records = typeof import('./record-bundle.ts')

/** The record's core as a browser loads it, by file name; made once for each worker. */
let bundled: Promise<ReadonlyMap<string, string>> | undefined

async function bundle(): Promise<ReadonlyMap<string, string>> {
  const built = await build({
    configFile: false,
    logLevel: 'warn',
    build: {
      write: false,
      target: 'es2022',
      modulePreload: false,
      lib: {
        entry: fileURLToPath(new URL('./record-bundle.ts', import.meta.url)),
        formats: ['es'],
        fileName: 'records',
      },
    },
  })
  const outputs = (Array.isArray(built) ? built : [built]).flatMap(one => ('output' in one ? one.output : []))
  return new Map(outputs.flatMap(one => (one.type === 'chunk' ? [[one.fileName, one.code] as const] : [])))
}

/**
 * Serves an empty page of the app's origin that has the record's core, and nothing of the app, so that the store is
 * tried by itself in a real browser.
 */
export async function serveRecords(context: BrowserContext): Promise<void> {
  bundled ??= bundle()
  const files = await bundled
  await context.route('**/record-test/**', route => {
    const name = new URL(route.request().url()).pathname.replace(/^.*\/record-test\//, '')
    const code = files.get(name)
    return code === undefined
      ? route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Record</title>' })
      : route.fulfill({ contentType: 'text/javascript', body: code })
  })
}

/** Opens the empty page, and the store in it as `store`. */
export async function openRecord(page: Page, home = ''): Promise<void> {
  await page.goto(`${home}/record-test/`)
  await loadStore(page)
}

/** Opens the store in the page as it stands, after a reload for example. */
export async function loadStore(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const address = '/record-test/records.js'
    const records: Records = await import(address)
    const store = records.openKeeperStore('duskcheck', { retryAfterMs: 50 })
    await store.opened
    Object.assign(window, { records, store })
  })
}

declare global {
  interface Window {
    records: Records
    store: ReturnType<Records['openKeeperStore']>
  }
}
