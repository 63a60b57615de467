import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, type Page, test } from '@playwright/test'
import type readQrCode from 'jsqr'
import { encodeLink } from '../../src/handover/link/codec.ts'
import { CLINIC_LINK, HISTORY_LINK } from '../../src/handover/links.ts'
import { fullestHistory } from '../handover/fullest.ts'
import { INVENTED_CLINIC } from '../handover/invented-clinic.ts'
import { checkAccess, openPage } from './harness.ts'
import { settledCases, takeUp } from './seeded.ts'

/** The package is CommonJS; what it exports is the function, whoever imports it. */
const readQr: typeof readQrCode = createRequire(import.meta.url)('jsqr')

test.use({ timezoneId: 'Europe/London', locale: 'en-GB' })

/** What a dialog, an error of a script or a request elsewhere would tell. */
function alarms(page: Page): string[] {
  const heard: string[] = []
  page.on('dialog', dialog => {
    heard.push(dialog.message())
    void dialog.dismiss()
  })
  return heard
}

async function openClinic(page: Page, data: string) {
  const visit = await openPage(page, `/#clinic/${data}`)
  await expect(page.locator('h1')).not.toHaveText('Duskcheck')
  return visit
}

test('a clinic makes its link: form, address, snippet and a QR code that another program reads', async ({
  page,
}) => {
  const visit = await openPage(page, '/#clinic-link')
  await page.getByLabel('Name of the clinic').fill('Invented Reptile Clinic')
  await page.getByLabel('Telephone', { exact: true }).fill('no need to phone')
  await page.getByLabel('Monday').fill('09:00-12:30, 14:00-18:00')
  await page.getByRole('button', { name: 'Make the link' }).click()
  await expect(page.getByText('“no need to phone” cannot be taken')).toBeVisible()
  await page.getByLabel('Telephone', { exact: true }).fill('01632 960123')
  await page.getByRole('button', { name: 'Make the link' }).click()
  const link = await page.locator('#clinic-link').inputValue()
  expect(link).toMatch(/\/#clinic\/[A-Za-z0-9_-]+$/)
  await expect(page.locator('#clinic-snippet')).toHaveValue(/^<a href="[^"<>]+" rel="noopener">[^<>]+<\/a>$/)
  // The picture as a camera sees it: turned a little, read by a decoder that shares nothing with the writer.
  const code = page.locator('svg.qr')
  await code.evaluate(element => {
    element.style.transform = 'rotate(7deg) skewX(4deg)'
    element.style.margin = '40px'
    element.style.inlineSize = 'min(420px, 70vw)'
  })
  const picture = (await code.screenshot()).toString('base64')
  const { data, width, height } = await page.evaluate(async shot => {
    const image = new Image()
    image.src = `data:image/png;base64,${shot}`
    await image.decode()
    const canvas = new OffscreenCanvas(image.width, image.height)
    const context = canvas.getContext('2d')
    context?.drawImage(image, 0, 0)
    const pixels = context?.getImageData(0, 0, image.width, image.height)
    return { data: [...(pixels?.data ?? [])], width: image.width, height: image.height }
  }, picture)
  const decoded = readQr(Uint8ClampedArray.from(data), width, height)
  expect(decoded?.data).toBe(link)
  await checkAccess(page)
  visit.expectClean()
})

test("an owner who follows the link sees the clinic's numbers in every outcome, and who supplied them", async ({
  page,
}) => {
  const worked = settledCases().find(({ urgency }) => urgency === 'day')
  if (!worked) throw new Error('no case')
  await takeUp(page, worked)
  await expect(page.locator('.outcome')).toBeVisible()
  await expect(page.getByRole('link', { name: /Phone 01632/ })).toHaveCount(0)
  const data = await encodeLink(CLINIC_LINK, INVENTED_CLINIC)
  await page.evaluate(link => {
    location.hash = `#clinic/${link}`
  }, data)
  await expect(page.locator('h1')).toHaveText('Invented Reptile Clinic')
  await expect(page.getByText('Please fill this in before you come.')).toBeVisible()
  await checkAccess(page)
  await page.getByRole('button', { name: 'Start' }).click()
  await expect(page.locator('.outcome')).toBeVisible()
  await expect(page.getByRole('link', { name: /Phone 01632 960123/ })).toHaveAttribute(
    'href',
    'tel:01632960123',
  )
  await expect(page.getByText('Details supplied by the clinic.')).toContainText('not checked by this clinic')
})

test('a damaged link gets one plain sentence, and the tool works without it', async ({ page }) => {
  const visit = await openClinic(page, 'AQdamaged')
  await expect(page.getByRole('alert').first()).toHaveText(
    'This link is damaged or cut short. Ask for it again. The guide works without it.',
  )
  await page.getByRole('button', { name: 'Start' }).click()
  await expect(page.getByRole('button', { name: /^More than one of these/ })).toBeVisible()
  visit.expectClean()
})

test('the owner sees exactly what is sent, leaves parts out, and the link opens to the same page', async ({
  page,
  context,
}) => {
  const worked = settledCases().find(({ urgency }) => urgency === 'week')
  if (!worked) throw new Error('no case')
  await takeUp(page, worked)
  await page.getByRole('link', { name: 'Prepare for the vet' }).click()
  await expect(page.locator('h1')).toHaveText('Prepare for the vet')
  await expect(page.getByText('Keep the air in the box between 17 and 30 °C.')).toBeVisible()
  await page.getByText(/^Questions vets ask/).click()
  await page.getByLabel(/^When did the heat last fail/).fill('An invented night in May')
  await expect(page.locator('.history')).toContainText('An invented night in May')
  await expect(page.locator('.history-answers')).toBeVisible()
  await page.getByText('Leave something out').click()
  await page.getByLabel('Leave out the list of every answer').check()
  await expect(page.locator('.history-answers')).toHaveCount(0)
  await expect(page.locator('#history-link')).toHaveValue(/#history\//)
  const sent = await page.locator('.history').textContent()
  const link = await page.locator('#history-link').inputValue()
  await checkAccess(page)
  const other = await context.newPage()
  const visit = await openPage(other, `/${new URL(link).hash}`)
  await expect(other.locator('.history')).toBeVisible()
  expect(await other.locator('.history').textContent()).toBe(sent)
  // A file of the same history opens to the same page.
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as file' }).click(),
  ])
  const file = {
    name: 'history.json',
    mimeType: 'application/json',
    buffer: readFileSync(await download.path()),
  }
  await other.goto('/#history')
  await other.reload()
  await other.locator('#history-file').setInputFiles(file)
  expect(await other.locator('.history').textContent()).toBe(sent)
  const kept = await other.evaluate(() => Object.keys(sessionStorage).length)
  expect(kept, 'nothing is stored by reading').toBe(0)
  visit.expectClean()
})

