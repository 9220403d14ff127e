// What a person does at the saw, for the browser tests: the hexagon sample has 6 pieces, 3 cuts each.
import { expect, type Locator, type Page } from '@playwright/test'
import type { Fact } from '../../src/core/facts.ts'

export const counted = (page: Page): Locator => page.locator('.bar-words [role=status]')

export const cutButton = (page: Page): Locator => page.locator('.main-button.go:not(.move)')

/** From an empty device to the Saw station of the hexagon sample. */
export async function openSaw(page: Page): Promise<void> {
  await page.goto('./')
  await page
    .getByRole('button', { name: /hexagon/i })
    .first()
    .click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  await page.goto(`./#/job/${job}/saw`)
  await expect(counted(page)).toContainText('0 of 18 in all', { timeout: 30_000 })
}

/** Checks off the piece on the button and waits until the count says so; gives the button's name. */
export async function cutOne(page: Page): Promise<string> {
  const button = cutButton(page)
  const name = ((await button.textContent()) ?? '').replace(/\s+/g, ' ')
  const before = Number(/(\d+) of 18 in all/.exec((await counted(page).textContent()) ?? '')![1])
  await button.click()
  await expect(counted(page)).toContainText(`${before + 1} of 18 in all`)
  return name
}

/** What the disk holds, read past the app. */
export const onDisk = (page: Page): Promise<readonly Fact[]> =>
  page.evaluate(
    () =>
      new Promise<Fact[]>((done, fail) => {
        const opening = indexedDB.open('longpoint')
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          const asked = opening.result.transaction('facts').objectStore('facts').getAll()
          asked.onerror = () => fail(asked.error)
          asked.onsuccess = () => {
            opening.result.close()
            done(asked.result)
          }
        }
      }),
  )

/** Angle and stop stand whole between the top of the window and the keys. */
export async function expectNumbersInSight(page: Page): Promise<void> {
  await page.evaluate(() => window.scrollTo(0, 0))
  const bar = (await page.locator('.cut-bar').boundingBox())!
  for (const name of ['angle', 'stop']) {
    const figure = (await page.locator(`[data-figure="${name}"]`).boundingBox())!
    expect(figure.y, name).toBeGreaterThanOrEqual(0)
    expect(figure.y + figure.height, name).toBeLessThanOrEqual(bar.y)
  }
}
