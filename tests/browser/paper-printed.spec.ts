// Every sheet as it comes out of the printer, read back from the PDF: true to scale both ways on every page, every word
// inside the border that printers leave, none smaller than the words of a drawing may be.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { openGate } from './gate.ts'
import { linesOf } from './printed.ts'
import { expect, test } from './serve.ts'

const pages = { Letter: [215.9, 279.4], A4: [210, 297] } as const
/** White border, mm; lines of text are 9 mm apart. */
const border = 10
const line = 9
/** A digit of 3 mm, the least in a drawing, is at least 0.7 of its font, and the box of a word no lower than its font. */
const leastWord = 3 / 0.7

interface Word {
  readonly text: string
  readonly box: readonly [left: number, top: number, right: number, foot: number]
}

/** The words of each page with their boxes in mm, as a PDF reader finds them. */
function wordsOf(pdf: string): readonly (readonly Word[])[] {
  const text = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 })
  return text
    .split('<page ')
    .slice(1)
    .map((page) =>
      [
        ...page.matchAll(/<word xMin="([^"]*)" yMin="([^"]*)" xMax="([^"]*)" yMax="([^"]*)">(.*?)<\/word>/g),
      ].map(([, ...found]): Word => {
        const [left, top, right, foot] = found.slice(0, 4).map((pt) => (Number(pt) / 72) * 25.4)
        return { text: found[4]!, box: [left!, top!, right!, foot!] }
      }),
    )
}

const near = (mm: number, wanted: number) => Math.abs(mm - wanted) <= wanted * 0.003

async function printed(page: Page, open: Opening, size: keyof typeof pages): Promise<string> {
  await page.goto('./')
  await open(page)
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  await expect(page.getByRole('checkbox', { name: /Wall cut sheet/ })).toBeVisible({ timeout: 30_000 })
  await page.getByRole('button', { name: 'Every sheet' }).click()
  await page.getByRole('radio', { name: size }).check()
  await page.emulateMedia({ media: 'print' })
  const pdf = join(mkdtempSync(join(tmpdir(), 'longpoint-every-')), 'sheets.pdf')
  writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
  return pdf
}

type Opening = (page: Page) => Promise<void>
const jobs: readonly (readonly [name: string, open: Opening])[] = [
  [
    'Ten-sided pedestal table',
    (page) => page.getByRole('button', { name: 'Ten-sided pedestal table' }).click(),
  ],
  ['a gate of round tube, its saddle templates among them', openGate],
]

for (const [sample, open] of jobs)
  for (const size of ['Letter', 'A4'] as const)
    test(`every sheet printed, ${sample} on ${size}: scale within 0.3 % both ways, no word past the border or below 3 mm`, async ({
      page,
    }) => {
      test.setTimeout(120_000)
      const [wide, high] = pages[size]
      const pdf = await printed(page, open, size)
      const words = wordsOf(pdf)
      expect(words.length).toBeGreaterThan(5)
      const faults: string[] = []
      for (const [at, of] of words.entries()) {
        const name = `page ${at + 1}`
        const level = linesOf(pdf, at + 1).filter(({ slope }) => slope < 0.01)
        // The rules of header and footer reach from border to border.
        if (!level.some(({ long }) => near(long, wide - 2 * border))) faults.push(`${name}: not as wide`)
        const tops = of.map(({ box }) => box[1])
        // From the first line of the header to the last of the footer.
        const down = Math.max(...tops) - Math.min(...tops)
        if (!near(down, high - 2 * border - line)) faults.push(`${name}: ${down} mm high`)
        for (const { text, box } of of) {
          const [left, top, right, foot] = box
          if (
            left < border - 0.5 ||
            right > wide - border + 0.5 ||
            top < border - 0.5 ||
            foot > high - border + 0.5
          )
            faults.push(`${name}: “${text}” at ${box.map((mm) => mm.toFixed(1)).join(' ')}`)
          // Upright along an edge a word is as wide as it is high elsewhere; one of few letters is higher than it is wide.
          const tall = (text.length < 3 ? Math.max : Math.min)(right - left, foot - top)
          if (tall < leastWord) faults.push(`${name}: “${text}” is ${tall.toFixed(2)} mm high`)
        }
      }
      expect(faults).toEqual([])
    })
