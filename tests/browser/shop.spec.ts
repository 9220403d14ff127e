import { readFile } from 'node:fs/promises'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { expect, test } from './serve.ts'

test('what is true in the shop is there after a reload: millimeters, daylight, kerf 1.2', async ({
  page,
}) => {
  await page.goto('./#/shop')
  await page.getByRole('combobox', { name: 'Lengths are read in' }).selectOption('mm1')
  await page.getByRole('checkbox', { name: /Daylight/ }).click()
  await page.getByRole('textbox', { name: 'Kerf' }).fill('1.2')
  await page.getByRole('textbox', { name: 'Kerf' }).press('Enter')
  await expect(page.locator('html')).toHaveAttribute('data-daylight', '')
  await expect(page.getByRole('textbox', { name: 'Kerf' })).toHaveValue('1.2')
  // The field says what was typed; that it is on the disk is said by the offer, which stands as long as no figure changed.
  await expect(page.getByRole('button', { name: 'Begin in mm' })).toHaveCount(0)
  await page.reload()
  await expect(page.getByRole('combobox', { name: 'Lengths are read in' })).toHaveValue('mm1')
  await expect(page.getByRole('textbox', { name: 'Kerf' })).toHaveValue('1.2')
  await expect(page.locator('html')).toHaveAttribute('data-daylight', '')
})

test('the saw’s words follow its scale: one that reads 90 at square shows 60 for a miter of 30', async ({
  page,
}) => {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon/ }).click()
  await expect(page.locator('table.parts')).toBeVisible()
  await page.goto('./#/shop')
  await page.getByRole('radio', { name: '90°' }).first().click({ force: true })
  await page.getByRole('link', { name: /^Saw/ }).first().click()
  await expect(page.getByText(/miter scale at 60°/).first()).toBeVisible()
})

test('an impossible figure is refused beside its field, and the old one stays', async ({ page }) => {
  await page.goto('./#/shop')
  const bevel = page.getByRole('textbox', { name: /Greatest bevel/ })
  await bevel.fill('120')
  await expect(page.getByRole('alert')).toContainText('120° was given; 0 to 89 is possible.')
  await bevel.blur()
  await expect(bevel).toHaveValue('0')
})

test('a backup of two jobs opens on another device', async ({ browser, page, baseURL }) => {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon/ }).click()
  await expect(page.locator('table.parts')).toBeVisible()
  await page.goto('./#/')
  await page.getByRole('button', { name: /^Five-sided/ }).click()
  await expect(page.locator('table.parts')).toBeVisible()
  await page.goto('./#/shop')
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: /Save everything to a file \(2 jobs\)/ }).click()
  const text = await readFile(await (await saving).path(), 'utf8')

  const other = await browser.newContext({ baseURL: baseURL ?? '' })
  const there = await other.newPage()
  await there.goto('./#/shop')
  await there
    .locator('input[type=file]')
    .setInputFiles({ name: 'all.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  await expect(there.getByText('2 jobs opened from all.json.')).toBeVisible()
  await there.goto('./#/')
  await expect(there.locator('.job-card')).toHaveCount(2)
  await other.close()
})

for (const [width, height] of [
  [390, 844],
  [820, 1180],
  [1180, 820],
] as const)
  test(`at ${width} × ${height} nothing is clipped or too small, and everybody can use it`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await page.goto('./#/shop')
    await page.getByRole('button', { name: 'Add a section' }).click()
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
    await expectAccessible(page)
  })