test('a history whose every text is script is shown as text, and runs nothing', async ({ page }) => {
  const heard = alarms(page)
  const script = '"><img src=x onerror=alert(1)><script>alert(1)</script>'
  const hostile = JSON.parse(
    JSON.stringify(fullestHistory(), (key, value: unknown) =>
      [
        'label',
        'value',
        'title',
        'readAloud',
        'note',
        'name',
        'reason',
        'result',
        'trustLine',
        'summary',
      ].includes(key) && typeof value === 'string'
        ? script
        : value,
    ),
  )
  const visit = await openPage(page, `/#history/${await encodeLink(HISTORY_LINK, hostile)}`)
  await expect(page.locator('.read-aloud')).toHaveText(script)
  await expect(page.locator('.history img, .history script')).toHaveCount(0)
  expect(heard).toEqual([])
  visit.expectClean()
})

test('on paper the page has no buttons, in A4 and Letter the answers begin a page of their own', async ({
  page,
}, { project }) => {
  test.skip(project.name !== 'desktop', 'once is enough')
  await openPage(page, `/#history/${await encodeLink(HISTORY_LINK, fullestHistory())}`)
  await expect(page.locator('.history')).toBeVisible()
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByRole('button')).toHaveCount(0)
  const colours = await page.evaluate(() =>
    [...new Set([...document.querySelectorAll('.history *')].map(one => getComputedStyle(one).color))].map(
      colour => (colour.match(/\d+/g) ?? []).map(Number),
    ),
  )
  for (const [red, green, blue] of colours) expect(red === green && green === blue).toBe(true)
})

test('the page of a worked case prints on one sheet, the answers on the next', async ({ page }, {
  project,
}) => {
  test.skip(project.name !== 'desktop', 'paper is the same')
  const worked = settledCases().find(({ urgency }) => urgency === 'week')
  if (!worked) throw new Error('no case')
  await takeUp(page, worked)
  await page.getByRole('link', { name: 'Prepare for the vet' }).click()
  await expect(page.locator('.history')).toBeVisible()
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = (await page.pdf({ format })).toString('latin1')
    expect(pdf.match(/\/Type \/Page\b/g)?.length, format).toBe(2)
  }
})
