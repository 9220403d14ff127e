import { openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test('what is bought goes on the rack and is still there after a reload', async ({ page }) => {
  await openSaw(page)
  await page.goto(page.url().replace(/saw.*$/, 'stock'))
  await page
    .getByRole('button', { name: /^Bought 1 / })
    .first()
    .click()
  const rack = page.getByRole('region', { name: 'On the rack' })
  await expect(rack.getByRole('listitem')).toHaveCount(1)
  await page.reload()
  await expect(rack.getByRole('listitem')).toHaveCount(1)
  await rack.getByRole('button', { name: /^Discard/ }).click()
  await expect(rack.getByRole('listitem')).toHaveCount(0)
})
