import { counted, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test('steps are ticked in order, kept over a reload, and taken back', async ({ page }) => {
  await openSaw(page)
  await page.goto(page.url().replace(/saw.*$/, 'weld'))
  const status = page.locator('.weld-top [role=status]')
  await expect(status).toContainText(/^0 of \d+ steps/)
  await page.locator('.main-button.go').click()
  await expect(status).toContainText(/^1 of \d+ steps/)
  await page.reload()
  await expect(status).toContainText(/^1 of \d+ steps/)
  await page.getByRole('checkbox', { checked: true }).first().click()
  await expect(status).toContainText(/^0 of \d+ steps/)
  await expect(counted(page)).toHaveCount(0)
})
