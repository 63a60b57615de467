import { expect, type Page, test } from '@playwright/test'
import type { LogEntry } from '../../src/wizard/log.ts'
import { compiled, heading, takeUp } from './seeded.ts'

/** A whole check without a pointer: for each concern from the question what worries you to an outcome. */
test.use({ timezoneId: 'Europe/London', locale: 'en-GB' })
test.beforeEach(({ page: _ }, { project }) => {
  test.skip(project.name !== 'desktop', 'phones have no Tab key')
})

const NIGHT = { instant: '2026-11-25T02:10:00Z', zone: 'Europe/London' }
const MOST_KEYS = 60
const MOST_SCREENS = 40

/** Presses Tab until what is focused fits. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let keys = 0; keys < MOST_KEYS; keys += 1) {
    if (await page.evaluate(wanted => document.activeElement?.matches(wanted) ?? false, selector)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`Tab does not reach ${selector}`)
}

const urgentSignsPassed: LogEntry[] = compiled.logic.questions
  .filter(({ phase }) => phase === 'danger')
  .map(({ id }) => ({
    question: id,
    answer: { kind: 'several', chosen: [], rest: 'no', given: NIGHT.instant },
  }))

for (const { id, name } of compiled.frame.concerns) {
  test(`“${name}” is walked to its outcome by keyboard alone`, async ({ page }) => {
    await takeUp(page, { name, log: urgentSignsPassed, now: NIGHT, urgency: undefined })
    for (let screen = 0; screen < MOST_SCREENS; screen += 1) {
      const title = (await heading(page).textContent()) ?? ''
      await expect(heading(page)).toBeFocused()
      if (await page.locator('.outcome').count()) return
      const isConcern = (await page.locator(`input[type=checkbox][value="${id}"]`).count()) > 0
      if (isConcern) {
        await tabTo(page, `input[value="${id}"]`)
        await page.keyboard.press('Space')
      } else if (await page.locator('input[type=radio]').count()) {
        await tabTo(page, 'input[type=radio]')
        await page.keyboard.press('Space')
      } else if (await page.locator('input[type=text]').count()) {
        await tabTo(page, '.action-quiet')
        await page.keyboard.press('Enter')
        await expect(heading(page)).not.toHaveText(title)
        continue
      }
      await tabTo(page, 'button[form=question-form]')
      await page.keyboard.press('Enter')
      await expect(heading(page)).not.toHaveText(title)
    }
    throw new Error(`No outcome after ${MOST_SCREENS} screens.`)
  })
}
