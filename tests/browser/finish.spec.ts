import { expectAccessible, expectNothingClipped } from './axe.ts'
import { expect, test } from './serve.ts'

// The pedestal sample has grinding, tapped caps, feet to level and a size to measure.

async function openFinish(page: import('@playwright/test').Page): Promise<void> {
  await page.goto('./')
  await page
    .getByRole('button', { name: /pedestal/i })
    .first()
    .click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  await page.goto(`./#/job/${job}/finish`)
  await expect(page.getByRole('heading', { name: 'Grind' })).toBeVisible()
}

for (const [width, height] of [
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
] as const)
  test(`at ${width} × ${height} a step is ticked, a size measured, and both are kept`, async ({ page }) => {
    await page.setViewportSize({ width, height })
    await openFinish(page)
    const status = page.locator('.finish-head [role=status]')
    await expect(status).toContainText(/^0 of \d+ done/)
    await page.locator('.finish-step').first().click()
    await expect(status).toContainText(/^1 of \d+ done/)
    const size = page.locator('.finish-size').first()
    await expect(size).toContainText('to measure')
    await size.getByRole('textbox').fill('30')
    await size.getByRole('textbox').press('Enter')
    await expect(size).toContainText(/as asked|more than|less than/)
    await expectNothingClipped(page)
    const small = await page.locator('.finish :is(button, summary):visible').evaluateAll((all) =>
      all
        .map((one) => ({ name: one.textContent, box: one.getBoundingClientRect() }))
        .filter(({ box }) => box.width < 64 || box.height < 64)
        .map(({ name, box }) => `${name}: ${box.width} × ${box.height}`),
    )
    expect(small).toEqual([])
    await page.reload()
    await expect(status).toContainText(/^1 of \d+ done/)
    await expect(page.locator('.finish-size').first()).not.toContainText('to measure')
  })

for (const daylight of [false, true])
  test(`readable and named${daylight ? ', in daylight too' : ''}`, async ({ page }) => {
    await openFinish(page)
    await page.evaluate((day) => document.documentElement.toggleAttribute('data-daylight', day), daylight)
    await expectAccessible(page)
  })

test('four feet, a floor low under the third: where each is set', async ({ page }) => {
  await openFinish(page)
  for (const [foot, low] of [
    [1, '0'],
    [2, '0'],
    [3, '1/4'],
    [4, '0'],
  ] as const) {
    const field = page.getByRole('textbox', { name: new RegExp(`Floor low under foot ${foot}`) })
    await field.fill(low)
    await field.press('Enter')
  }
  await expect(page.getByText(/Set the feet to 1: .*, floor to cap\./)).toBeVisible()
})
