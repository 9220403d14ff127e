import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { openGate } from './gate.ts'
import { linesOf, pagesOf } from './printed.ts'
import { expect, test } from './serve.ts'

async function openTemplates(page: Page, size: 'Letter' | 'A4') {
  await page.goto('./')
  await openGate(page)
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  // The sheets of the saw come, ticked, once the nest is there.
  await expect(page.getByRole('checkbox', { name: /Wall cut sheet/ })).toBeVisible({ timeout: 30_000 })
  const templates = page.getByRole('checkbox', { name: /Saddle templates/ })
  await expect(templates).toBeVisible()
  for (const box of await page.getByRole('checkbox').all())
    if (
      (await box.isChecked()) &&
      !(await box.evaluate((of, other) => of === other, await templates.elementHandle()))
    )
      await box.uncheck()
  await templates.check()
  await page.getByRole('radio', { name: size }).check()
}

for (const size of ['Letter', 'A4'] as const)
  test(`saddle templates on ${size}: check bars of 100 mm and 4 in within 0.3 %, a template of 48.3 tube π · 48.4 round`, async ({
    page,
  }) => {
    await openTemplates(page, size)
    await page.emulateMedia({ media: 'print' })
    await expect(page.locator('.paper-print .paper-page:not([aria-label^="Saddles"])')).toHaveCount(0)
    const shown = await page.locator('.paper-print .paper-page').count()
    expect(shown).toBeGreaterThan(1)
    const folder = mkdtempSync(join(tmpdir(), 'longpoint-saddle-'))
    const file = join(folder, 'templates.pdf')
    writeFileSync(file, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
    expect(pagesOf(file)).toBe(shown)
    const level: number[] = []
    for (let number = 1; number <= shown; number++) {
      const lines = linesOf(file, number).filter(({ slope }) => slope < 0.01)
      const near = (mm: number, slack: number) =>
        lines.filter(({ long }) => Math.abs(long - mm) < mm * slack).length
      // One of each on every page; a page shrunk to fit would have none.
      expect([number, near(100, 0.003), near(101.6, 0.003)]).toEqual([number, 1, 1])
      level.push(...lines.map(({ long }) => long))
    }
    const near = (mm: number) => level.filter((long) => Math.abs(long - mm) < 0.15).length
    // Top and foot edge of the two templates of the brace; the rail's are cut in two, the left half with 8 mm to lap.
    expect(near(Math.PI * 48.4)).toBe(4)
    expect(near((Math.PI * 76.2) / 2)).toBe(4)
    expect(near((Math.PI * 76.2) / 2 + 8)).toBe(4)
    const off = await page.evaluate(() => {
      const said: string[] = []
      for (const sheet of document.querySelectorAll<HTMLElement>('.paper-print .paper-page')) {
        const body = sheet.querySelector<HTMLElement>('.paper-body')!
        if (body.scrollHeight > body.clientHeight + 1)
          said.push(`${body.scrollHeight} px in ${body.clientHeight}`)
        const room = body.getBoundingClientRect()
        for (const part of body.querySelectorAll('*')) {
          const { left, right, bottom } = part.getBoundingClientRect()
          if (left < room.left - 1 || right > room.right + 1 || bottom > room.bottom + 1)
            said.push(`${part.tagName} ${part.textContent} runs off the page`)
        }
      }
      return said
    })
    expect(off).toEqual([])
  })

test('a job without round tube has no sheet of templates', async ({ page }) => {
  await page.goto('./')
  await page.getByRole('button', { name: 'Hexagon table top' }).click()
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  await expect(page.getByRole('checkbox', { name: /Weld sheet/ })).toBeVisible()
  await expect(page.getByRole('checkbox', { name: /Saddle templates/ })).toHaveCount(0)
})
