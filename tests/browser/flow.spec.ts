import { readFileSync } from 'node:fs'
import { expect, type Page, test } from '@playwright/test'
import { checkAccess, inScheme, openPage } from './harness.ts'

const heading = (page: Page) => page.getByRole('heading', { level: 1 })
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).click()
const START = 'What do you see right now?'

const onPage = (page: Page, number: number) =>
  expect(page.getByText(`Urgent signs, page ${number} of`)).toBeVisible()

/** Says of the urgent signs, page by page, that none is there. */
async function passSigns(page: Page): Promise<void> {
  await onPage(page, 1)
  for (let at = 2; at <= 5; at += 1) {
    await press(page, 'None of these')
    await onPage(page, at)
  }
  await press(page, 'None of these')
  await expect(page.getByText('Urgent signs, page')).toBeHidden()
}

/** A check that ends at once: the first sign of the second door. */
async function reachNow(page: Page): Promise<void> {
  await press(page, /^Blood, wounds or burns/)
  await page.getByRole('checkbox').first().check()
  await press(page, 'This is what I see')
  await expect(heading(page)).toHaveText(/^Phone a vet now/)
}

/** Everything that is fetched after the first load waits until the returned function is called. */
async function holdBackTheRest(page: Page): Promise<() => void> {
  let release: () => void = () => {}
  const released = new Promise<void>(resolve => {
    release = resolve
  })
  await page.route(/\/later-.*\.js$/, async route => {
    await released
    await route.continue()
  })
  return release
}

test('a worry is one tap: after the urgent signs come its own questions', async ({ page }) => {
  const visit = await openPage(page)
  await press(page, /^It lost its tail/)
  await passSigns(page)
  await expect(heading(page)).not.toHaveText('What worries you?')
  const asked = await heading(page).textContent()
  await page.goto('/#answers')
  await expect(page.getByText('It lost its tail')).toBeVisible()
  // It stays an answer like any other.
  await page.getByRole('button', { name: /^Change.*What worries you/ }).click()
  await expect(page.getByLabel(/It lost its tail/)).toBeChecked()
  await page.goBack()
  await page.goBack()
  await expect(heading(page)).toHaveText(asked ?? '')
  visit.expectClean()
})

test('the start page and its questions are accessible in both lights', async ({ page }) => {
  await openPage(page)
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  await page.getByRole('link', { name: 'Duskcheck' }).click()
  for (const view of ['start', 'anew', 'delete']) {
    if (view === 'anew') await press(page, /^Not eating/)
    if (view === 'delete') {
      await page.goBack()
      await page.getByRole('link', { name: /^Delete my answers/ }).click()
    }
    for (const scheme of ['dark', 'light'] as const) {
      await inScheme(page, scheme)
      await checkAccess(page)
    }
  }
})

