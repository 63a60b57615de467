import { expect, type Page, test } from '@playwright/test'
import { checkAccess, inScheme, openPage, type Visit } from './harness.ts'

/** A paper notebook of 40 weeks, invented: it gains slowly, with the wobble of a kitchen scale. */
const NOTEBOOK = Array.from({ length: 40 }, (_, week) => {
  const wobble = [0, 0.4, -0.3, 0.5, -0.5, 0.2, 0.3, -0.1][week % 8] ?? 0
  return Math.round((56 + week * 0.1 + wobble) * 10) / 10
})

const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10)

async function addAnimal(page: Page, name: string): Promise<Visit> {
  const visit = await openPage(page, '/#animals')
  await page.getByLabel('Its name').fill(name)
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible()
  return visit
}

/** Types a notebook in, by keyboard alone, beginning so many weeks ago. */
async function typeNotebook(page: Page, weights: readonly number[], lastDaysAgo = 0) {
  await page.getByRole('link', { name: /^Type in a notebook/ }).click()
  await page.getByLabel('Day', { exact: true }).fill(daysAgo(lastDaysAgo + 7 * (weights.length - 1)))
  await page.getByLabel('Weight', { exact: true }).focus()
  for (const [line, weight] of weights.entries()) {
    await page.keyboard.type(String(weight))
    await page.keyboard.press('Enter')
    await expect(page.getByText(`${line + 1} in so far.`)).toBeVisible()
  }
  await page.getByRole('link', { name: 'Done' }).click()
}

/** Nothing may stand out over the edge of a narrow screen. */
async function expectNoSidewaysScroll(page: Page) {
  const { content, window } = await page.evaluate(() => ({
    content: document.documentElement.scrollWidth,
    window: innerWidth,
  }))
  expect(content, `sideways at ${page.url()}`).toBeLessThanOrEqual(window)
}

test('a keeper with a paper notebook enters 40 weights and reads a true sentence', async ({ page }) => {
  const visit = await addAnimal(page, 'Ember')
  await typeNotebook(page, NOTEBOOK)
  // A tenth of a gram a week is what the notebook holds.
  const sentence = page.getByText('Its weight goes up: 59.8 g today.')
  await expect(sentence).toBeVisible()
  await expect(page.getByText('Per week: +0.2 %, and likely between 0 % and +0.3 %.')).toBeVisible()
  await expect(page.locator('svg.chart .chart-fit')).toHaveCSS('stroke-width', '3px')

  await page.reload()
  await expect(sentence).toBeVisible()
  await page.getByText('The same as a table').click()
  await expect(page.getByRole('row')).toHaveCount(41)
  visit.expectClean()
})

test('a weighing takes two taps and a number; it can be changed, deleted and brought back', async ({
  page,
}) => {
  const visit = await addAnimal(page, 'Ember')
  await page.getByRole('link', { name: 'Weigh', exact: true }).click()
  await expect(page.getByLabel('Weight', { exact: true })).toBeFocused()
  await page.keyboard.type('58')
  await page.getByRole('button', { name: 'Save' }).click()
  await expect(page.getByText('One weight: 58 g today.')).toBeVisible()

  await page.getByRole('link', { name: /^All entries/ }).click()
  await page.getByRole('link', { name: /^Change/ }).click()
  await page.getByLabel('Weight', { exact: true }).fill('57.5')
  await page.getByRole('button', { name: 'Save' }).click()
  await expect(page.getByText('One weight: 57.5 g today.')).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByText('One weight: 58 g today.')).toBeVisible()

  await page.getByRole('link', { name: /^All entries/ }).click()
  await page.getByRole('button', { name: /^Delete/ }).click()
  await expect(page.getByText('There is no entry yet.')).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByRole('listitem')).toContainText('58 g')
  await page.reload()
  await expect(page.getByRole('listitem')).toContainText('58 g')
  visit.expectClean()
})

test('arrow keys walk along the weights of the chart', async ({ page }) => {
  await addAnimal(page, 'Ember')
  await typeNotebook(page, [60, 60.5, 60.2])
  const slider = page.getByRole('slider', { name: 'Walk along the weights' })
  await slider.focus()
  await page.keyboard.press('ArrowLeft')
  await expect(slider).toHaveAttribute('aria-valuetext', /: 60\.5 g, /)
  await page.keyboard.press('ArrowLeft')
  await expect(slider).toHaveAttribute('aria-valuetext', /: 60 g, /)
})

