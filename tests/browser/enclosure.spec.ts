import { writeFileSync } from 'node:fs'
import { expect, type Page, test } from '@playwright/test'
import { EMPTY_CASE_FILE } from '../../shared/answers.ts'
import { labels } from '../../src/app/wording/labels.ts'
import { assess } from '../../src/triage/assess.ts'
import { caseFileOf } from '../../src/wizard/log.ts'
import { checkAccess, inScheme, openPage, type Visit } from './harness.ts'
import { heading, protocol, type SeededCase, settledCases, takeUp } from './seeded.ts'

/** The check of an animal's home, in the browser. All homes and files are invented. */

test.use({ locale: 'en-GB', timezoneId: 'Europe/London' })

const title = labels.enclosureTitle

const go = (page: Page, hash: string) =>
  page.evaluate(to => {
    location.hash = to
  }, hash)

async function openCheck(page: Page): Promise<Visit> {
  const visit = await openPage(page, '/#enclosure')
  await expect(page.getByRole('link', { name: /^Warmth/ })).toBeVisible()
  await expect(heading(page)).toHaveText(title)
  return visit
}

const fill = (page: Page, label: RegExp, value: string) => page.getByLabel(label).fill(value)
const next = (page: Page) => page.getByRole('button', { name: 'Continue' }).click()

/** A home as many are: the warm spot is too cold and there is no damp hide; the rest is in order, or not told. */
async function fillHome(page: Page): Promise<void> {
  await page.getByRole('link', { name: /^Warmth/ }).click()
  await fill(page, /^How warm is the warm spot/, '27,5')
  await fill(page, /^How warm is the floor at the cool end/, '23')
  await fill(page, /^How cold does it get at night/, '21')
  await page
    .getByLabel(/^What do you measure warmth with/)
    .selectOption({ label: 'A digital one with a probe on a wire' })
  await page.getByLabel('Yes, and the warm spot was measured since').check()
  await page.getByLabel('Fixed at the warm spot').check()
  await next(page)
  await expect(heading(page)).toHaveText('Damp')
  await fill(page, /^How humid is the air/, '45')
  await page.getByLabel('At the cool end').check()
  await page
    .getByRole('group', { name: /^Is there a damp hide/ })
    .getByLabel('No', { exact: true })
    .check()
  await next(page)
}

async function expectNarrow(page: Page): Promise<void> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
  expect(wide, `sideways at ${page.url()}`).toBeLessThanOrEqual(0)
}

test('a home with two faults: both are found, ranked for the worry, with fixes, cautions and a recheck', async ({
  page,
}) => {
  const visit = await openCheck(page)
  await page.getByLabel('What worries you?').selectOption({ label: 'Old skin is stuck' })
  await expect(page.getByRole('link', { name: /^First, what bears on/ })).toBeVisible()
  await fillHome(page)
  await page.getByRole('link', { name: 'Go to what it comes to' }).click()
  await expect(heading(page)).toHaveText('2 things to put right')
  const faults = page.locator('.enclosure-fault')
  await expect(faults.locator('h3')).toHaveText(['1. No damp hide', /^2\. .*[Ww]arm spot/])
  for (const fault of await faults.all()) {
    expect(await fault.locator('.steps > li').count()).toBeGreaterThan(0)
    expect(await fault.locator('.reasons > li').count()).toBeGreaterThan(0)
    await expect(fault.locator('.enclosure-recheck')).toContainText('Look again')
  }
  await expect(faults.nth(1)).toContainText('Every heater needs a thermostat')
  await expect(page.getByText('A good home does not make a sick animal well.')).toBeVisible()
  // The conflict: published ranges side by side, and the one that is used.
  const reading = page.locator('.enclosure-reading').first()
  await reading.getByText('The published ranges side by side').click()
  expect(await reading.getByRole('row').count()).toBeGreaterThan(3)
  await expect(reading).toContainText('Used here.')
  await page.getByText(/^\d+ things, and what would tell them/).click()
  await expect(page.locator('.enclosure-open li').first()).toBeVisible()
  visit.expectClean()
})

