import { expectAccessible, expectNothingClipped } from './axe.ts'
import { expect, test } from './serve.ts'

// By touch, at four sizes: a ring that does not close, from what was measured to what to do.

const sizes = [
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
] as const

async function openFitUp(page: import('@playwright/test').Page): Promise<void> {
  await page.goto('./')
  await page
    .getByRole('button', { name: /hexagon/i })
    .first()
    .click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  await page.goto(`./#/job/${job}/fit-up`)
  await expect(page.getByRole('heading', { name: 'Will it close?' })).toBeVisible()
}

for (const [width, height] of sizes)
  test(`at ${width} × ${height} a test on scraps says what is left over and what to do, and is kept`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await openFitUp(page)
    const says = page.locator('#fit-close ~ .fit-close .fit-says')
    await expect(says).toContainText('It closes')
    await page.locator('summary', { hasText: 'A test on scraps' }).click()
    const error = page.getByLabel('Error that it shows', { exact: false }).first()
    await error.fill('1/2')
    await error.press('Enter')
    // Two ends show half a degree: ¼° each, 12 ends leave 3°.
    await expect(page.getByText('The angles are 3° too much all round')).toBeVisible()
    await expect(page.locator('[data-advice=share]')).toContainText('Open every joint')
    await expect(page.locator('.closing-picture figcaption')).toContainText('too large')
    await page.locator('.joint-keys button').first().click()
    await expect(says).toContainText('Joint 1:')
    await expectNothingClipped(page)
    const small = await page.locator('.fitup :is(button, summary):visible').evaluateAll((all) =>
      all
        .map((one) => ({ name: one.textContent, box: one.getBoundingClientRect() }))
        .filter(({ box }) => box.width < 64 || box.height < 64)
        .map(({ name, box }) => `${name}: ${box.width} × ${box.height}`),
    )
    expect(small).toEqual([])
    await page.reload()
    await expect(page.getByText('The angles are 3° too much all round')).toBeVisible()
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect(says).toContainText('It closes')
  })

for (const daylight of [false, true])
  test(`readable and named${daylight ? ', in daylight too' : ''}`, async ({ page }) => {
    await openFitUp(page)
    await page.evaluate((day) => document.documentElement.toggleAttribute('data-daylight', day), daylight)
    for (const fold of await page.locator('.fit-fold > summary').all()) await fold.click()
    await expectAccessible(page)
  })

test('diagonals and heights: which corners to pull and to lift', async ({ page }) => {
  await openFitUp(page)
  const fill = async (label: string, text: string) => {
    const field = page.getByLabel(label, { exact: false }).first()
    await field.fill(text)
    await field.press('Enter')
  }
  // 24 in across flats is 27.713 in across corners.
  await expect(page.getByText('Must be').first()).toContainText('27 11/16')
  await fill('Corner 1 to 4', '27 3/4')
  await fill('Corner 2 to 5', '27 11/16')
  await expect(page.getByText('Pull corners 1 and 4 together')).toBeVisible()
  for (const corner of [2, 3, 4, 5, 6]) await fill(`Corner ${corner} (may`, '2')
  await fill('Corner 1 (may', '2 1/8')
  await expect(page.getByText(/Out of flat by .* press down/)).toBeVisible()
})
