import { expect, type Page, test } from '@playwright/test'
import { checkAccess, inScheme, openPage } from './harness.ts'

/** The screen as it is, in both lights. */
async function expectAccessible(page: Page): Promise<void> {
  for (const scheme of ['dark', 'light'] as const) {
    await inScheme(page, scheme)
    await checkAccess(page)
  }
  await inScheme(page, 'dark')
}

const heading = (page: Page) => page.getByRole('heading', { level: 1 })
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).click()
const pick = (page: Page, name: string | RegExp) => page.getByLabel(name).first().click()

/** Goes on from a screen once the next one shows. */
async function goOn(page: Page, button: string | RegExp): Promise<void> {
  const before = await heading(page).textContent()
  await press(page, button)
  await expect(heading(page)).not.toHaveText(before ?? '')
}

/** Passes the urgent signs with "none of these", until the concern is asked. */
async function passUrgentSigns(page: Page): Promise<void> {
  await goOn(page, /^More than one of these/)
  for (let screen = 0; screen < 10; screen += 1) {
    if ((await heading(page).textContent()) === 'What worries you?') return
    await goOn(page, 'None of these')
  }
}

async function tick(page: Page, ...answers: readonly (string | RegExp)[]): Promise<void> {
  for (const answer of answers) await pick(page, answer)
  await goOn(page, /This is what I see|Continue/)
}

const FIRST_LINES = /^(Phone|Follow the steps|Nothing worrying)/

/** Answers whatever is asked with the mildest answer, but what `said` knows of, until an outcome shows. */
async function walkOn(
  page: Page,
  said: readonly (readonly [RegExp, RegExp])[] = [],
  access = false,
): Promise<string[]> {
  const asked: string[] = []
  for (let screen = 0; screen < 25; screen += 1) {
    const question = (await heading(page).textContent()) ?? ''
    if (FIRST_LINES.test(question)) return asked
    asked.push(question)
    if (access) await expectAccessible(page)
    const answer = said.find(([about]) => about.test(question))?.[1]
    const boxes = page.getByRole('checkbox')
    const radios = page.getByRole('radio')
    const main = page.locator('.action-main')
    if (answer && (await boxes.count()) > 0) await pick(page, answer)
    else if (await radios.count()) await (answer ? page.getByLabel(answer) : radios).first().click()
    else if ((await boxes.count()) === 0) {
      await goOn(page, /can’t/)
      continue
    }
    await main.click()
    await expect(heading(page)).not.toHaveText(question)
  }
  return asked
}

test('the owner at night reaches "phone now" in three taps when the tail pools blood', async ({ page }) => {
  const visit = await openPage(page)
  await expect(heading(page)).toHaveText('What do you see right now?')
  await expectAccessible(page)
  await press(page, /^Blood, wounds or burns/)
  await expect(heading(page)).toHaveText(/Look for blood/)
  await expectAccessible(page)
  await pick(page, /pools|pooling|runs|drips/i)
  await press(page, 'This is what I see')
  await expect(heading(page)).toHaveText(/^Phone a vet now/)
  await expect(heading(page)).toBeFocused()
  await expect(page).toHaveTitle(/^Phone a vet now/)
  await expect(page.getByRole('heading', { name: /^If nobody can see it/ })).toBeVisible()
  await expectAccessible(page)
  visit.expectClean()
})

test('a stopped bleeding with a smooth stump is cared for at home, first look in an hour', async ({
  page,
}) => {
  const visit = await openPage(page)
  await passUrgentSigns(page)
  await expectAccessible(page)
  await tick(page, /It lost its tail/)
  const asked = await walkOn(page, [
    [/Is it bleeding/, /It has stopped/],
    [/How does the stump/, /^Smooth/],
  ])
  expect(asked[0]).toMatch(/Is it bleeding/)
  await expect(heading(page)).toHaveText(/^Follow the steps/)
  await expect(page.locator('.time-circle')).toContainText('in 1 hour')
  await expectAccessible(page)
  visit.expectClean()
})

test('the keeper with one pale loose band on a toe on day one cares for it at home', async ({ page }) => {
  const visit = await openPage(page)
  await passUrgentSigns(page)
  await tick(page, /Old skin is stuck/)
  await walkOn(page, [[/Where is old skin/, /one or more toes/]], true)
  await expect(heading(page)).toHaveText(/^Follow the steps/)
  await expect(page.getByRole('heading', { name: 'Why this answer' })).toBeVisible()
  visit.expectClean()
})

test('the keeper with a dark swollen toe is told to phone tonight', async ({ page }) => {
  const visit = await openPage(page)
  await passUrgentSigns(page)
  await tick(page, /Old skin is stuck/)
  await tick(page, /one or more toes/)
  await tick(page, /is dark, brown or black/, /is swollen, red or purple/)
  await walkOn(page)
  await expect(heading(page)).toHaveText(/^Phone today or tonight/)
  await expect(page.locator('.time-circle')).toContainText(/by tomorrow|by this|by early/)
  await expectAccessible(page)
  visit.expectClean()
})

test('the clinic reader opens the invented example and reads why', async ({ page }) => {
  const visit = await openPage(page)
  await page.getByRole('link', { name: /invented animals/ }).click()
  await expect(page.getByText(/The animal and its answers are invented/)).toBeVisible()
  const why = page.getByText('Where this comes from').first()
  await why.click()
  await expect(page.getByText(/^How soon: Our judgement/).first()).toBeVisible()
  const vets = page.getByRole('list', { name: 'Vet books and vet pages' })
  await expect(vets.first().getByRole('link').first()).toHaveAttribute('href', /^https:/)
  await page.getByText('The invented answers').click()
  await expect(page.locator('.review-row').first()).toBeVisible()
  await expectAccessible(page)
  visit.expectClean()
})

test('back keeps the answer, and the list of answers changes one', async ({ page }) => {
  await openPage(page)
  await passUrgentSigns(page)
  await tick(page, /Old skin is stuck/)
  await tick(page, /one or more toes/)
  await goOn(page, 'Back')
  await expect(page.getByLabel(/one or more toes/)).toBeChecked()
  await walkOn(page)
  await page.getByRole('link', { name: /Change answers/ }).click()
  await expect(heading(page)).toHaveText('Your answers')
  await expectAccessible(page)
  await page.getByRole('button', { name: /^Change.*What worries you/ }).click()
  await expect(page.getByLabel(/Old skin is stuck/)).toBeChecked()
})

test('a whole check works with the keyboard alone', async ({ page }) => {
  await openPage(page)
  await page.getByRole('button', { name: /^Blood, wounds or burns/ }).focus()
  await page.keyboard.press('Enter')
  await expect(heading(page)).toBeFocused()
  await page.keyboard.press('Tab')
  await page.keyboard.press('Space')
  await page.keyboard.press('Enter')
  await expect(heading(page)).toHaveText(/^Phone/)
})
