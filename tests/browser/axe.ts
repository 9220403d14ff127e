// Accessibility rules on the page as it stands. The source is injected: the page's own policy stops a script tag.
import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expect } from './serve.ts'

const source = readFile('node_modules/axe-core/axe.min.js', 'utf8')

interface Found {
  readonly violations: readonly {
    readonly id: string
    readonly help: string
    readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[]
  }[]
}

/** No rule of WCAG 2 A and AA is broken, and no text has less than 7 : 1 (the AAA rule for contrast). */
export async function expectAccessible(page: Page): Promise<void> {
  // From the top: a field half under the strip would count as half a field.
  await page.evaluate(() => window.scrollTo(0, 0))
  await page.evaluate(await source)
  const { violations } = await page.evaluate(
    () =>
      (globalThis as unknown as { axe: { run(at: Document, how: object): Promise<Found> } }).axe.run(
        document,
        {
          runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
          rules: { 'color-contrast-enhanced': { enabled: true } },
        },
      ) as Promise<Found>,
  )
  const said = violations.map(
    ({ id, help, nodes }) => `${id}: ${help} (${nodes.map(({ target }) => target.join(' ')).join('; ')})`,
  )
  expect(said).toEqual([])
}

/** No content reaches past the right edge of the window. */
export async function expectNothingClipped(page: Page): Promise<void> {
  const wider = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
  expect(wider).toBeLessThanOrEqual(0)
}

/** Everything to press is at least so many px each way. Inputs inside a larger label count as the label. */
export async function expectTouchable(page: Page, least: number): Promise<void> {
  const small = await page.evaluate((px) => {
    const found: string[] = []
    for (const element of document.querySelectorAll<HTMLElement>(
      'button, a[href], input:not([hidden]), select, textarea, summary',
    )) {
      const pressed = element.matches('input[type=radio], input[type=checkbox]')
        ? element.closest('label')
        : element
      const { width, height } = (pressed ?? element).getBoundingClientRect()
      if (width === 0 || height === 0 || !element.checkVisibility()) continue
      if (element.closest('.skip, .job-line')) continue
      if (width < px - 0.5 || height < px - 0.5)
        found.push(
          `${element.tagName} ${element.className} “${element.textContent?.slice(0, 30)}” ${width}×${height}`,
        )
    }
    return found
  }, least)
  expect(small).toEqual([])
}
