// The saw in its rarer states, by the same measures as in its usual one: 64 px to press, contrast 7 : 1, names, nothing
// past the edge, and with a plan of the rest on offer the numbers to set still in sight.
import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { counted, cutOne, expectNumbersInSight, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

async function measure(page: Page): Promise<void> {
  await expectAccessible(page)
  await expectTouchable(page, 64)
  await expectNothingClipped(page)
}

const sizes = [
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
] as const

for (const [wide, high] of sizes)
  test(`states of the saw at ${wide} × ${high}: first piece, miscut, a new plan offered and looked at`, async ({
    page,
  }) => {
    test.setTimeout(120_000)
    await page.setViewportSize({ width: wide, height: high })
    await openSaw(page)
    await cutOne(page)
    await expect(page.getByRole('textbox', { name: /The length that you got/ })).toBeVisible()
    await measure(page)

    await page.getByRole('button', { name: 'Miscut' }).click()
    const scrap = page.getByRole('button', { name: /^Scrap A\d/ })
    await expect(scrap).toBeVisible()
    await measure(page)

    await scrap.click()
    const see = page.getByRole('button', { name: 'See the new plan' })
    await expect(see).toBeVisible({ timeout: 30_000 })
    await expectNumbersInSight(page)
    await measure(page)

    await see.click()
    await expect(page.getByRole('region', { name: 'The new plan of what is left' })).toBeVisible()
    await measure(page)
    await page.getByRole('button', { name: 'Back to the set-up' }).click()
    await expectNumbersInSight(page)
  })

for (const [wide, high] of sizes)
  test(`end of the saw at ${wide} × ${high}: set-ups made by hand, and all cut`, async ({ page }) => {
    test.setTimeout(120_000)
    await page.setViewportSize({ width: wide, height: high })
    await page.goto('./#/shop')
    for (const side of ['toward', 'away from']) {
      const most = page.getByRole('textbox', {
        name: `Greatest miter, far end of the blade ${side} the stop`,
      })
      await most.fill('20')
      await most.press('Enter')
    }
    // No new page: what was typed last may still be on its way to the disk.
    await page.getByRole('link', { name: /^Jobs/ }).first().click()
    await page
      .getByRole('button', { name: /hexagon/i })
      .first()
      .click()
    await expect(page).toHaveURL(/#\/job\/[^/]+/)
    await page.goto(page.url().replace(/(#\/job\/[^/]+).*/, '$1/saw'))
    await expect(counted(page)).toContainText('0 of 12 in all', { timeout: 30_000 })
    await measure(page)
    const main = page.locator('.main-button')
    for (let done = 1; done <= 12; done++) {
      await main.click()
      await expect(counted(page)).toContainText(`${done} of 12 in all`)
      await expect(main).not.toHaveClass(/was-cut/)
      if (done === 6) await measure(page)
    }
    await expect(page.getByText(/cuts of this job are done/)).toBeVisible()
    await measure(page)
  })

test('the numbers to set are whole in sight on a phone with a new stick in hand and long words over them', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto('./')
  await page.getByRole('button', { name: /^New job: Pedestal/ }).click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  // Two crossing bars: the one that runs through is cut first, as long as the top.
  await page.getByRole('radio', { name: 'two, crossing' }).click()
  await page.getByRole('textbox', { name: 'Size', exact: true }).fill('26 1/2')
  await page.keyboard.press('Tab')
  await page.goto(`./#/job/${job}/saw`)
  await expect(page.locator('[data-figure="stop"]')).toContainText('26', { timeout: 30_000 })
  await expectNumbersInSight(page)
})
