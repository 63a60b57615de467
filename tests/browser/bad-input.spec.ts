import { expect, type Page, test } from '@playwright/test'
import type { Question } from '../../shared/compiled.ts'
import { labels } from '../../src/app/wording/labels.ts'
import { unitWords } from '../../src/handover/answer-words.ts'
import { askOf, compiled, fullCase, heading, openQuestion, takeUp } from './seeded.ts'

/** Law 10 on the screens: bad input gets a sentence with the field, the value and what is accepted; nothing moves on. */
test.use({ timezoneId: 'Europe/London', locale: 'en-GB' })
test.beforeEach(({ page: _ }, { project }) => {
  test.skip(project.name !== 'phone', 'fields are the same on every width')
})

const NIGHT = { instant: '2026-11-25T02:10:00Z', zone: 'Europe/London' }
const asked = (kind: Question['kind']) =>
  compiled.logic.questions.filter(one => one.kind === kind && one.phase !== 'care')

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true })
const press = (page: Page) => page.locator('button[form=question-form]').click()

/** Types a value, presses on, and expects a sentence and the same screen. */
async function expectRefused(page: Page, id: string, label: string, value: string, parts: readonly string[]) {
  await test.step(`${id}: ${label} = "${value}"`, async () => {
    await field(page, label).fill(value)
    await press(page)
    const fault = page.getByRole('alert').filter({ hasText: `“${label}”` })
    for (const part of [label, value, ...parts]) await expect(fault).toContainText(part)
    await expect(field(page, label)).toHaveAttribute('aria-invalid', 'true')
    await expect(field(page, label)).toBeFocused()
    await expect(heading(page)).toHaveText(askOf(id))
  })
}

function badNumbers({ range }: Question): string[] {
  const tooSmall = range && range.from > -1 ? ['-1'] : []
  const zero = range && range.from > 0 ? ['0', '0,0'] : []
  return ['', 'abc', '1e3', '12,5,1', '5 g', ...tooSmall, ...zero, '999999']
}

test('a number that cannot be is refused in every field that takes one', async ({ page }) => {
  await takeUp(page, fullCase(NIGHT))
  for (const question of [...asked('amount'), ...asked('weights')]) {
    await openQuestion(page, question.id)
    const { range } = question
    const accepted = range
      ? [`${range.from} to ${range.to} ${unitWords(range.unit)}`]
      : [labels.faults.plainNumber]
    const label = question.kind === 'weights' ? labels.today : labels.reading
    for (const value of badNumbers(question)) await expectRefused(page, question.id, label, value, accepted)
    if (question.kind !== 'weights') continue
    // An earlier weight is its own field and needs its day.
    await field(page, labels.today).fill(String(range?.from ?? 1))
    for (const value of badNumbers(question).filter(one => one !== ''))
      await expectRefused(page, question.id, labels.earlier, value, accepted)
    await field(page, labels.earlier).fill(String(range?.from ?? 1))
    for (const day of ['', '2026-11-25', '2031-01-01'])
      await expectRefused(page, question.id, labels.earlierDay, day, [labels.faults.dateEarlier])
  }
})

test('a comma is a decimal point, and the answer is listed as it was typed', async ({ page }) => {
  await takeUp(page, fullCase(NIGHT))
  const [question] = asked('amount').filter(
    ({ range }) => range && Math.floor(range.to) - Math.ceil(range.from) >= 2,
  )
  if (!question?.range) throw new Error('No question takes a number.')
  const whole = Math.ceil(question.range.from) + 1
  await openQuestion(page, question.id)
  await field(page, labels.reading).fill(`${whole},5`)
  await press(page)
  await expect(heading(page)).not.toHaveText(askOf(question.id))
  await page.evaluate(() => {
    location.hash = '#answers'
  })
  await expect(page.locator('.review-row').filter({ hasText: askOf(question.id) })).toContainText(
    `${whole}.5 ${unitWords(question.range.unit)}`,
  )
})

test('a day that cannot be is refused in every question of time', async ({ page }) => {
  await takeUp(page, fullCase(NIGHT))
  for (const { id } of asked('since')) {
    await openQuestion(page, id)
    await page.getByLabel(labels.onDate).check()
    for (const day of ['', '2026-11-26', '2031-01-01'])
      await expectRefused(page, id, labels.date, day, [labels.faults.dateAccepted])
  }
})

test('no line chosen or ticked gets a sentence where an answer is needed', async ({ page }) => {
  await page.goto('/')
  await page.getByRole('button', { name: labels.startSeveral }).click()
  const { length } = compiled.logic.questions.filter(({ phase }) => phase === 'danger')
  for (let screen = 0; screen < length; screen += 1) {
    const before = await heading(page).textContent()
    await press(page)
    await expect(heading(page)).not.toHaveText(before ?? '')
  }
  const concern = compiled.logic.questions[compiled.logic.concernQuestion]
  await expect(heading(page)).toHaveText(askOf(concern?.id ?? ''))
  await press(page)
  await expect(page.getByRole('alert').filter({ hasText: labels.tickOne })).toBeVisible()
  await expect(heading(page)).toHaveText(askOf(concern?.id ?? ''))
})
