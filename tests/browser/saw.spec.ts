import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { settle } from '../../src/ui/saw/flash.tsx'
import { counted, cutButton, cutOne, openSaw } from './saw-steps.ts'
import { expect, startBrowser, test } from './serve.ts'

test.use({ serviceWorkers: 'allow' })

test('all of a set-up is cut, kept over a reload, and the last one taken back', async ({ page }) => {
  await openSaw(page)
  for (let n = 0; n < 6; n++) await cutOne(page)
  await expect(counted(page)).toContainText('6 of 6 in this set-up')
  await expect(page.getByRole('button', { name: /^Go to set-up 2/ })).toBeVisible()
  await page.reload()
  await expect(counted(page)).toContainText('6 of 18 in all')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(counted(page)).toContainText('5 of 18 in all')
  await page.reload()
  await expect(counted(page)).toContainText('5 of 18 in all')
})

test('a cut is done by keyboard alone, and the focus stays on the button', async ({ page }) => {
  await openSaw(page)
  await cutButton(page).focus()
  await page.keyboard.press('Enter')
  await expect(counted(page)).toContainText('1 of 18 in all')
  await expect(cutButton(page)).toBeFocused()
  // For a moment the key says what was just cut, and nothing counts.
  await page.waitForTimeout(settle + 300)
  await page.keyboard.press('Space')
  await expect(counted(page)).toContainText('2 of 18 in all')
})

test('a double tap checks off one piece, not two', async ({ page }) => {
  await openSaw(page)
  await cutButton(page).dblclick()
  await expect(counted(page)).toContainText('1 of 18 in all')
  await expect(cutButton(page)).toBeVisible()
  await expect(counted(page)).toContainText('1 of 18 in all')
})

test('a browser that is closed and started again with the server gone has every cut', async ({ site }) => {
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-saw-'))
  try {
    const before = await startBrowser(profile)
    const page = await before.newPage()
    await page.goto(site.url)
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready
    })
    await page
      .getByRole('button', { name: /hexagon/i })
      .first()
      .click()
    await expect(page).toHaveURL(/#\/job\//)
    const job = /#\/job\/([^/]+)/.exec(page.url())![1]
    const address = `${site.url}#/job/${job}/saw`
    await page.goto(address)
    await expect(counted(page)).toContainText('0 of 18 in all', { timeout: 30_000 })
    await site.kill()
    await cutOne(page)
    await cutOne(page)
    await before.close()
    const after = await startBrowser(profile)
    const again = await after.newPage()
    await again.goto(address)
    await expect(counted(again)).toContainText('2 of 18 in all')
    await cutOne(again)
    await after.close()
  } finally {
    await rm(profile, { recursive: true, force: true })
  }
})

/** Height of the ink of a digit as the browser draws it, px. */
const digitHeight = (selector: string) => {
  const element = document.querySelector(selector)!
  const style = getComputedStyle(element)
  const context = document.createElement('canvas').getContext('2d')!
  context.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`
  return context.measureText('1').actualBoundingBoxAscent
}

for (const [wide, high, digits] of [
  [1180, 820, 96],
  [820, 1180, 96],
  [1440, 900, 96],
  [390, 844, 72],
] as const)
  test(`at ${wide} × ${high} the digits are ${digits} px high, targets 64 px and 12 apart, nothing runs over`, async ({
    page,
  }) => {
    await page.setViewportSize({ width: wide, height: high })
    await openSaw(page)
    for (const figure of ['angle', 'stop'])
      expect(await page.evaluate(digitHeight, `[data-figure="${figure}"]`)).toBeGreaterThanOrEqual(digits)
    const boxes = await page.locator('.bench button:visible').evaluateAll((all) =>
      all.map((one) => {
        const { left, right, top, bottom } = one.getBoundingClientRect()
        return { left, right, top, bottom, name: one.textContent, bar: one.closest('.cut-bar') !== null }
      }),
    )
    expect(boxes.length).toBeGreaterThan(2)
    for (const box of boxes) {
      expect(box.right - box.left, `${box.name} wide`).toBeGreaterThanOrEqual(64)
      expect(box.bottom - box.top, `${box.name} high`).toBeGreaterThanOrEqual(64)
    }
    for (const [at, one] of boxes.entries())
      for (const two of boxes.slice(at + 1)) {
        // The bar stays over what scrolls under it.
        if (one.bar !== two.bar) continue
        const across = Math.max(one.left, two.left) - Math.min(one.right, two.right)
        const down = Math.max(one.top, two.top) - Math.min(one.bottom, two.bottom)
        expect(Math.max(across, down), `${one.name} / ${two.name}`).toBeGreaterThanOrEqual(11.9)
      }
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    )
  })

test('without motion a frame stays after a cut instead of a flash', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await openSaw(page)
  await cutOne(page)
  const mark = page.locator('.saw-flash')
  await expect(mark).toHaveCSS('opacity', '1')
  await expect(mark).toHaveCSS('border-top-width', '8px')
})
