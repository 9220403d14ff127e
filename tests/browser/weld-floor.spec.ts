import { readFile } from 'node:fs/promises'
import { openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

const axe = await readFile(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8')

/** What a rule finds wrong, as text; contrast is held to 7 to 1 (WCAG 2.2, 1.4.6). */
const faults = async () => {
  type Run = (
    where: string,
    how: object,
  ) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>
  const { run } = (window as unknown as { axe: { run: Run } }).axe
  const { violations } = await run('main', { rules: { 'color-contrast-enhanced': { enabled: true } } })
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 140)}`))
}

for (const station of ['saw', 'stock', 'weld'] as const)
  for (const daylight of [false, true])
    test(`${station} is readable and named${daylight ? ', in daylight too' : ''}`, async ({ page }) => {
      await openSaw(page)
      await page.goto(page.url().replace(/saw.*$/, station))
      await expect(page.locator(`.${station === 'saw' ? 'bench' : station}`)).toBeVisible()
      // The theme is an attribute that the shell sets from the shop.
      await page.evaluate((day) => document.documentElement.toggleAttribute('data-daylight', day), daylight)
      await page.evaluate(axe)
      expect(await page.evaluate(faults)).toEqual([])
    })

for (const station of ['stock', 'weld'] as const)
  for (const wide of [390, 820, 1180])
    test(`${station} at ${wide}: every button at least 64 by 64, and nothing runs over`, async ({ page }) => {
      await page.setViewportSize({ width: wide, height: 820 })
      await openSaw(page)
      await page.goto(page.url().replace(/saw.*$/, station))
      const keys = page.locator(`.${station} :is(button, summary):visible`)
      await expect(keys.first()).toBeVisible()
      const small = await keys.evaluateAll((all) =>
        all
          .map((one) => ({ name: one.textContent, box: one.getBoundingClientRect() }))
          .filter(({ box }) => box.width < 64 || box.height < 64)
          .map(({ name, box }) => `${name}: ${box.width} × ${box.height}`),
      )
      expect(small).toEqual([])
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0)
    })
