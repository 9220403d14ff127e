import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { linesOf, pagesOf } from './printed.ts'
import { expect, test } from './serve.ts'

const file = (units: 'in' | 'mm', build: object): string =>
  JSON.stringify({
    format: 'tube-job',
    version: 1,
    job: { id: 'job', name: 'Job', quantity: 1, units, build },
  })

const ring = (sides: number, units: 'in' | 'mm') =>
  file(units, {
    kind: 'polygon-frame',
    params: {
      sides,
      sizeKind: 'across flats',
      size: units === 'in' ? '24' : 600,
      section: { kind: 'square-tube', width: units === 'in' ? '2' : 40, wall: units === 'in' ? '1/8' : 3 },
      stands: 'flat',
      top: 'none',
    },
  })

/** Four straight legs of 40 tube with caps, levelers M10 in them, and a plate of 1200 × 600. */
const table = file('mm', {
  kind: 'four-leg',
  params: {
    length: 1200,
    width: 600,
    height: 740,
    upper: 'mitered frame',
    section: { kind: 'square-tube', width: 40, wall: 3 },
    stands: 'flat',
    top: 'plate',
    topThickness: 5,
    topEdge: 'flush',
    legSection: { kind: 'square-tube', width: 40, wall: 3 },
    legStands: 'along the length',
    legsMeet: 'under the corners',
    legInset: 0,
    splay: 'straight',
    stretchers: 'none',
    caps: true,
    capThickness: 10,
    levelers: true,
    thread: 'M10',
    levelerPad: 8,
    levelerPadWidth: 32,
    levelerLeast: 10,
    levelerMost: 25,
    levelerSetting: 15,
    levelerStud: 40,
  },
})

/** A fresh shop reads inches, whatever the job is typed in: its gauges have a leg of 4 in. Only this sheet of the job, on this paper, printed. */
async function printed(page: Page, text: string, sheet: RegExp, size: 'Letter' | 'A4'): Promise<string> {
  await page.goto('./')
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  await page.getByRole('button', { name: 'No sheet' }).click()
  await page.getByRole('checkbox', { name: sheet }).check()
  await page.getByRole('radio', { name: size }).check()
  await page.emulateMedia({ media: 'print' })
  const pdf = join(mkdtempSync(join(tmpdir(), 'longpoint-full-')), 'sheet.pdf')
  writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
  return pdf
}

const near = (mm: number, wanted: number) => Math.abs(mm - wanted) <= wanted * 0.003

/** One check bar of 100 mm and one of 4 in on every page, each within 0.3 %: none where a page was shrunk to fit. */
function barsHold(pdf: string) {
  const pages = pagesOf(pdf)
  expect(pages).toBeGreaterThan(0)
  for (let number = 1; number <= pages; number += 1) {
    const level = linesOf(pdf, number).filter(({ slope }) => slope < 0.01)
    const bars = [100, 101.6].map((long) => level.some((line) => near(line.long, long)))
    expect([number, ...bars]).toEqual([number, true, true])
  }
}

for (const size of ['Letter', 'A4'] as const) {
  test(`angle gauges on ${size}: a frame of seven sides has one of 180/7°, its legs 4 in and 48.93 mm, check bars within 0.3 %`, async ({
    page,
  }) => {
    const pdf = await printed(page, ring(7, 'in'), /Angle gauges/, size)
    barsHold(pdf)
    const lines = linesOf(pdf, 1)
    const angle = 180 / 7
    // The slanted edge leans by the angle from upright; 0.05° is a tenth of what a saw scale shows.
    const slanted = lines.filter(({ long }) => near(long, 101.6 / Math.cos((angle * Math.PI) / 180)))
    expect(slanted.map(({ slope }) => 90 - slope)).toContainEqual(expect.closeTo(angle, 1))
    expect(lines.some(({ long, slope }) => slope > 89.99 && near(long, 101.6))).toBe(true)
    expect(
      lines.some(({ long, slope }) => slope < 0.01 && near(long, 101.6 * Math.tan((angle * Math.PI) / 180))),
    ).toBe(true)
  })

  test(`60° on ${size}, past 45°: the longer leg lies along the fence, and nothing is shrunk`, async ({
    page,
  }) => {
    const pdf = await printed(page, ring(3, 'mm'), /Angle gauges/, size)
    barsHold(pdf)
    const slanted = linesOf(pdf, 1).filter(({ long }) => near(long, 101.6 / Math.sin(Math.PI / 3)))
    expect(slanted.map(({ slope }) => 90 - slope)).toContainEqual(expect.closeTo(60, 1))
  })

  test(`plates on ${size}: a foot cap of 40 mm is drawn at full size with its hole, a top that does not fit is not`, async ({
    page,
  }) => {
    const pdf = await printed(page, table, /^Plates/, size)
    barsHold(pdf)
    const lines = Array.from({ length: pagesOf(pdf) }, (_, at) => linesOf(pdf, at + 1)).flat()
    expect(lines.filter(({ long }) => near(long, 40)).length).toBeGreaterThanOrEqual(4)
    expect(lines.some(({ long }) => near(long, 1200) || near(long, 600))).toBe(false)
  })
}
