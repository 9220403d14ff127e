import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { expect, test } from './serve.ts'

const hexagon = 'Hexagon table top'

/** Opens the app with the hexagon sample as its only job, back on the list. */
async function withSample(page: Page) {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon table top/ }).click()
  await expect(page).toHaveURL(/#\/job\/[^/]+\/sizes/)
  await page.getByRole('link', { name: /^Jobs/ }).first().click()
  await expect(page.locator('.job-card')).toHaveCount(1)
}

test('the first start offers three samples and a picture for each build, and can be used by everybody', async ({
  page,
}) => {
  await page.goto('./')
  await expect(page.getByRole('heading', { name: 'No job yet' })).toBeVisible()
  await expect(page.locator('.samples button')).toHaveCount(3)
  const pictures = page.locator('.new-job .build-picture')
  await expect(pictures).toHaveCount(await page.getByRole('button', { name: /^New job: / }).count())
  for (const picture of await pictures.all())
    expect((await picture.boundingBox())!.width).toBeGreaterThanOrEqual(72)
  await expectAccessible(page)
  await expectTouchable(page, 44)
})

test('a job is still there after a reload, and after it was removed and brought back', async ({ page }) => {
  await withSample(page)
  await page.reload()
  await expect(page.locator('.job-card')).toContainText('24 in across flats')
  await expect(page.locator('.job-card .shape.member')).toHaveCount(6)
  await page.getByRole('button', { name: `Remove ${hexagon}` }).click()
  await expect(page.locator('.job-card')).toHaveCount(0)
  await page.getByRole('button', { name: `Undo: bring ${hexagon} back` }).click()
  await expect(page.locator('.job-card')).toContainText('24 in across flats')
  await page.reload()
  await expect(page.locator('.job-card')).toHaveCount(1)
})

test('a removed job stays removed after a reload', async ({ page }) => {
  await withSample(page)
  await page.getByRole('button', { name: `Remove ${hexagon}` }).click()
  await expect(page.getByText(/is off the list/)).toBeVisible()
  await page.reload()
  await expect(page.getByRole('heading', { name: 'No job yet' })).toBeVisible()
})

test('a copy is a job of its own', async ({ page }) => {
  await withSample(page)
  await page.getByRole('button', { name: `Copy ${hexagon}` }).click()
  await page.getByRole('textbox', { name: 'Size' }).fill('30')
  await page.getByRole('textbox', { name: 'Size' }).press('Enter')
  await expect(page.locator('table.parts')).toContainText('17 5/16')
  await page.getByRole('link', { name: /^Jobs/ }).first().click()
  await expect(page.locator('.job-card')).toHaveCount(2)
  await expect(page.locator('.job-card').filter({ hasText: '24 in across flats' })).toHaveCount(1)
  await expect(page.locator('.job-card').filter({ hasText: '30 in across flats' })).toHaveCount(1)
})

test('a saved file opens on another device with the same parts', async ({ browser, page, baseURL }) => {
  await withSample(page)
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: `Save a file of ${hexagon}` }).click()
  const download = await saving
  expect(download.suggestedFilename()).toBe('Hexagon-table-top.tube-job.json')
  const text = await readFile(await download.path(), 'utf8')
  expect(JSON.parse(text)).toMatchObject({ format: 'tube-job', version: 1, job: { name: hexagon } })

  const other = await browser.newContext({ baseURL: baseURL ?? '' })
  const there = await other.newPage()
  await there.goto('./')
  await there
    .locator('input[type=file]')
    .setInputFiles({ name: 'porch.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  await expect(there.locator('table.parts')).toContainText('13 7/8')
  await other.close()
})

test('a file that is none changes nothing and says why', async ({ page }) => {
  await withSample(page)
  await page.locator('input[type=file]').setInputFiles({
    name: 'newer.json',
    mimeType: 'application/json',
    buffer: Buffer.from('{"format":"tube-job","version":99}'),
  })
  await expect(page.getByRole('alert')).toContainText('newer.json')
  await expect(page.getByRole('alert')).toContainText('Nothing was changed.')
  await expect(page.locator('.job-card')).toHaveCount(1)
})

for (const [name, width, height] of [
  ['a phone', 390, 844],
  ['a tablet upright', 820, 1180],
  ['a tablet', 1180, 820],
  ['a desk', 1440, 900],
] as const)
  test(`on ${name}, ${width} × ${height}, nothing is clipped or too small, and everybody can use it`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await page.goto('./')
    await page.getByRole('button', { name: /^Ten-sided pedestal/ }).click()
    await expect(page.locator('.drawing').first()).toBeVisible()
    await page.goto('./#/')
    await expect(page.locator('.job-card')).toHaveCount(1)
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
    await expectAccessible(page)
  })
