import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, type Page } from '@playwright/test'

/** What a page did while a test used it. The lists go on growing until the page is closed. */
export type Visit = {
  /** Every address asked for, in order. */
  readonly requests: readonly string[]
  /** What the Content-Security-Policy refused: directive and what it was about. */
  readonly violations: readonly string[]
  readonly consoleErrors: readonly string[]
  readonly pageErrors: readonly string[]
  /** Requests that failed or were answered with 400 or more. */
  readonly failedRequests: readonly string[]
  /** Fails when anything was refused, went wrong, or left for another host. */
  readonly expectClean: () => void
}

const visits = new WeakMap<Page, Visit>()

const REPORT = '__duskcheckReportViolation'

/**
 * Opens a path of the app and writes down all that the page does. A second call on the same page only
 * navigates; the lists go on.
 *
 * @example
 * const visit = await openPage(page, '/')
 * await page.getByRole('button', { name: 'Start' }).click()
 * visit.expectClean()
 */
export async function openPage(page: Page, path = '/'): Promise<Visit> {
  const visit = visits.get(page) ?? (await watch(page))
  await page.goto(path)
  return visit
}

async function watch(page: Page): Promise<Visit> {
  const requests: string[] = []
  const violations: string[] = []
  const consoleErrors: string[] = []
  const pageErrors: string[] = []
  const failedRequests: string[] = []

  page.on('request', request => requests.push(request.url()))
  page.on('requestfailed', request => {
    const why = request.failure()?.errorText ?? ''
    // A navigation that overtakes another is no fault.
    if (why !== 'net::ERR_ABORTED') failedRequests.push(`${request.url()} ${why}`)
  })
  page.on('response', response => {
    if (response.status() >= 400) failedRequests.push(`${response.url()} ${response.status()}`)
  })
  page.on('console', message => {
    if (message.type() === 'error') consoleErrors.push(message.text())
  })
  page.on('pageerror', error => pageErrors.push(error.stack ?? String(error)))
  await page.exposeFunction(REPORT, (line: string) => violations.push(line))
  await page.addInitScript(name => {
    document.addEventListener('securitypolicyviolation', event => {
      const report: unknown = Reflect.get(window, name)
      const line = `${event.effectiveDirective}: ${event.blockedURI || event.sample} (${event.sourceFile}:${event.lineNumber})`
      if (typeof report === 'function') report(line)
    })
  }, REPORT)

  const visit: Visit = {
    requests,
    violations,
    consoleErrors,
    pageErrors,
    failedRequests,
    expectClean: () => {
      const home = new URL(page.url()).origin
      const elsewhere = requests.filter(url => /^(https?|wss?):/.test(url) && new URL(url).origin !== home)
      expect.soft(violations, 'refused by the Content-Security-Policy').toEqual([])
      expect.soft(pageErrors, 'errors thrown in the page').toEqual([])
      expect.soft(consoleErrors, 'errors on the console').toEqual([])
      expect.soft(failedRequests, 'failed requests').toEqual([])
      expect(elsewhere, 'requests to another host').toEqual([])
    },
  }
  visits.set(page, visit)
  return visit
}

const AXE_SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const AXE_TAGS = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']

/**
 * Runs axe-core over the page as it stands and expects no violation. Evaluates the source instead of adding a
 * script element, which the page's Content-Security-Policy would refuse.
 *
 * @param rules only these rules, where the rest cannot have changed since the last look
 */
export async function checkAccess(page: Page, rules?: readonly string[]): Promise<void> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE_SOURCE)
  const found = await page.evaluate(
    async ([tags, only]) => {
      const axe: typeof import('axe-core') = Reflect.get(window, 'axe')
      const { violations } = await axe.run(document, {
        runOnly: only ? { type: 'rule', values: [...only] } : { type: 'tag', values: [...tags] },
        resultTypes: ['violations'],
      })
      return violations.map(
        ({ id, help, nodes }) => `${id}: ${help}\n    ${nodes.map(node => node.html).join('\n    ')}`,
      )
    },
    [AXE_TAGS, rules] as const,
  )
  expect(found, 'what axe-core found').toEqual([])
}

/** Everything in the dark; in the other schemes what depends on colour, which is all that they change. */
export async function checkInEveryScheme(page: Page): Promise<void> {
  await inScheme(page, 'dark')
  await checkAccess(page)
  for (const scheme of ['light', 'forced'] as const) {
    await inScheme(page, scheme)
    await checkAccess(page, ['color-contrast', 'link-in-text-block'])
  }
  await inScheme(page, 'dark')
}

export type Scheme = 'dark' | 'light' | 'forced'

/** Shows the page as someone sees it who asked for dark, for light, or for forced colours. */
export async function inScheme(page: Page, scheme: Scheme): Promise<void> {
  await page.emulateMedia(
    scheme === 'forced' ? { forcedColors: 'active' } : { colorScheme: scheme, forcedColors: 'none' },
  )
}
