import type { Page } from '@playwright/test'
import { counted, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test.use({ hasTouch: true })

const main = (page: Page) => page.locator('.main-button')
const countNow = async (page: Page) =>
  Number(/(\d+) of 18 in all/.exec((await counted(page).textContent()) ?? '')?.[1])

/** Taps the big key until so many cuts are said to be done: cuts, and goes to the set-up that it names. */
async function tapOn(page: Page, until: number): Promise<void> {
  for (let done = await countNow(page); done < until; ) {
    const words = ((await main(page).textContent()) ?? '').replace(/\s+/g, ' ').trim()
    await main(page).tap()
    if (words.startsWith('Go to set-up')) {
      await expect(main(page)).toContainText('Cut')
      continue
    }
    done += 1
    await expect(counted(page)).toContainText(`${done} of 18 in all`)
    await expect(main(page)).not.toHaveClass(/was-cut/)
    // What was cut is asked for no more.
    await expect(main(page)).not.toHaveText(words)
  }
}

test('a hexagon by touch, from the first blank to the drop on the rack: reloads, one miscut, the rest planned anew', async ({
  page,
}) => {
  test.setTimeout(120_000)
  await openSaw(page)
  await tapOn(page, 4)
  await page.reload()
  await expect(counted(page)).toContainText('4 of 18 in all')
  await tapOn(page, 9)

  await page.getByRole('button', { name: 'Miscut' }).tap()
  await page.getByRole('button', { name: /^Scrap A\d/ }).tap()
  await expect(page.locator('.lacking')).toContainText('ready: nothing has to be bought')
  await expect(counted(page)).toContainText('9 of 16 in all')
  await page.getByRole('button', { name: 'See the new plan' }).tap()
  const offer = page.getByRole('region', { name: 'The new plan of what is left' })
  await expect(offer).toContainText('Nothing has to be bought')
  await offer.getByRole('button', { name: 'Work by the new plan' }).tap()
  // A blank less is cut than before, and the plan asks for all six pieces again.
  await expect(counted(page)).toContainText('8 of 18 in all')
  await expect(page.getByText(/too short/)).toHaveCount(0)

  await page.reload()
  await expect(counted(page)).toContainText('8 of 18 in all')
  await tapOn(page, 12)
  await page.reload()
  await tapOn(page, 18)
  await expect(page.getByText('All 18 cuts of this job are done')).toBeVisible()

  const left = page.getByRole('region', { name: 'What is left of stick S1' })
  await left.getByRole('button', { name: 'Keep the drop' }).tap()
  await expect(left).toHaveCount(0)
  const mark = await page.locator('.paint .mark').first().textContent()
  await main(page).tap()
  await expect(page).toHaveURL(/\/fit-up/)
  await page.goto(page.url().replace(/fit-up.*$/, 'stock'))
  await page.reload()
  await expect(page.locator('main')).toContainText(mark!)
})
