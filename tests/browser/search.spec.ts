import { expect, type Page, test } from '@playwright/test'
import { labels } from '../../src/app/wording/labels.ts'
import { checkAccess, checkInEveryScheme, openPage } from './harness.ts'
import { compiled } from './seeded.ts'

/** Finding the door on the start page, in the built app. */

const nameOf = (concern: string) => compiled.frame.concerns.find(({ id }) => id === concern)?.name ?? ''
const field = (page: Page) => page.getByLabel(labels.ownWords, { exact: true })
const rows = (page: Page) => page.locator('search .door-row .link-card-label')

test('it shows only once its script is there, and nothing moves when it comes', async ({ page }) => {
  let release: () => void = () => {}
  const released = new Promise<void>(resolve => {
    release = resolve
  })
  await page.route(/find-doors-.*\.js$/, async route => {
    await released
    await route.continue()
  })
  await openPage(page)
  const last = page.locator('[data-concern]').last()
  await expect(last).toBeVisible()
  await expect(field(page)).toHaveCount(0)
  const before = await last.boundingBox()
  release()
  await expect(field(page)).toBeVisible()
  const after = await last.boundingBox()
  expect(Math.abs((after?.y ?? 0) - (before?.y ?? 0)), 'moved by').toBeLessThanOrEqual(1)
})

test('where it does not come, all else does', async ({ page }) => {
  await page.route(/find-doors-.*\.js$/, route => route.abort())
  await page.goto('/')
  await page.getByRole('button', { name: /^More than one of these/ }).click()
  for (const _ of compiled.frame.doors) await page.getByRole('button', { name: 'None of these' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What worries you?')
})

test('words of danger come to a result at now in three taps', async ({ page }) => {
  const visit = await openPage(page)
  await field(page).fill('butt thing hanging out')
  await page.getByText(labels.urgentFirst).click()
  await page.getByRole('checkbox', { name: /hangs out under the tail/ }).check()
  await page.getByRole('button', { name: 'This is what I see' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Phone a vet now/)
  visit.expectClean()
})

test('two worries that were ticked both stand in the answers', async ({ page }) => {
  await openPage(page)
  await field(page).fill('goo in eye')
  await page.getByRole('checkbox', { name: labels.tickDoor(nameOf('eye')), exact: true }).check()
  await field(page).fill('wont poop')
  await page.getByRole('checkbox', { name: labels.tickDoor(nameOf('droppings')), exact: true }).check()
  await page.getByRole('button', { name: labels.beginTicked(2) }).click()
  await expect(page.getByText('Urgent signs, page 1 of')).toBeVisible()
  await page.evaluate(() => {
    location.hash = '#answers'
  })
  const answer = page.locator('.review-answer').filter({ hasText: nameOf('droppings') })
  await expect(answer).toContainText(nameOf('eye'))
})

test('it is found and used by keyboard alone', async ({ page }, { project }) => {
  test.skip(project.name !== 'desktop', 'phones have no Tab key')
  await openPage(page)
  await field(page).focus()
  await page.keyboard.type('tail like a pencil')
  await expect(rows(page).first()).toHaveText(nameOf('weight-loss'))
  await expect(page.locator('search [role=status]').first()).toHaveText(/\d places? to start/)
  await page.keyboard.press('Enter')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Space')
  await expect(page.getByRole('button', { name: labels.beginTicked(1) })).toBeVisible()
  await page.keyboard.press('Shift+Tab')
  await page.keyboard.press('Enter')
  await expect(page.getByText('Urgent signs, page 1 of')).toBeVisible()
})

test('results, parts of the body and ticks are accessible at 320 px', async ({ page }, { project }) => {
  test.skip(project.name !== 'desktop', 'the width is its own')
  await page.setViewportSize({ width: 320, height: 640 })
  await openPage(page)
  await field(page).fill('not eating and bleeding')
  await page.getByRole('checkbox', { name: labels.tickDoor(nameOf('not-eating')) }).check()
  await page.getByText(labels.byBodyPart).click()
  await page.getByRole('button', { name: 'Under the tail', exact: true }).click()
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320)
  await checkInEveryScheme(page)
  await checkAccess(page, ['target-size'])
  for (const box of await page.locator('.door-tick').all()) {
    const size = await box.boundingBox()
    expect(Math.min(size?.width ?? 0, size?.height ?? 0)).toBeGreaterThanOrEqual(48)
  }
})
