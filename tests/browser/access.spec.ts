import { expect, type Page, test } from '@playwright/test'
import { URGENCIES } from '../../shared/urgency.ts'
import { labels } from '../../src/app/wording/labels.ts'
import { checkInEveryScheme } from './harness.ts'
import { compiled, fullCase, heading, openQuestion, settledCases, takeUp } from './seeded.ts'

/** Every screen at the narrowest width, in the dark, in the light and in forced colours. */
test.use({ viewport: { width: 320, height: 640 }, timezoneId: 'Europe/London', locale: 'en-GB' })
test.beforeEach(({ page: _ }, { project }) => {
  test.skip(project.name !== 'desktop', 'the width is its own')
})

/** By day the page follows the system; by night it stays dark. */
const NOON = { instant: '2026-11-25T12:10:00Z', zone: 'Europe/London' }

async function expectGood(page: Page): Promise<void> {
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth),
    'nothing wider than the screen',
  ).toBeLessThanOrEqual(320)
  await checkInEveryScheme(page)
}

const questions = compiled.logic.questions.filter(({ phase }) => phase !== 'care').map(({ id }) => id)
/** Short tests share the workers better than long ones, however many questions there are. */
const PARTS = Math.ceil(questions.length / 15)
for (let part = 0; part < PARTS; part += 1) {
  test(`every question screen is accessible at 320 px, part ${part + 1} of ${PARTS}`, async ({ page }) => {
    await takeUp(page, fullCase(NOON))
    for (const id of questions.filter((_, at) => at % PARTS === part)) {
      await test.step(id, async () => {
        await openQuestion(page, id)
        await expectGood(page)
      })
    }
  })
}

for (const urgency of URGENCIES) {
  test(`an outcome at ${urgency} is accessible at 320 px, folded and with every fold open`, async ({
    page,
  }) => {
    const worked = settledCases().find(one => one.urgency === urgency)
    if (!worked) throw new Error(`No worked case comes out at ${urgency}.`)
    await takeUp(page, worked)
    // Worked cases have their own hour; the page itself is looked at by day.
    await page.evaluate(() => delete document.documentElement.dataset.scheme)
    await expect(page.locator('.outcome')).toBeVisible()
    await expectGood(page)
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true
    })
    await expectGood(page)
  })
}

test('start, phone, answers and example are accessible at 320 px', async ({ page }) => {
  await takeUp(page, fullCase(NOON))
  for (const [hash, title] of [
    ['#answers', labels.reviewTitle],
    ['#phone', labels.phoneTitle],
    ['#start', labels.startTitle],
    ['#example', /./],
  ] as const) {
    await test.step(hash, async () => {
      await page.evaluate(to => {
        location.hash = to
      }, hash)
      await expect(heading(page)).toHaveText(title)
      await expectGood(page)
    })
  }
})
