import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { expect, test } from './serve.ts'

const samples = ['Hexagon table top', 'Ten-sided pedestal table', 'Five-sided bench frame']
const pages = { Letter: [215.9, 279.4], A4: [210, 297] } as const

async function openPaper(page: Page, sample: string) {
  await page.goto('./')
  await page.getByRole('button', { name: sample }).click()
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  await expect(page.getByRole('checkbox', { name: /Wall cut sheet/ })).toBeVisible()
  await page.getByRole('button', { name: 'Every sheet' }).click()
}

/** What sticks out of its page, or is not as high as it must be, on the sheets as they go to the printer. */
const faults = (page: Page) =>
  page.evaluate(() => {
    const said: string[] = []
    const mm = document.createElement('div')
    mm.style.cssText = 'position:absolute;width:100mm;height:0'
    document.body.append(mm)
    const px = mm.getBoundingClientRect().width / 100
    mm.remove()
    for (const sheet of document.querySelectorAll<HTMLElement>('.paper-print .paper-page')) {
      const name = sheet.getAttribute('aria-label')
      const body = sheet.querySelector<HTMLElement>('.paper-body')!
      if (body.scrollHeight > body.clientHeight + 1)
        said.push(`${name}: ${body.scrollHeight} px in a body of ${body.clientHeight}`)
      for (const part of body.querySelectorAll<HTMLElement>('*')) {
        if (
          part.scrollWidth > part.clientWidth + 1 &&
          part.clientWidth > 0 &&
          !['SPAN', 'svg', 'text'].includes(part.tagName)
        )
          said.push(`${name}: ${part.className} is ${part.scrollWidth} px wide in ${part.clientWidth}`)
        const [at, room] = [part.getBoundingClientRect(), body.getBoundingClientRect()]
        if (at.left < room.left - 1 || at.right > room.right + 1 || at.bottom > room.bottom + 1)
          said.push(`${name}: ${part.getAttribute('class')} ${part.textContent} runs off the page`)
        // Lines are drawn in mm too: 0.1 mm for hatching, else the two weights of a drawing and the blade.
        const line = getComputedStyle(part)
        if (part instanceof SVGGeometryElement && line.stroke !== 'none') {
          const wide = Number.parseFloat(line.strokeWidth)
          if (![0.1, 0.25, 0.5, 1.4, 1.5, 2].includes(wide)) said.push(`${name}: a line of ${wide} mm`)
        }
      }
      // Height of a digit, measured large on a canvas in the face that is used. A picture is drawn in mm, a page in px.
      const pen = document.createElement('canvas').getContext('2d')!
      const digit = (of: Element) => {
        const { fontSize, fontWeight, fontFamily } = getComputedStyle(of)
        pen.font = `${fontWeight} 200px ${fontFamily}`
        const { actualBoundingBoxAscent, actualBoundingBoxDescent } = pen.measureText('8')
        const part = (actualBoundingBoxAscent + actualBoundingBoxDescent) / 200
        return (part * Number.parseFloat(fontSize)) / (of instanceof SVGElement ? 1 : px)
      }
      const atLeast = (selector: string, least: number) => {
        for (const of of sheet.querySelectorAll(selector))
          if (digit(of) < least) said.push(`${name}: ${selector} is ${digit(of).toFixed(2)} mm, not ${least}`)
      }
      // A picture cuts off what stands outside it.
      for (const word of sheet.querySelectorAll<SVGTextElement>('svg text')) {
        const [at, room] = [word.getBoundingClientRect(), word.ownerSVGElement!.getBoundingClientRect()]
        if (
          at.left < room.left - 1 ||
          at.right > room.right + 1 ||
          at.top < room.top - 4 ||
          at.bottom > room.bottom + 4
        )
          said.push(`${name}: “${word.textContent}” is cut off by its picture`)
      }
      // Words in pictures are drawn in mm, at least 3 mm high.
      atLeast('svg text', 3)
      atLeast('.wall-great .paper-figure, .wall-great .paper-fraction span', 12)
      atLeast('.wall-mark, .wall-number', 8)
      atLeast('p, header span, footer, .wall-label, .wall-tick, .wall-from, .parts-row span, h2', 5)
    }
    return said
  })

for (const sample of samples)
  for (const size of ['Letter', 'A4'] as const)
    test(`${sample} on ${size}: nothing off the page, stops 12 mm, marks 8 mm, text 5 mm`, async ({
      page,
    }) => {
      await openPaper(page, sample)
      await page.getByRole('radio', { name: size }).check()
      await page.emulateMedia({ media: 'print' })
      expect(await faults(page)).toEqual([])
    })

