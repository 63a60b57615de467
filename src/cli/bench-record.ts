import { type CDPSession, chromium, type Page } from '@playwright/test'
import { preview } from 'vite'
import { findChromium } from './chromium.mjs'
import { buildIfNeeded } from './steps/build.mjs'
import { ROOT } from './steps/places.mjs'
import { freePort, HOST } from './steps/start.mjs'

/** What a weighing costs on a phone: the real app in a real Chromium slowed down, with ten years of days on record. */

const SLOWER = 4
const DAYS = 3650
const ROUNDS = 9
const ANIMAL = 'invented'

export interface WeighInCost {
  /** From pressing Save to the first picture with the new chart, in milliseconds of the clock. */
  readonly wallMs: number
  /** What the page's main thread worked in that time, script, style, layout and painting: other programs do not count. */
  readonly threadMs: number
  /** Of it, script alone. */
  readonly scriptMs: number
}

/** Medians of nine weighings, each in a page that was opened for it. */
export async function weighInCost(): Promise<WeighInCost> {
  await buildIfNeeded()
  process.chdir(ROOT)
  const port = await freePort(4300)
  const server = await preview({ logLevel: 'error', preview: { host: HOST, port, strictPort: true } })
  const program = findChromium()
  const browser = await chromium.launch({
    ...(program === undefined ? {} : { executablePath: program }),
    args: ['--no-sandbox', '--disable-gpu'],
  })
  try {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 }, serviceWorkers: 'block' })
    // What compiles this file wraps named functions in a helper of its own, which the page does not have.
    await page.addInitScript({ content: 'globalThis.__name ??= value => value' })
    const home = `http://${HOST}:${port}/`
    await page.goto(`${home}#animals`)
    await page.getByLabel('Its name').waitFor()
    await fill(page)
    const devtools = await page.context().newCDPSession(page)
    await devtools.send('Performance.enable', { timeDomain: 'threadTicks' })
    const costs: WeighInCost[] = []
    for (let round = 0; round < ROUNDS; round += 1) {
      costs.push(await weighOnce(page, devtools, home))
      await forgetToday(page)
    }
    return {
      wallMs: middle(costs.map(({ wallMs }) => wallMs)),
      threadMs: middle(costs.map(({ threadMs }) => threadMs)),
      scriptMs: middle(costs.map(({ scriptMs }) => scriptMs)),
    }
  } finally {
    await browser.close()
    await server.close()
  }
}

const middle = (times: readonly number[]) =>
  [...times].sort((one, other) => one - other)[times.length >> 1] ?? Number.NaN

/** Opens the animal, goes to Weigh, types a weight, presses Save, and waits for the chart. */
async function weighOnce(page: Page, devtools: CDPSession, home: string): Promise<WeighInCost> {
  await page.goto('about:blank')
  await page.goto(`${home}#animal/${ANIMAL}`)
  await page.locator('svg.chart').waitFor()
  await page.getByRole('link', { name: 'Weigh', exact: true }).click()
  await page.getByLabel('Weight', { exact: true }).fill('60.4')
  const place = await page.getByRole('button', { name: 'Save' }).boundingBox()
  const [x, y] = [(place?.x ?? 0) + 20, (place?.y ?? 0) + 20]
  await page.mouse.move(x, y)
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  await page.waitForTimeout(500)
  await page.evaluate(listen)
  const before = await worked(devtools)
  await page.mouse.click(x, y)
  const wallMs = await page.evaluate(() => Reflect.get(globalThis, 'chartDrawn') as Promise<number>)
  const after = await worked(devtools)
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: 1 })
  return { wallMs, threadMs: after.task - before.task, scriptMs: after.script - before.script }
}

/** Runs in the page: a promise of the time from the press to the picture after the one in which the chart stands. */
function listen(): void {
  const drawn = new Promise<number>(resolve => {
    let pressedAt = Number.NaN
    addEventListener(
      'click',
      ({ timeStamp }) => {
        pressedAt = timeStamp
      },
      { capture: true, once: true },
    )
    const watch = new MutationObserver(() => {
      if (Number.isNaN(pressedAt) || document.querySelector('svg.chart') === null) return
      watch.disconnect()
      // A message sent from a frame's own callback comes once that frame is painted.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel()
        port1.onmessage = () => resolve(performance.now() - pressedAt)
        port2.postMessage(undefined)
      })
    })
    watch.observe(document.body, { childList: true, subtree: true })
  })
  Object.assign(globalThis, { chartDrawn: drawn })
}

/** What the main thread has worked so far, in milliseconds of its own clock. */
async function worked(devtools: CDPSession): Promise<{ task: number; script: number }> {
  const { metrics } = await devtools.send('Performance.getMetrics')
  const of = (name: string) => 1000 * (metrics.find(one => one.name === name)?.value ?? Number.NaN)
  return { task: of('TaskDuration'), script: of('ScriptDuration') }
}

/** Puts ten years of daily weighings up to yesterday into the browser's store. */
async function fill(page: Page): Promise<void> {
  await page.evaluate(
    async ([days, animalId]) => {
      const today = Math.floor(Date.now() / 86_400_000) * 86_400_000
      const at = (day: number) =>
        new Date(today - (days - day) * 86_400_000 + 28_800_000 * Math.random()).toISOString()
      const entries = [
        { entryId: 'animal', written: at(0), animalId, kind: 'animal', animal: { name: 'Invented' } },
        ...Array.from({ length: days }, (_, day) => ({
          entryId: `entry-${day}`,
          written: at(day),
          animalId,
          kind: 'weigh-in',
          itemId: `item-${day}`,
          weighIn: {
            at: at(day),
            massGrams: Math.round(10 * (60 + 3 * Math.sin(day / 90) + Math.sin(day * day))) / 10,
            scaleStepGrams: 0.1,
          },
        })),
      ]
      await new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('duskcheck')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const transaction = open.result.transaction('entries', 'readwrite')
          for (const entry of entries) transaction.objectStore('entries').put(entry)
          transaction.onerror = () => reject(transaction.error)
          transaction.oncomplete = () => {
            open.result.close()
            resolve()
          }
        }
      })
    },
    [DAYS, ANIMAL] as const,
  )
}

/** Takes today's weighing out again, so that each round finds the same record. */
async function forgetToday(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('duskcheck')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const transaction = open.result.transaction('entries', 'readwrite')
          const walk = transaction.objectStore('entries').openCursor()
          walk.onsuccess = () => {
            const cursor = walk.result
            if (cursor === null) return
            if (!/^(?:entry-|animal$)/.test(String(cursor.key))) cursor.delete()
            cursor.continue()
          }
          transaction.oncomplete = () => {
            open.result.close()
            resolve()
          }
        }
      }),
  )
}
