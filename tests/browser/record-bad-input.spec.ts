import { expect, type Page, test } from '@playwright/test'
import { openPage, type Visit } from './harness.ts'

/** What a tired keeper types and which files a tired keeper picks: each gets its sentence, and nothing is half-saved. */

const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10)

/** An invented animal on record, hatched a year ago. */
async function addAnimal(page: Page): Promise<Visit> {
  const visit = await openPage(page, '/#animals')
  await page.getByLabel('Its name').fill('Ember')
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  await page.getByRole('link', { name: /^About/ }).click()
  await page.getByLabel('Hatched on').fill(daysAgo(365))
  await page.getByLabel('How sure is the day').selectOption('sure')
  await page.getByRole('button', { name: 'Save' }).click()
  return visit
}

async function weigh(page: Page, weight: string, day?: string) {
  await page.getByLabel('Weight', { exact: true }).fill(weight)
  if (day !== undefined) {
    if (!(await page.getByLabel('Day', { exact: true }).isVisible()))
      await page.getByText('Another day, the scale, a meal').click()
    await page.getByLabel('Day', { exact: true }).fill(day)
  }
  await page.getByRole('button', { name: 'Save' }).click()
}

/** How many entries the browser has stored. */
const stored = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>(resolve => {
        const open = indexedDB.open('duskcheck')
        open.onsuccess = () => {
          const count = open.result.transaction('entries').objectStore('entries').count()
          count.onsuccess = () => {
            open.result.close()
            resolve(count.result)
          }
        }
      }),
  )

test('weights and days that cannot be are refused in a sentence', async ({ page }) => {
  const visit = await addAnimal(page)
  const before = await stored(page)
  await page.getByRole('link', { name: 'Weigh', exact: true }).click()
  for (const weight of ['0', '-5', '6000', 'abc', '']) {
    await weigh(page, weight)
    await expect(page.getByText(/^Weight .*Accepted: a weight above 0 g and up to 500 g/)).toBeVisible()
  }
  await weigh(page, '58', daysAgo(-2))
  await expect(page.getByText(/^Day .*Accepted: a day up to today\.$/)).toBeVisible()
  await weigh(page, '58', daysAgo(400))
  await expect(page.getByText(/^Day .*Accepted: a time after it hatched on/)).toBeVisible()
  expect(await stored(page), 'nothing was saved').toBe(before)

  await weigh(page, '58,4', daysAgo(0))
  await expect(page.getByText('One weight: 58.4 g today.')).toBeVisible()
  await page.getByRole('link', { name: 'Weigh', exact: true }).click()
  await weigh(page, '60')
  await expect(page.getByText(/^There is a weight of that time already: 58\.4 g/)).toBeVisible()
  expect(await stored(page), 'asked before it is saved').toBe(before + 1)
  await page.getByRole('button', { name: 'Save' }).click()
  await expect(page.getByRole('heading', { level: 1, name: 'Ember' })).toBeVisible()
  expect(await stored(page)).toBe(before + 2)
  visit.expectClean()
})

test('files that cannot be taken are refused in a sentence, and nothing of them is', async ({ page }) => {
  const visit = await addAnimal(page)
  const before = await stored(page)
  await expect(page.getByText('There is no weight yet', { exact: false })).toBeVisible()
  await page.goto('/#keep')
  const backup = page.getByLabel('Read a backup file')
  const table = page.getByLabel('Read a table of weights')
  const refused = page.getByRole('alert').filter({ hasText: 'Nothing was taken in' })
  const file = (name: string, content: string | Buffer) => ({
    name,
    mimeType: 'application/octet-stream',
    buffer: Buffer.from(content),
  })
  const whole = JSON.stringify({
    format: 'duskcheck-backup',
    version: 1,
    written: '2026-01-01T00:00:00Z',
    entries: [],
  })
  const large = Buffer.alloc(50_000_001, 0x20)
  const cases = [
    [backup, file('empty.json', ''), /empty.*something in it/],
    [backup, file('large.json', large), /50 MB.*a file below 50 MB/],
    [
      backup,
      file('picture.json', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13])),
      /no text.*a text file/,
    ],
    [backup, file('half.json', whole.slice(0, -5)), /breaks off, so copy it again/],
    [
      backup,
      file('newer.json', whole.replace('"version":1', '"version":99')),
      /a newer Duskcheck made this file/,
    ],
    [backup, file('other.json', '{"a":1}'), /a backup file made by Duskcheck/],
    [table, file('empty.csv', ''), /empty.*something in it/],
    [table, file('large.csv', large), /50 MB.*a file below 50 MB/],
    [table, file('picture.csv', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13])), /no text.*a text file/],
    [table, file('zero.csv', 'date,weight (g)\n2026-01-02,50\n2026-01-03,0\n'), /row 3.*above 0 g/],
  ] as const
  for (const [field, given, sentence] of cases) {
    await field.setInputFiles(given)
    await expect(refused.filter({ hasText: sentence }), given.name).toBeVisible({ timeout: 20_000 })
  }
  expect(await stored(page), 'nothing was saved').toBe(before)
  visit.expectClean()
})

test('an animal, then all of the record, is deleted for good after one question', async ({ page }) => {
  const visit = await addAnimal(page)
  await page.getByRole('link', { name: /^About/ }).click()
  await page.getByRole('link', { name: 'Delete Ember for good' }).click()
  await expect(page.getByText('This cannot be undone.', { exact: false })).toBeVisible()
  await page.getByRole('button', { name: 'Keep' }).click()
  await expect(page.getByRole('heading', { level: 1, name: 'About Ember' })).toBeVisible()
  expect(await stored(page)).toBeGreaterThan(0)
  await page.getByRole('link', { name: 'Delete Ember for good' }).click()
  await page.getByRole('button', { name: 'Delete for good' }).click()
  await expect(page.getByText('Deleted for good: Ember.')).toBeVisible()
  expect(await stored(page)).toBe(0)

  await page.getByLabel('Its name').fill('Dune')
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  // The app itself goes to the animal's page once it is saved.
  await expect(page.getByText('There is no weight yet', { exact: false })).toBeVisible()
  await page.goto('/#keep')
  await page.getByRole('link', { name: 'Delete the whole record' }).click()
  await page.getByRole('button', { name: 'Delete for good' }).click()
  await expect(page.getByText('None yet.', { exact: false })).toBeVisible()
  expect(await stored(page)).toBe(0)
  await page.reload()
  await expect(page.getByText('None yet.', { exact: false })).toBeVisible()
  visit.expectClean()
})