test('readings are kept with an animal and are filled in the next time', async ({ page }) => {
  await openPage(page, '/#animals')
  await page.getByLabel('Its name').fill('Ember')
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  await page.getByRole('link', { name: /^Is its enclosure right/ }).click()
  await expect(page.getByText('The home of Ember.')).toBeVisible()
  await fillHome(page)
  await page.getByRole('link', { name: 'Go to what it comes to' }).click()
  await page.getByRole('button', { name: 'Keep 4 readings with Ember' }).click()
  await expect(page.getByText('4 readings are kept with Ember.')).toBeVisible()
  const address = page.url()
  await page.goto(`${address.replace('/result', '/warmth')}`)
  await page.reload()
  await expect(page.getByLabel(/^How warm is the warm spot/)).toHaveValue('27.5')
  await expect(page.getByText(/^From the record, /).first()).toBeVisible()
  // What measured it came back with it.
  await expect(page.getByLabel(/^What do you measure warmth with/)).not.toHaveValue('')
})

test('a reading that cannot be taken is named with what is accepted, in either unit', async ({ page }) => {
  await openCheck(page)
  await page.getByRole('link', { name: /^Warmth/ }).click()
  const spot = page.getByLabel(/^How warm is the warm spot/)
  await spot.fill('hot')
  await next(page)
  await expect(
    page.getByText('This reading cannot be “hot”. Accepted: a number from 0 to 70 °C.'),
  ).toBeVisible()
  await expect(spot).toBeFocused()
  await spot.fill('90')
  await expect(page.getByText('This reading cannot be “90”.')).toBeVisible()
  await page
    .getByRole('group', { name: /^Unit of: How warm is the warm spot/ })
    .getByText('°F')
    .click()
  await expect(page.getByText(/^This reading cannot be/)).toBeHidden()
  await page.getByRole('link', { name: 'Go to what it comes to' }).click()
  await expect(page.getByText('Warm spot, on the floor: 32.2 °C (90 °F)').first()).toBeVisible()
})

/** A year of an invented logger, a row each minute: warm by day, cool at night, one cold week with the heater off. */
function yearFile(): string {
  const rows = ['Timestamp,Temperature(°C),Relative Humidity(%)']
  const begin = Date.UTC(2025, 0, 1)
  for (let minute = 0; minute < 525_600; minute += 1) {
    const clock = new Date(begin + minute * 60_000)
    const isDay = clock.getUTCHours() >= 8 && clock.getUTCHours() < 20
    const isOff = minute > 200_000 && minute < 210_080
    const warmth = isOff ? 17 : isDay ? 32 + (minute % 30) / 30 : 23
    rows.push(
      `${clock.toISOString().slice(0, 19).replace('T', ' ')},${warmth.toFixed(1)},${40 + (minute % 7)}`,
    )
  }
  return rows.join('\n')
}

test('a logger’s file of a year is summed up and drawn without a stutter', async ({ page }) => {
  test.setTimeout(120_000)
  const visit = await openCheck(page)
  await page.getByRole('link', { name: /^A logger’s file/ }).click()
  await page.getByLabel('Where did the sensor lie?').selectOption({ label: 'On the floor of the warm spot' })
  await page.evaluate(() => {
    const tasks: number[] = []
    Object.assign(window, { tasks })
    new PerformanceObserver(list => {
      for (const { duration } of list.getEntries()) tasks.push(duration)
    }).observe({ type: 'longtask' })
  })
  // From the disk: a file handed over as bytes is put together by a script in the page, which takes its time.
  const path = test.info().outputPath('year.csv')
  writeFileSync(path, yearFile())
  await page.getByLabel('The file', { exact: true }).setInputFiles(path)
  await expect(page.getByText(/^525,600 readings, from 1 Jan 2025/)).toBeVisible({ timeout: 60_000 })
  await expect(
    page.getByText(/^Longest cold spell: 168(\.02)? hours|^Longest cold spell: 16[78]/),
  ).toBeVisible()
  const points = await page.locator('.enclosure-line').first().getAttribute('d')
  expect(points?.match(/[ML]/g)?.length).toBeLessThanOrEqual(2 * 240)
  const longest = await page.evaluate(() => Math.max(0, ...(Reflect.get(window, 'tasks') as number[])))
  expect(longest, 'the longest time the page stood still, in ms').toBeLessThan(200)
  visit.expectClean()
})

