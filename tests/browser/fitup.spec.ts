import { expectAccessible, expectNothingClipped } from './axe.ts'
import { expect, test } from './serve.ts'

// By touch, at four sizes: a ring that does not close, from what was measured to what to do.

const sizes = [
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
] as const

async function openFitUp(page: import('@playwright/test').Page, job = /hexagon/i): Promise<void> {
  await page.goto('./')
  await page.getByRole('button', { name: job }).first().click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const id = /#\/job\/([^/]+)/.exec(page.url())![1]
  await page.goto(`./#/job/${id}/fit-up`)
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
    await expect(page.locator('.joint-picture figcaption')).toContainText('Outside, at the top')
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

type Part = 'Close' | 'Table' | 'Square and flat' | 'One on another'
const show = (page: import('@playwright/test').Page, part: Part) =>
  page.locator('.fit-nav').getByRole('button', { name: part, exact: true }).click()

for (const [job, daylight, shown] of [
  [/hexagon/i, false, ['Close']],
  [/hexagon/i, true, ['Square and flat']],
  [/pedestal/i, true, ['Table', 'One on another']],
] as const)
  test(`readable and named: ${shown.join(', ')}${daylight ? ', in daylight' : ''}`, async ({ page }) => {
    await openFitUp(page, job)
    await page.evaluate((day) => document.documentElement.toggleAttribute('data-daylight', day), daylight)
    for (const part of shown) {
      await show(page, part)
      for (const fold of await page.locator('.fit-fold > summary').all()) await fold.click()
      await expectAccessible(page)
    }
  })

const fill = async (page: import('@playwright/test').Page, label: string, text: string) => {
  const field = page.getByLabel(label, { exact: false }).first()
  await field.fill(text)
  await field.press('Enter')
}

test('diagonals and heights: which corners to pull and to lift, and what a class allows', async ({
  page,
}) => {
  await openFitUp(page)
  await show(page, 'Square and flat')
  // 24 in across flats, cut to 13 7/8: 27 3/4 in across corners.
  await expect(page.getByText('Must be').first()).toContainText('27 3/4')
  await fill(page, 'Corner 1 to 4', '27 13/16')
  await fill(page, 'Corner 2 to 5', '27 3/4')
  await expect(page.getByText('Pull corners 1 and 4 together')).toBeVisible()
  await expect(page.getByText('Beyond: 1/16 in too long; the shop’s tolerance allows 1/32 in')).toBeVisible()
  for (const corner of [2, 3, 4, 5, 6]) await fill(page, `Corner ${corner} (may`, '2')
  await fill(page, 'Corner 1 (may', '2 1/8')
  await expect(page.getByText(/Out of flat by .* press down/)).toBeVisible()
  await page.getByRole('link', { name: 'Held to the shop’s own tolerance' }).click()
  const classB = page
    .getByRole('group', { name: /Lengths and angles/ })
    .getByRole('radio', { name: /^(✓ )?B$/ })
  // It turns when the shop is on disk, and says so in its name too.
  await classB.click()
  await expect(classB).toBeChecked()
  await page.goBack()
  await show(page, 'Square and flat')
  // 705 mm: class B allows 3 mm, and a sixteenth is 1.6.
  await expect(page.getByText('1/16 in too long, within class B')).toBeVisible()
})

test('the table: lines and blocks from two edges, what goes under, and the slots of the shop’s own table', async ({
  page,
}) => {
  await openFitUp(page, /pedestal/i)
  await show(page, 'Table')
  await expect(page.getByRole('row', { name: /Top side 1 / })).toContainText('100')
  await page.getByLabel('What is put together').selectOption('Base')
  await expect(page.getByText(/^block .* under end A/).first()).toBeVisible()
  await page.getByLabel('What is put together').selectOption('Top frame')
  await page.setViewportSize({ width: 390, height: 844 })
  await expectNothingClipped(page)
  await page.setViewportSize({ width: 1180, height: 820 })
  await page.getByRole('link', { name: 'Give the size of your table in the Shop' }).click()
  await page.getByText('Lay frames out on our own table').click()
  await fill(page, 'Width of its slots', '25')
  await page.goBack()
  await show(page, 'Table')
  await expect(page.getByText(/too narrow to lie over the slots/)).toBeVisible()
})

test('one on another: a post that stands aside is moved back, and feet that do not reach are named', async ({
  page,
}) => {
  await openFitUp(page, /pedestal/i)
  await show(page, 'One on another')
  const post = page.locator('details', { hasText: 'Post:' }).filter({ hasText: 'from side 1' })
  await post.locator('summary').click()
  const fields = post.getByRole('textbox')
  // 3 mm nearer to the first side than to the second: half of it.
  for (const [at, mm] of ['418', '418', '421', '421'].entries()) {
    await fields.nth(at).fill(mm)
    await fields.nth(at).press('Enter')
  }
  await expect(post.getByRole('status')).toContainText('Move it 1.5 mm toward side')
  for (const foot of [1, 2, 3]) await fill(page, `Gap at foot ${foot}`, '0')
  await fill(page, 'Gap at foot 4', '20')
  await expect(page.getByText('Foot 4 cannot reach')).toBeVisible()
  await fill(page, 'Gap at foot 4', '4')
  await expect(page.getByText(/The feet reach\. .*4: 2\d mm/)).toBeVisible()
})

test('a corner by three lengths says which way to push the marks', async ({ page }) => {
  await openFitUp(page)
  await show(page, 'Square and flat')
  await page.locator('summary', { hasText: 'A corner by three lengths' }).click()
  await fill(page, 'Along one side', '10')
  await fill(page, 'Along the other', '10')
  // 120° between two of 10 in: 17.32 in.
  await expect(page.getByText('Must be 17 5/16')).toBeVisible()
  await fill(page, 'Between the two marks', '17 1/2')
  await expect(page.getByText(/too wide: pull the two marks together/)).toBeVisible()
})
