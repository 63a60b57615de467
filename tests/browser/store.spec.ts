import { expect, type Page, test } from '@playwright/test'
import { openPage } from './harness.ts'

const NOT_KEPT = 'This browser does not keep your answers at the moment.'

async function begin(page: Page) {
  await page.getByRole('button', { name: /^More than one of these/ }).click()
  await onPage(page, 1)
}

/** Says that nothing of this page of signs is there, and waits for the next. */
async function answerPage(page: Page, number: number) {
  await page.locator('button[form=question-form]').click()
  await onPage(page, number + 1)
}

const onPage = (page: Page, number: number) =>
  expect(page.getByText(`Urgent signs, page ${number} of`)).toBeVisible()

async function resume(page: Page, answers: number) {
  const card = page.getByRole('button', { name: /^Go on where you stopped/ })
  await expect(card).toContainText(`${answers} answer`)
  await card.click()
}

/** How many events each case has in the browser's store. */
const stored = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number[]>((resolve, reject) => {
        const open = indexedDB.open('duskcheck')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const all = open.result.transaction('events').objectStore('events').getAllKeys()
          all.onerror = () => reject(all.error)
          all.onsuccess = () => {
            open.result.close()
            const counts = new Map<string, number>()
            for (const key of all.result) {
              const caseId = String(Array.isArray(key) ? key[0] : key)
              counts.set(caseId, (counts.get(caseId) ?? 0) + 1)
            }
            resolve([...counts.values()].sort())
          }
        }
      }),
  )

test('a reload keeps every answer and goes on at the same question', async ({ page }) => {
  const visit = await openPage(page)
  await begin(page)
  await answerPage(page, 1)
  await answerPage(page, 2)
  await page.reload()
  await resume(page, 2)
  await onPage(page, 3)
  await answerPage(page, 3)
  await page.reload()
  await resume(page, 3)
  await onPage(page, 4)
  visit.expectClean()
})

test('without a store the walk goes on and the page says so', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined })
  })
  const visit = await openPage(page)
  await begin(page)
  await expect(page.getByText(NOT_KEPT)).toBeVisible()
  await answerPage(page, 1)
  await answerPage(page, 2)
  await expect(page.getByText(NOT_KEPT)).toBeVisible()
  visit.expectClean()
})

test('a store that comes back gets everything', async ({ page }) => {
  await page.addInitScript(() => {
    const { open } = IDBFactory.prototype
    IDBFactory.prototype.open = function (...request) {
      if (sessionStorage.getItem('allowed') === null) throw new DOMException('no', 'SecurityError')
      return open.apply(this, request)
    }
  })
  await openPage(page)
  await begin(page)
  await answerPage(page, 1)
  await expect(page.getByText(NOT_KEPT)).toBeVisible()
  await page.evaluate(() => sessionStorage.setItem('allowed', 'yes'))
  await answerPage(page, 2)
  await expect(page.getByText(NOT_KEPT)).toBeHidden()
  await page.reload()
  await resume(page, 2)
  await onPage(page, 3)
})

test('a store deleted while the page is open is written again', async ({ page }) => {
  await openPage(page)
  await begin(page)
  await answerPage(page, 1)
  await page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const request = indexedDB.deleteDatabase('duskcheck')
        request.onsuccess = resolve
        request.onerror = reject
      }),
  )
  await answerPage(page, 2)
  await expect.poll(() => stored(page)).toEqual([4])
  await page.reload()
  await resume(page, 2)
  await onPage(page, 3)
})

test('two tabs on one case never overwrite each other', async ({ page, context }) => {
  await openPage(page)
  await begin(page)
  await answerPage(page, 1)
  const other = await context.newPage()
  await openPage(other)
  await resume(other, 1)
  await onPage(other, 2)
  await answerPage(page, 2)
  await answerPage(other, 2)
  await answerPage(other, 3)
  // One case with both answers, and one that went its own way with three.
  expect(await stored(page)).toEqual([4, 5])
})

test('after one visit the page opens and keeps answers without a network', async ({ page, context }) => {
  await openPage(page)
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  await context.setOffline(true)
  await page.goto('/')
  await begin(page)
  await answerPage(page, 1)
  await page.reload()
  await resume(page, 1)
  await onPage(page, 2)
})