test('the urgent signs can be answered before the chart has come, and it takes over from there', async ({
  page,
}) => {
  const release = await holdBackTheRest(page)
  const visit = await openPage(page)
  await press(page, /^It lost its tail/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  await press(page, 'Back')
  await onPage(page, 1)
  await passSigns(page)
  await expect(page.getByRole('status')).toHaveText(/still on their way/)
  release()
  await expect(heading(page)).toHaveText(/\?$/)
  await press(page, 'Back')
  await onPage(page, 5)
  visit.expectClean()
})

test('a sign at now is told to phone before the chart has come', async ({ page }) => {
  const release = await holdBackTheRest(page)
  const visit = await openPage(page)
  await reachNow(page)
  await expect(page.getByRole('status')).toHaveText(/still on their way/)
  release()
  await expect(page.getByRole('heading', { name: /What to do now|First this, then phone/ })).toBeVisible()
  visit.expectClean()
})

test('the browser’s Back goes one question back, and to the start from the first', async ({ page }) => {
  await openPage(page)
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  // The last line of this page is a sign for which a day is soon enough, so the questions go on.
  await page.getByRole('checkbox').last().check()
  await press(page, 'This is what I see')
  await onPage(page, 2)
  await press(page, 'None of these')
  await onPage(page, 3)
  // A view over the case is one step of its own.
  await page.getByRole('link', { name: /Phone a vet/ }).click()
  await expect(heading(page)).toHaveText('Whom to phone')
  await page.goBack()
  await onPage(page, 3)
  await page.goBack()
  await onPage(page, 2)
  // The button and the browser count together.
  await press(page, 'None of these')
  await onPage(page, 3)
  await press(page, 'Back')
  await onPage(page, 2)
  await page.goBack()
  await onPage(page, 1)
  await expect(page.getByRole('checkbox').last()).toBeChecked()
  await page.goBack()
  await expect(heading(page)).toHaveText(START)
})

test('Back from an outcome shows the sign that was ticked, still ticked', async ({ page }) => {
  await openPage(page)
  await reachNow(page)
  await page.goBack()
  await expect(page.getByRole('checkbox').first()).toBeChecked()
})

test('after a reload Back goes through the questions of the case that was taken up', async ({ page }) => {
  await openPage(page)
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  await press(page, 'None of these')
  await onPage(page, 3)
  await page.reload()
  await press(page, /^Go on where you stopped/)
  await onPage(page, 3)
  await page.goBack()
  await onPage(page, 2)
  await page.goBack()
  await onPage(page, 1)
})

test('a door asks first where another check is not finished, and both ways keep it', async ({ page }) => {
  await openPage(page)
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  await page.reload()
  await expect(page.getByRole('button', { name: /^Go on where you stopped/ })).toBeVisible()
  await press(page, /^Not eating/)
  await expect(heading(page)).toHaveText('Go on, or begin anew?')
  await expect(heading(page)).toBeFocused()
  await press(page, 'Go on with it')
  await onPage(page, 2)
  await page.getByRole('link', { name: 'Duskcheck' }).click()
  await press(page, /^Not eating/)
  await press(page, 'Begin anew')
  await onPage(page, 1)
  const cases = await page.evaluate(
    () =>
      new Promise<number>(resolve => {
        const open = indexedDB.open('duskcheck')
        open.onsuccess = () => {
          const all = open.result.transaction('events').objectStore('events').getAllKeys()
          all.onsuccess = () => {
            open.result.close()
            resolve(new Set(all.result.map(key => String(Array.isArray(key) ? key[0] : key))).size)
          }
        }
      }),
  )
  expect(cases).toBe(2)
})

test('an outcome is there to look at again, with its time, until another check begins', async ({ page }) => {
  await page.clock.install({ time: new Date('2026-11-24T22:10:00Z') })
  await openPage(page)
  await reachNow(page)
  await page.clock.setSystemTime(new Date('2026-11-26T08:00:00Z'))
  await page.reload()
  await page.getByRole('button', { name: /^Look at the last outcome/ }).click()
  await expect(heading(page)).toHaveText(/^Phone a vet now/)
  await expect(page.getByText(/^You got this outcome on Tuesday at/)).toBeVisible()
  // A new check does not need to ask: the last one is over.
  await page.getByRole('link', { name: 'Duskcheck' }).click()
  await press(page, /^Not eating/)
  await onPage(page, 1)
})

test('what may have changed since an outcome is asked again', async ({ page }) => {
  await page.clock.install({ time: new Date('2026-11-24T22:10:00Z') })
  await openPage(page)
  await reachNow(page)
  await page.clock.setSystemTime(new Date('2026-11-26T08:00:00Z'))
  await page.reload()
  await press(page, /^Look at the last outcome/)
  await press(page, 'Ask again what may have changed')
  await onPage(page, 1)
})

test('all answers can be deleted from the start page, after one question', async ({ page }) => {
  await openPage(page)
  await expect(page.getByRole('link', { name: /^Delete my answers/ })).toBeHidden()
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  await page.getByRole('link', { name: 'Duskcheck' }).click()
  await page.getByRole('link', { name: /^Delete my answers/ }).click()
  await expect(heading(page)).toHaveText('Delete your answers?')
  await press(page, 'Keep them')
  await page.getByRole('link', { name: /^Delete my answers/ }).click()
  await press(page, 'Delete them')
  await expect(heading(page)).toHaveText(START)
  await expect(page.getByRole('button', { name: /^Go on where you stopped/ })).toBeHidden()
  await page.reload()
  await page.waitForLoadState('networkidle')
  await expect(page.getByRole('button', { name: /^Go on where you stopped/ })).toBeHidden()
})

test('what the browser does not keep can be saved as a file', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined })
  })
  const visit = await openPage(page)
  await press(page, /^Losing weight/)
  await onPage(page, 1)
  await press(page, 'None of these')
  await onPage(page, 2)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    press(page, 'Save my answers as a file'),
  ])
  const saved: unknown = JSON.parse(readFileSync(await download.path(), 'utf8'))
  expect(saved).toMatchObject({ format: 'duskcheck-events', version: 1 })
  expect(JSON.stringify(saved).match(/"answered"/g)).toHaveLength(3)
  visit.expectClean()
})