/** Legs that lean both ways, stretchers between them, square to the frame: cradles, two views of a piece, nine sheets. */
const splayed = {
  format: 'tube-job',
  version: 1,
  job: {
    id: 'splay',
    name: 'Splayed table',
    units: 'mm',
    quantity: 2,
    build: {
      kind: 'four-leg',
      params: {
        length: 1200,
        width: 600,
        height: 740,
        upper: 'mitered frame',
        section: {
          kind: 'square-tube',
          width: 40,
          wall: 3,
        },
        stands: 'flat',
        railsSit: 'middle',
        top: 'plate',
        topThickness: 5,
        topEdge: 'flush',
        topEdgeBy: 10,
        legSection: {
          kind: 'square-tube',
          width: 40,
          wall: 3,
        },
        legStands: 'along the length',
        legsMeet: 'under the corners',
        legInset: 0,
        splay: 'angles',
        leanLength: 8,
        leanWidth: 12,
        feetLength: 1360,
        feetWidth: 760,
        legTurned: 'square to the frame',
        stretchers: 'around',
        stretcherSection: {
          kind: 'square-tube',
          width: 30,
          wall: 2,
        },
        stretcherStands: 'flat',
        stretcherHeight: 150,
        shelf: false,
        shelfThickness: 3,
        shelfClear: 2,
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
    },
  },
}

test('a table on legs that lean both ways, on Letter: its cradles, gauges and plates stay on their pages too', async ({
  page,
}) => {
  await page.goto('./')
  await page.locator('input[type=file]').setInputFiles({
    name: 'splayed.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(splayed)),
  })
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
  await page.goto(page.url().replace(/\/sizes$/, '/paper'))
  await expect(page.getByRole('checkbox', { name: /Wall cut sheet/ })).toBeVisible({ timeout: 30_000 })
  await page.getByRole('button', { name: 'Every sheet' }).click()
  await page.getByRole('radio', { name: 'Letter' }).check()
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('.paper-print').getByText('Turned').count()).toBeGreaterThan(0)
  expect(await faults(page)).toEqual([])
})

test('the sheets measure what they say: a page of 215.9 × 279.4 mm (Letter), 210 × 297 (A4), and as many as are shown', async ({
  page,
}) => {
  await openPaper(page, samples[0]!)
  const folder = mkdtempSync(join(tmpdir(), 'longpoint-paper-'))
  for (const [size, [wide, high]] of Object.entries(pages)) {
    await page.getByRole('radio', { name: size }).check()
    const shown = await page.locator('.paper-print .paper-page').count()
    const file = join(folder, `${size}.pdf`)
    writeFileSync(file, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
    const text = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
    expect(Number(/Pages:\s+(\d+)/.exec(text)?.[1])).toBe(shown)
    const [, w, h] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(text)!
    expect((Number(w) / 72) * 25.4).toBeCloseTo(wide, 0)
    expect((Number(h) / 72) * 25.4).toBeCloseTo(high, 0)
    // A page that was shrunk to fit would have smaller letters: the face's size is printed in points.
    const fonts = execFileSync('pdftotext', ['-f', '1', '-l', '1', '-bbox', file, '-'], { encoding: 'utf8' })
    const heights = [...fonts.matchAll(/yMin="([\d.]+)"[^>]*yMax="([\d.]+)">0°</g)].map(
      ([, top, foot]) => ((Number(foot) - Number(top)) / 72) * 25.4,
    )
    expect(heights.length).toBeGreaterThan(0)
    for (const height of heights) expect(height).toBeGreaterThan(17.5)
  }
})

test('printing the cut sheet makes its nest the one to work by', async ({ page }) => {
  await openPaper(page, samples[0]!)
  await page.evaluate(() => {
    window.print = () => document.body.setAttribute('data-printed', 'yes')
  })
  await page.getByRole('button', { name: 'Print' }).click()
  await expect(page.locator('body')).toHaveAttribute('data-printed', 'yes')
  await page.goto(page.url().replace(/\/paper$/, '/stock'))
  await expect(page.getByText(/Accepted/)).toBeVisible()
})

test('the Paper station: accessible with the cut sheet shown, nothing clipped and touch 44 px at four sizes', async ({
  page,
}) => {
  await openPaper(page, samples[0]!)
  await page.getByRole('button', { name: 'No sheet' }).click()
  await page.getByRole('checkbox', { name: /Wall cut sheet/ }).check()
  await expectAccessible(page)
  for (const [width, height] of [
    [1180, 820],
    [820, 1180],
    [390, 844],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height })
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
  }
})
