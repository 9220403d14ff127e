import type { Page } from '@playwright/test'
import { expect, test } from './serve.ts'

const round = (width: number) => ({ kind: 'round-tube', width, wall: 2.6 })

/** Posts in saddles with their feet flat to the floor: the longest words that ends have, and a name of 36 letters. */
const job = {
  format: 'tube-job',
  version: 1,
  job: {
    id: 'bench',
    name: 'Bench',
    quantity: 1,
    units: 'mm',
    build: {
      kind: 'from-points',
      params: {
        section: round(42.4),
        points: [
          { name: 'a', x: 0, y: 0, z: 700 },
          { name: 'b', x: 800, y: 0, z: 700 },
          { name: 'c', x: 300, y: 0, z: 700 },
          { name: 'd', x: 260, y: -90, z: 0 },
          { name: 'e', x: 600, y: 0, z: 700 },
          { name: 'f', x: 660, y: 120, z: 0 },
        ],
        members: [
          { name: 'Rail', from: 'a', to: 'b' },
          { name: 'Post that leans forward, to the left', from: 'c', to: 'd', section: round(33.7) },
          { name: 'Other post', from: 'e', to: 'f', section: round(33.7) },
        ],
        joints: [
          { at: 'd', how: 'flat' },
          { at: 'f', how: 'flat' },
        ],
      },
    },
  },
}

async function open(page: Page) {
  await page.goto('./')
  await page.locator('input[type=file]').setInputFiles({
    name: 'bench.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(job)),
  })
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
}

/** Elements with more in them than they show, by their words. */
const clipped = (page: Page, of: string) =>
  page
    .locator(of)
    .evaluateAll((all) =>
      all
        .filter(
          (each) => each.scrollWidth > each.clientWidth + 1 || each.scrollHeight > each.clientHeight + 1,
        )
        .map((each) => `${each.textContent}: ${each.scrollWidth} px in ${each.clientWidth}`),
    )

test('a saddled and mitered post has all its words in Sizes: 1180 wide as a table, 390 wide as a card', async ({
  page,
}) => {
  await open(page)
  await expect(page.locator('table.parts')).toContainText('one end mitered, then a saddle at one end')
  expect(await clipped(page, '.scroll-x:has(table.parts)')).toEqual([])
  await page.setViewportSize({ width: 390, height: 844 })
  await expect(page.getByRole('region', { name: 'Parts' }).locator('.part-cards')).toContainText(
    'one end mitered, then a saddle at one end',
  )
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
})

test('and on the parts sheet: no row shows less than it says', async ({ page }) => {
  await open(page)
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  const rows = page.locator('.paper-page .parts-row:visible')
  await expect(rows.filter({ hasText: 'one end mitered, saddle' }).first()).toBeVisible()
  expect(await clipped(page, '.parts-row:visible, .parts-row:visible > *')).toEqual([])
})
