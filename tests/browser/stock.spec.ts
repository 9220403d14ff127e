import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test.use({ hasTouch: true })

const rackOf = (page: Page) => page.getByRole('region', { name: 'On the rack' })

/** From an empty device to the Stock station of a sample, laid out. */
async function openStock(page: Page, sample: RegExp): Promise<void> {
  await page.goto('./#/')
  await page.getByRole('button', { name: sample }).first().tap()
  await expect(page).toHaveURL(/#\/job\/[^/]+\/sizes/)
  await page.goto(page.url().replace(/sizes.*$/, 'stock'))
  await expect(page.getByText('proved least: no plan buys less').first()).toBeVisible({ timeout: 30_000 })
}

test('what is bought goes on the rack and is still there after a reload', async ({ page }) => {
  await openSaw(page)
  await page.goto(page.url().replace(/saw.*$/, 'stock'))
  await page
    .getByRole('button', { name: /^Bought 1 / })
    .first()
    .tap()
  const rack = rackOf(page)
  await expect(rack.getByRole('listitem')).toHaveCount(1)
  await page.reload()
  await expect(rack.getByRole('listitem')).toHaveCount(1)
  await rack.getByRole('button', { name: /^Discard/ }).tap()
  await expect(rack.getByRole('listitem')).toHaveCount(0)
  await rack.getByRole('button', { name: /^Undo: discarded/ }).tap()
  await expect(rack.getByRole('listitem')).toHaveCount(1)
})

test('three pedestals: tube, flat bar for 12 caps, a top of 947 × 900, 12 feet, as text for an order', async ({
  page,
}) => {
  await openStock(page, /^Ten-sided/)
  const buy = page.getByRole('region', { name: 'To buy' })
  await expect(buy).toContainText('40 × 10 mm flat bar, at least')
  await expect(buy).toContainText('for 12 × 40 mm')
  await expect(buy).toContainText('at least 947 mm × 900 mm')
  await expect(buy).toContainText('12 × M10 leveling foot, stud 40 mm, pad 32 mm')
  await buy.getByText('As text for an order').tap()
  await expect(buy.getByRole('textbox')).toHaveValue(/^Ten-sided pedestal table\n80 × 40 × 3 mm/)
  await buy.getByRole('button', { name: 'Copy the text' }).tap()
  // Where the browser gives a clipboard it is copied, where not the text stands there to be marked.
  await expect(buy.getByRole('status')).toHaveText(/Copied\.|mark the text above/)
})

test('a part’s key says its sticks and shows its pieces; other lengths are compared in the worker', async ({
  page,
}) => {
  await openStock(page, /^Ten-sided/)
  await page.getByRole('button', { name: /^D × 30/ }).tap()
  await expect(page.getByRole('region', { name: 'Where each part is cut' })).toContainText(/S\d × \d+, S\d/)
  await expect(page.locator('.stick-picture .chosen')).toHaveCount(30)
  const compared = page.getByRole('region', { name: /^What other/ })
  await expect(compared.getByRole('listitem').first()).toContainText(/only .*: \d+ lengths?/, {
    timeout: 30_000,
  })
  // Wanted from one length: pieces 1 to 10 are of the first of three tables, and all lie where one of them lies.
  await page.getByRole('checkbox', { name: 'all 10 D' }).click({ force: true })
  await expect(page.getByText('From one length in each copy: D × 10.')).toBeVisible()
  await expect(page.locator('.stick-head').filter({ hasText: 'from one length: D' }).first()).toBeVisible()
  const names = await page
    .locator('.stick-picture svg')
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')!))
  const copies = names.map((name) =>
    [...name.matchAll(/\bD(\d+)\b/g)].map(([, number]) => Math.ceil(Number(number) / 10)),
  )
  for (const copy of [1, 2, 3])
    expect(copies.map((of) => of.filter((one) => one === copy).length).filter((many) => many > 0)).toEqual([
      10,
    ])
})

test('the ways of cutting are compared, one is chosen, and the saw follows it', async ({ page }) => {
  await openStock(page, /^Hexagon/)
  const ways = page.getByRole('region', { name: 'Ways of cutting' })
  await expect(ways).toContainText('Paired blanks: the same as square first', { timeout: 30_000 })
  const way = (name: string) => ways.locator('.way').filter({ has: page.getByRole('heading', { name }) })
  // One stick: 1 clean-up cut, 6 blanks and 12 miters; or 1 clean-up cut and 6 that end one piece and begin the next.
  await expect(way('Square first')).toContainText('This layout')
  await expect(way('Square first')).toContainText('19 cuts')
  await expect(way('Miter from the stick')).toContainText('7 cuts')
  await expectNothingClipped(page)
  await expectTouchable(page, 44)
  await expectAccessible(page)
  await way('Miter from the stick')
    .getByRole('button', { name: /^Cut this way/ })
    .tap()
  await expect(way('Miter from the stick')).toContainText('This layout', { timeout: 30_000 })
  await page.goto(page.url().replace(/stock.*$/, 'saw'))
  await expect(page.locator('.bar-words [role=status]')).toContainText('0 of 6 in all', { timeout: 30_000 })
  await expect(page.getByText(/clean-up cut/i).first()).toBeVisible()
})

test('two jobs are bought together, one run at the saw for both, and apart again', async ({ page }) => {
  await openStock(page, /^Five-sided/)
  await openStock(page, /^Hexagon/)
  await page.getByRole('checkbox', { name: /^Five-sided/ }).click({ force: true })
  const together = page.getByRole('region', { name: 'Buy together with' })
  await expect(together).toContainText('1A, 1B …', { timeout: 30_000 })
  await page.getByRole('button', { name: 'Work by this layout' }).tap()
  await expect(page.getByRole('region', { name: 'Bought together' })).toContainText(/Five-sided/)
  await page.goto(page.url().replace(/stock.*$/, 'saw'))
  await expect(page.locator('.main-button.go:not(.move)')).toContainText(/[12][A-Z]\d/)
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
    await openStock(page, /^Ten-sided/)
    await page
      .getByRole('button', { name: /^Bought 3 / })
      .first()
      .tap()
    await rackOf(page).locator('.rack-alike summary').tap()
    await rackOf(page).getByText('Put something on the rack').tap()
    await page.getByText('As text for an order').tap()
    await page.getByRole('button', { name: /^D × 30/ }).tap()
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
    await expectAccessible(page)
  })

test('a search that takes longer says how far it is, and stops with the best so far, at 1440 × 900', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1440, height: 900 })
  // The worker searches as ever; that it has come to its end is kept from the page.
  await page.addInitScript(() => {
    const Real = window.Worker
    window.Worker = class extends Real {
      override set onmessage(hear: (event: MessageEvent) => void) {
        super.onmessage = (event: MessageEvent) => {
          if (event.data.kind !== 'end') hear(event)
        }
      }
    }
  })
  await page.goto('./')
  await page
    .getByRole('button', { name: /^Hexagon/ })
    .first()
    .click()
  await expect(page).toHaveURL(/sizes/)
  await page.getByRole('link', { name: /Stock/ }).first().click()
  const work = page.getByRole('region', { name: 'Laying out the pieces on the stock' })
  await expect(work.getByText(/Best so far: /)).toBeVisible({ timeout: 20_000 })
  await expect(work.getByRole('progressbar')).toBeVisible()
  await work.getByRole('button', { name: /^Stop/ }).click()
  await expect(work).toBeHidden()
  await expect(page.getByRole('region', { name: 'To buy' })).toContainText(/\d stick/)
})
