import { expect, type Page, test } from '@playwright/test'
import { openPage } from './harness.ts'

/** How somebody answers: the first line of every list, or none of them where that can be said. */
type Habit = 'first' | 'none'

/** Answers whatever is asked until there is an outcome; returns how many screens that took. */
async function walk(page: Page, habit: Habit): Promise<number> {
  const form = page.locator('form.question-form')
  await form.waitFor()
  for (let screens = 0; screens < 60; screens += 1) {
    if ((await form.count()) === 0) return screens
    const asked = await page.locator('h1').textContent()
    const lines = form.locator('input[type=radio], input[type=checkbox]')
    const isSeveral = (await form.locator('input[type=checkbox]').count()) > 0
    const cannot = page.getByRole('button', { name: /can’t (measure|weigh)/ })
    if (await cannot.count()) await cannot.click()
    else {
      const canBeNone = isSeveral && (await page.getByRole('button', { name: 'Continue' }).count()) === 0
      const isDone = habit === 'none' && canBeNone
      if (!isDone) await lines.first().check()
      await page.locator('button[form=question-form]').click()
    }
    await expect
      .poll(async () => (await form.count()) === 0 || (await page.locator('h1').textContent()) !== asked)
      .toBe(true)
  }
  throw new Error('No outcome after 60 screens.')
}

const files = (requests: readonly string[]) => requests.map(address => new URL(address).pathname)

test('everything comes from this origin, in one order, before anything is answered', async ({ page }) => {
  const visit = await openPage(page)
  await page.waitForLoadState('networkidle')
  const loaded = [...visit.requests]
  const own = loaded.filter(address => !address.startsWith('data:'))
  for (const address of own) {
    expect(new URL(address).origin).toBe(new URL(page.url()).origin)
    expect(new URL(address).search, 'no query').toBe('')
  }
  await page.getByRole('button', { name: /^More than one of these/ }).click()
  await walk(page, 'none')
  expect(visit.requests, 'no request during the walk').toEqual(loaded)
  visit.expectClean()
})

test('what is fetched does not tell what was answered', async ({ browser }) => {
  const orders: string[][] = []
  for (const habit of ['first', 'none'] as const) {
    // A context of its own has neither the cache nor the store of the other.
    const context = await browser.newContext()
    const page = await context.newPage()
    const visit = await openPage(page)
    // At once, while the later content is still on its way.
    await page.getByRole('button', { name: /^More than one of these/ }).click()
    await walk(page, habit)
    await page.waitForLoadState('networkidle')
    visit.expectClean()
    orders.push(files(visit.requests.filter(address => !address.startsWith('data:'))))
    await context.close()
  }
  expect(orders[0]?.length).toBeGreaterThan(5)
  expect(orders[0]).toEqual(orders[1])
})

test('a case left unfinished changes nothing in what is fetched', async ({ page }) => {
  const visit = await openPage(page)
  await page.waitForLoadState('networkidle')
  const first = files(visit.requests)
  await page.getByRole('button', { name: /^More than one of these/ }).click()
  await page.locator('button[form=question-form]').click()
  await expect(page.getByText(/page 2 of/)).toBeVisible()
  const before = visit.requests.length
  await page.goto('/')
  await page.waitForLoadState('networkidle')
  await expect(page.getByRole('button', { name: /^Go on where you stopped/ })).toBeVisible()
  expect(files(visit.requests.slice(before))).toEqual(first)
})

test('desk work is fetched when its screen is opened, as files of the tool without a query, and never before', async ({
  page,
}) => {
  const visit = await openPage(page)
  await page.waitForLoadState('networkidle')
  // What the worker keeps for a day without a network, it fetches by itself; these are the page's own requests.
  // The clinic's part comes last at every visit, whatever was answered.
  const desk = () => files(visit.requests).filter(path => /\/desk-(?!Clinic|save-file)/.test(path))
  const fetched = async (hash: string, heading: string) => {
    const before = desk().length
    await page.evaluate(to => {
      location.hash = to
    }, hash)
    await expect(page.getByRole('heading', { level: 1, name: heading })).toBeVisible()
    await page.waitForLoadState('networkidle')
    return desk().slice(before)
  }
  expect(desk()).toEqual([])
  expect(await fetched('#animals', 'Your animals')).toEqual([])
  expect((await fetched('#keep', 'Keep and move the record')).length).toBeGreaterThan(0)
  await expect(page.getByLabel('Read a backup file')).toBeVisible()
  // The same files hold the shelf.
  expect(await fetched('#shelf', 'The whole shelf')).toEqual([])
  for (const address of visit.requests.filter(address => address.includes('/desk-')))
    expect(new URL(address).search, 'no query').toBe('')
  visit.expectClean()
})

test('the policy is in the page and in the headers', async ({ page, request }) => {
  await openPage(page)
  const policy = await page.locator('meta[http-equiv=Content-Security-Policy]').getAttribute('content')
  const headers = (await request.get('/')).headers()
  expect(headers['content-security-policy']).toBe(`${policy}; frame-ancestors 'none'`)
  expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer' })
  expect(policy).not.toContain('unsafe')
  expect(policy).not.toMatch(/https?:|\*/)
})