test('a file that does not tell its unit is asked about', async ({ page }) => {
  await openCheck(page)
  await page.getByRole('link', { name: /^A logger’s file/ }).click()
  const rows = Array.from(
    { length: 48 },
    (_, hour) => `2026-05-0${4 + Math.floor(hour / 24)} ${String(hour % 24).padStart(2, '0')}:00,86`,
  )
  await page.getByLabel('The file', { exact: true }).setInputFiles({
    name: 'two-days.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(['time,temperature', ...rows].join('\n')),
  })
  await page
    .getByLabel('Is the temperature in degrees Celsius or Fahrenheit?')
    .selectOption({ label: 'Degrees Fahrenheit (°F)' })
  await page.getByRole('button', { name: 'Read it so' }).click()
  await expect(page.getByText(/^By day: lowest 30 °C/)).toBeVisible()
  await page
    .getByLabel('The file', { exact: true })
    .setInputFiles({ name: 'cat.png', mimeType: 'image/png', buffer: Buffer.from([137, 80, 0, 1]) })
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing was taken in' })).toContainText(
    'a text file',
  )
})

for (const scheme of ['dark', 'light'] as const)
  test(`every screen of the check is accessible in ${scheme} at 320 px`, async ({ page }, { project }) => {
    test.skip(project.name !== 'desktop', 'the width is its own')
    test.setTimeout(120_000)
    await page.setViewportSize({ width: 320, height: 700 })
    await inScheme(page, scheme)
    await openCheck(page)
    const look = async () => {
      await expectNarrow(page)
      await checkAccess(page)
    }
    await look()
    await fillHome(page)
    for (const part of ['warmth', 'damp', 'light', 'home', 'food', 'result']) {
      await go(page, `#enclosure/-/${part}`)
      await expect(heading(page)).not.toHaveText(title)
      await look()
    }
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true
    })
    await look()
    await go(page, '#enclosure/-/file')
    const rows = Array.from(
      { length: 48 },
      (_, hour) =>
        `2026-05-0${4 + Math.floor(hour / 24)} ${String(hour % 24).padStart(2, '0')}:00,${22 + (hour % 24)},45`,
    )
    await page.getByLabel('Where did the sensor lie?').selectOption({ label: 'At the cool end' })
    await page.getByLabel('The file', { exact: true }).setInputFiles({
      name: 'two-days.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(['time,temp °C,humidity', ...rows].join('\n')),
    })
    await expect(page.locator('.enclosure-line').first()).toBeVisible()
    await look()
  })

/** A settled case at home with a warm spot that is too cold, made from a worked one by that reading alone. */
function caseWithColdSpot(): SeededCase {
  for (const one of settledCases()) {
    if (!one.log.some(({ question }) => question === 'warm-spot')) continue
    const log = one.log.map(entry =>
      entry.question === 'warm-spot'
        ? {
            question: entry.question,
            answer: { kind: 'amount' as const, amount: 27, given: one.now.instant },
          }
        : entry,
    )
    const { settled, urgency, concerns } = assess(protocol, caseFileOf(EMPTY_CASE_FILE, log), one.now)
    if (settled && urgency === 'home' && concerns.includes('not-eating')) return { ...one, log, urgency }
  }
  throw new Error('No worked case has a warm spot and comes out at home.')
}

test('an outcome says what the case’s own answers show of the home, and leads to the whole check', async ({
  page,
}) => {
  await takeUp(page, caseWithColdSpot())
  const part = page.getByRole('region', { name: 'Also put this right' })
  await expect(part.getByRole('heading', { level: 3 }).first()).toHaveText('1. The warm spot is too cold')
  await expect(part.locator('.enclosure-recheck').first()).toContainText('Look again')
  await expect(part.getByText('A good home does not make a sick animal well.')).toBeVisible()
  await checkAccess(page)
  await part.getByRole('link', { name: 'Check the enclosure' }).click()
  await expect(page.getByLabel('What worries you?')).not.toHaveValue('-')
  await page.getByRole('link', { name: /^First, what bears on/ }).click()
  await expect(page.getByLabel(/^How warm is the warm spot/)).toHaveValue('27')
  await expect(page.getByText('From your check.').first()).toBeVisible()
})
