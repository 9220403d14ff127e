import type { Page } from '@playwright/test'
import { counted, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test.use({ hasTouch: true })

const main = (page: Page) => page.locator('.main-button')
const wordsOf = async (page: Page) => ((await main(page).textContent()) ?? '').replace(/\s+/g, ' ').trim()

test('a hexagon by touch', async ({ page }) => {
  await openSaw(page)
  for (let n = 0; n < 60; n++) {
    await page.locator('.main-button:not(.was-cut)').waitFor()
    const words = await wordsOf(page)
    const count = (await counted(page).textContent()) ?? ''
    console.log(Date.now() % 1e6, words, '|', count)
    if (words.startsWith('All cut')) break
    await main(page).tap()
    if (words.startsWith('Cut')) await page.locator('.main-button.was-cut').waitFor()
    if (n === 9) {
      await page.getByRole('button', { name: 'Miscut' }).tap()
      console.log(await page.locator('.miscut-panel').innerText())
      await page.getByRole('button', { name: /^Scrap/ }).tap()
      await page.waitForTimeout(3000)
      console.log(await page.locator('main').innerText())
      await page.getByRole('button', { name: 'Work by the new plan' }).tap()
      await page.waitForTimeout(3000)
      console.log(await page.locator('main').innerText())
    }
  }
  console.log(await page.locator('main').innerText())
})
