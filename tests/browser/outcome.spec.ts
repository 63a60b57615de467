import { expect, test } from '@playwright/test'
import { URGENCIES } from '../../shared/urgency.ts'
import { labels } from '../../src/app/wording/labels.ts'
import { compiled, heading, settledCases, takeUp } from './seeded.ts'

/** What a phone shows of an outcome at night, and what paper shows of it. */
test.use({ timezoneId: 'Europe/London', locale: 'en-GB' })
test.beforeEach(({ page: _ }, { project }) => {
  test.skip(project.name !== 'phone', 'it is about the small screen')
})

/** Phone heights that the median outcome of a level stays under, a little above what was measured. */
const MOST_HEIGHTS = { now: 3.75, day: 4.25, week: 4.25, home: 4, well: 3 }
/** Every third worked case is enough to see the middle. */
const EVERY = 3

for (const urgency of URGENCIES) {
  test(`the median outcome at ${urgency} stays under ${MOST_HEIGHTS[urgency]} phone heights`, async ({
    page,
  }) => {
    const heights: number[] = []
    const cases = settledCases().filter(one => one.urgency === urgency)
    for (const worked of cases.filter((_, at) => at % EVERY === 0)) {
      await takeUp(page, worked)
      await expect(page.locator('.outcome')).toBeVisible()
      const { scroll, screen } = await page.evaluate(() => ({
        scroll: document.documentElement.scrollHeight,
        screen: window.innerHeight,
      }))
      heights.push(scroll / screen)
    }
    heights.sort((one, other) => one - other)
    expect(heights[Math.floor(heights.length / 2)]).toBeLessThan(MOST_HEIGHTS[urgency])
  })
}

const urgent = settledCases().filter(({ urgency }) => urgency === 'now' || urgency === 'day')

test('where it is urgent, the first plan to do and the first for the wait are open', async ({ page }) => {
  for (const worked of urgent.filter((_, at) => at % 8 === 0)) {
    await test.step(worked.name, async () => {
      await takeUp(page, worked)
      await expect(page.locator('#do-now-title')).toBeVisible()
      await expect(page.locator('section[aria-labelledby=do-now-title] .steps').first()).toBeVisible()
      await expect(page.locator('.nevers').first()).toBeVisible()
      await expect(page.locator('#nobody-title')).toBeVisible()
    })
  }
})

test('on paper every fold is open: each caution and each line of whom to phone can be read', async ({
  page,
}) => {
  const [worked] = urgent
  if (!worked) throw new Error('No urgent case.')
  await takeUp(page, worked)
  const { cautions, nobodyTonight } = compiled.frame
  const first = page.getByText(cautions[0]?.text ?? '')
  await expect(first).toBeHidden()
  await page.emulateMedia({ media: 'print' })
  for (const text of [...cautions.map(one => one.text), ...nobodyTonight])
    await expect(page.getByText(text).first()).toBeVisible()
  await expect(page.getByRole('button', { name: labels.print })).toBeHidden()
})

test('at 360 by 640 no button of a danger screen shows before its last line was in sight', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 640 })
  await page.goto('/')
  await page.getByRole('button', { name: labels.startSeveral }).click()
  for (const { id } of compiled.logic.questions.filter(({ phase }) => phase === 'danger')) {
    const { ask = '', howTo } = compiled.dangerWords.questions[id] ?? {}
    await expect(heading(page)).toHaveText(ask)
    const lines = page.locator('.choice')
    const main = page.locator('button[form=question-form]')
    const lastLine = await lines.last().boundingBox()
    const button = await main.boundingBox()
    expect(button?.y).toBeGreaterThanOrEqual((lastLine?.y ?? Infinity) + (lastLine?.height ?? 0))
    await expect(page.getByText(labels.lines(await lines.count()))).toBeVisible()
    // "Can't tell" helps to look first, and nothing moves on.
    if (howTo) {
      await page.getByRole('button', { name: labels.lookFirst, exact: true }).click()
      await expect(page.getByText(howTo[0] ?? '')).toBeVisible()
      await expect(heading(page)).toHaveText(ask)
      await expect(page.getByRole('button', { name: labels.stillCannotTell })).toBeVisible()
    }
    await main.click()
    await expect(heading(page)).not.toHaveText(ask)
  }
})