test('a newest weight far off asks for a second one at once', async ({ page }) => {
  await addAnimal(page, 'Ember')
  await typeNotebook(page, [60, 61, 60, 60.5, 52])
  await expect(page.getByText('Weigh it a second time now')).toBeVisible()
  await page.getByRole('link', { name: 'Weigh again' }).click()
  await expect(page.locator('input:focus')).toBeVisible()
  await page.keyboard.type('52.5')
  await page.keyboard.press('Enter')
  await expect(page.getByText('Weigh it a second time now')).toBeHidden()
  await expect(page.getByText(/^It lost 8 g: 52\.5 g today/)).toBeVisible()
})

test('a backup made here brings the record back into an empty browser', async ({ page, browser }) => {
  await addAnimal(page, 'Ember')
  await typeNotebook(page, [60, 60.5])
  await page.goto('/#keep')
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a backup file' }).click(),
  ])
  const file = await download.path()
  const other = await browser.newContext()
  const empty = await other.newPage()
  await empty.goto(new URL('/#keep', page.url()).href)
  await empty.getByLabel('Read a backup file').setInputFiles(file)
  await expect(empty.getByText('Ember: a new animal, 2 new.')).toBeVisible()
  await empty.getByRole('button', { name: 'Take it in' }).click()
  await empty.getByRole('link', { name: 'Animals' }).click()
  await expect(empty.getByRole('link', { name: /^Ember/ })).toBeVisible()
  await other.close()
})

test('without a store the record goes on in memory, says so, and offers the file', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined })
  })
  await addAnimal(page, 'Ember')
  await expect(page.getByText('This browser keeps nothing at the moment.')).toBeVisible()
  await page.getByRole('link', { name: 'Save a file' }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a backup file' }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/^duskcheck-\d{4}-\d{2}-\d{2}\.json$/)
})

for (const scheme of ['dark', 'light'] as const) {
  test(`every screen of the record is accessible in ${scheme} at 320 and 1280`, async ({ page }) => {
    test.setTimeout(180_000)
    await page.setViewportSize({ width: 320, height: 700 })
    await inScheme(page, scheme)
    const visit = await addAnimal(page, 'Ember')
    await typeNotebook(page, [60, 61, 60, 60.5, 52])
    await page.getByText('The same as a table').click()
    const home = new URL(page.url()).hash
    const parts = ['', '/weigh', '/happened', '/past', '/look', '/notebook', '/about']
    const screens = [
      ...parts.map(part => home + part),
      '#animals',
      '#shelf',
      '#shelf/cards',
      '#keep',
      '#animal/nobody',
    ]
    for (const width of [320, 1280]) {
      await page.setViewportSize({ width, height: 800 })
      for (const hash of screens) {
        await page.goto(`/${hash}`)
        await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(/^(?:Duskcheck|)$/)
        await checkAccess(page)
        await expectNoSidewaysScroll(page)
      }
    }
    visit.expectClean()
  })
}

/** The checks that the browser has stored with an animal. */
const keptChecks = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<{ urgency: unknown; weighIns: unknown }[]>((resolve, reject) => {
        const open = indexedDB.open('duskcheck')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const all = open.result.transaction('entries').objectStore('entries').getAll()
          all.onerror = () => reject(all.error)
          all.onsuccess = () => {
            open.result.close()
            const checks = all.result.filter(({ kind }) => kind === 'assessment')
            resolve(
              checks.map(({ assessment }) => ({
                urgency: assessment.urgency,
                weighIns: assessment.caseFile.weighIns.length,
              })),
            )
          }
        }
      }),
  )

test('a check begun for an animal takes its weights along and is kept with it', async ({ page }) => {
  const visit = await addAnimal(page, 'Ember')
  await typeNotebook(page, [60, 61, 60, 60.5, 52])
  const home = new URL(page.url()).hash
  await page.getByRole('button', { name: /^Start a check for Ember/ }).click()
  const form = page.locator('form#question-form')
  await expect(form).toBeVisible()
  // A danger sign that needs a vet now ends the questions at once.
  await page.getByRole('checkbox').first().check()
  await page.locator('button[form=question-form]').click()
  await expect(page.locator('.first-line')).toBeVisible()
  await expect.poll(async () => (await keptChecks(page)).length).toBe(1)
  await page.goto(`/${home}/past`)
  await expect(page.getByRole('listitem').filter({ hasText: 'A check' })).toBeVisible()
  // Everything it used is kept with it: the five weights of the record among it.
  expect(await keptChecks(page)).toEqual([{ urgency: 'now', weighIns: 5 }])
  visit.expectClean()
})
