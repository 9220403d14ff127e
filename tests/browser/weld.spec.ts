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
  // Its stretch is done and closed: opened again, the check is taken back.
  await page.locator('summary', { hasText: 'Before the first tack' }).click()
  await page.getByRole('checkbox', { checked: true }).first().click()
  await expect(status).toContainText(/^0 of \d+ steps/)
  await expect(counted(page)).toHaveCount(0)
})

test('why, caution, a measured check and the settings book, each kept over a reload', async ({ page }) => {
  await openSaw(page)
  await page.goto(page.url().replace(/saw.*$/, 'weld'))
  const now = page.locator('.weld-step-now')
  const done = page.locator('.main-button.go')
  await expect(now).toContainText('Scale and oil in the puddle make holes')
  await expect(now).toContainText(/galvanized/i)
  await done.click()
  await expect(now).toContainText('What does not close now is not closed by welding.')
  await expect(done).toBeEnabled()
  await done.click()
  // The first tack: shade for 1/8 in of wall, and the settings of the machine.
  await expect(now).toContainText('shade 10 at least')
  await now.locator('summary', { hasText: 'Machine settings' }).click()
  await expect(now).toContainText('never an instruction')
  const type = async (name: string, text: string) => {
    const field = now.getByRole('textbox', { name })
    await field.fill(text)
    await field.press('Enter')
  }
  await type('Volts', '19')
  await type('Wire speed', '240')
  await now.getByRole('button', { name: 'Keep in the settings book' }).click()
  await expect(now).toContainText('set to 19 V, 240 in/min')
  await expect(now).toContainText('it went good: 19 V, wire .030, 240 in/min')
  await expect(done).toContainText('Tack')
  await done.click()
  await expect(now).toContainText('Planned 120°')
  await type('Angle measured', '119 1/2')
  await page.reload()
  await expect(now.getByRole('textbox', { name: 'Angle measured' })).toHaveValue('119.5')
  await done.click()
  await now.locator('summary', { hasText: 'Machine settings' }).click()
  await expect(now).toContainText('19 V, wire .030, 240 in/min of wire')
})
