import { mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Page } from '@playwright/test'
import { browserArgs, findBrowser } from '../../scripts/find-browser.mjs'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { expect, test } from './serve.ts'

test.use({ serviceWorkers: 'allow' })

const hexagon = 'Hexagon table top'

/** The hexagon sample, its card's section To another device open. */
async function carrying(page: Page, whole = false) {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon table top/ }).click()
  await expect(page.locator('.drawing').first()).toBeVisible()
  await page.goto('./#/')
  await page.getByRole('button', { name: `Carry ${hexagon} to another device` }).click()
  if (whole) await page.getByRole('radio', { name: 'with all that was cut' }).check({ force: true })
  await expect(page.locator('svg.code')).toBeVisible()
}

/** Pictures of all codes, in order. */
async function pictures(page: Page): Promise<readonly Buffer[]> {
  const stop = page.getByRole('button', { name: 'Stand still' })
  if (await stop.count()) await stop.click()
  const code = page.locator('svg.code')
  const label = async () => (await code.getAttribute('aria-label')) ?? ''
  const of = Number(/of (\d+) of/.exec(await label())?.[1])
  const found: Buffer[] = []
  for (let at = 0; at < of; at++) {
    found.push(await code.screenshot())
    if (of > 1) await page.getByRole('button', { name: 'Next code' }).click()
  }
  return found
}

test('a link opens the job on another device: looked at first, then opened', async ({
  browser,
  page,
  baseURL,
}) => {
  await carrying(page)
  const link = await page.getByRole('textbox', { name: 'The link' }).inputValue()
  expect(link.startsWith(`${baseURL}#/open/1.`)).toBe(true)
  const other = await browser.newContext({ baseURL: baseURL ?? '' })
  const there = await other.newPage()
  const asked: string[] = []
  there.on('request', (request) => asked.push(request.url()))
  await there.goto(link)
  await expect(there.getByRole('heading', { name: 'A job came by link' })).toBeVisible()
  await expect(there.getByText('24 in across flats')).toBeVisible()
  await expectAccessible(there)
  // Nothing is kept before the person says so, and nothing of the job went to the server.
  await there.goto('./#/')
  await expect(there.getByRole('heading', { name: 'No job yet' })).toBeVisible()
  await there.goto(link)
  await there.getByRole('button', { name: 'Open this job' }).click()
  await expect(there.locator('table.parts')).toContainText('13 7/8')
  expect(asked.filter((url) => url.includes('/open/') || url.includes(link.slice(-20)))).toEqual([])
  await other.close()
})

test('a link that is damaged says so and changes nothing', async ({ page }) => {
  for (const link of ['1.AAAA', '9.AAAA', 'x', '%E0%A4%A', '1.'.padEnd(70_000, 'A')]) {
    await page.goto(`./#/open/${link}`)
    await expect(page.getByRole('heading', { name: 'This link cannot be opened' })).toBeVisible()
  }
  await page.goto('./#/')
  await expect(page.getByRole('heading', { name: 'No job yet' })).toBeVisible()
})

test('pictures of the codes, in any order, bring the job with its log to another device', async ({
  browser,
  page,
  baseURL,
}) => {
  await carrying(page, true)
  const codes = await pictures(page)
  const other = await browser.newContext({ baseURL: baseURL ?? '' })
  const there = await other.newPage()
  await there.goto('./#/')
  await there.getByRole('button', { name: 'Read codes' }).click()
  const input = there.getByLabel('Pictures of codes')
  await input.setInputFiles({
    name: 'dog.png',
    mimeType: 'image/png',
    buffer: await page.locator('.job-name').first().screenshot(),
  })
  await expect(there.getByText('There is no code to be read in dog.png')).toBeVisible()
  await input.setInputFiles(
    codes.toReversed().map((buffer, at) => ({ name: `${at}.png`, mimeType: 'image/png', buffer })),
  )
  await there.getByRole('button', { name: 'Open this job' }).click()
  await expect(there.locator('table.parts')).toContainText('13 7/8')
  await other.close()
})

/** A film of these pictures as a camera would see them, gray, in the plain YUV4MPEG2 format that Chromium plays as one. */
async function film(page: Page, codes: readonly Buffer[], file: string) {
  const [wide, high] = [640, 480]
  const out = await open(file, 'w')
  await out.write(`YUV4MPEG2 W${wide} H${high} F10:1 Ip A1:1 C420jpeg\n`)
  for (const code of codes) {
    const gray = await page.evaluate(
      async ([data, w, h]) => {
        const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob())
        const canvas = new OffscreenCanvas(w, h)
        const pen = canvas.getContext('2d')!
        pen.fillStyle = '#bbb'
        pen.fillRect(0, 0, w, h)
        pen.drawImage(picture, (w - h + 40) / 2, 20, h - 40, h - 40)
        const points = pen.getImageData(0, 0, w, h).data
        return Array.from({ length: w * h }, (_, at) => points[4 * at] as number)
      },
      [code.toString('base64'), wide, high] as const,
    )
    for (let times = 0; times < 12; times++) {
      await out.write('FRAME\n')
      await out.write(Buffer.from(gray))
      await out.write(Buffer.alloc((wide * high) / 2, 128))
    }
  }
  await out.close()
}

test('the camera reads the codes as they follow each other, with the server gone', async ({
  page,
  context,
  site,
}) => {
  test.slow()
  await carrying(page, true)
  const codes = await pictures(page)
  const folder = await mkdtemp(join(tmpdir(), 'longpoint-film-'))
  const file = join(folder, 'codes.y4m')
  // The page's own policy lets it fetch nothing but its own; an empty page draws the film.
  const studio = await context.newPage()
  await film(studio, codes, file)
  const executablePath = await findBrowser()
  const camera = await chromium.launch({
    args: [
      ...browserArgs,
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${file}`,
    ],
    ...(executablePath ? { executablePath } : {}),
  })
  try {
    const there = await (await camera.newContext({ locale: 'en-US' })).newPage()
    await there.goto(site.url)
    await there.evaluate(() => navigator.serviceWorker.ready)
    await expect.poll(() => there.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
    await site.kill()
    await there.getByRole('button', { name: 'Read codes' }).click()
    await there.getByRole('button', { name: 'Use the camera' }).click()
    await there.getByRole('button', { name: 'Open this job' }).click({ timeout: 45_000 })
    await expect(there.locator('table.parts')).toContainText('13 7/8')
  } finally {
    await camera.close()
    await rm(folder, { recursive: true, force: true })
  }
})

test('where there is no camera that is said, with the way by pictures', async ({ page }) => {
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('none', 'NotFoundError'))
  })
  await page.goto('./#/')
  await page.getByRole('button', { name: 'Read codes' }).click()
  await page.getByRole('button', { name: 'Use the camera' }).click()
  await expect(page.getByRole('alert')).toContainText('Take pictures of the codes')
})

for (const [width, height] of [
  [390, 844],
  [1180, 820],
] as const)
  test(`codes at ${width} × ${height} are not clipped, can be touched and used by everybody`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await carrying(page, true)
    await page.getByRole('button', { name: 'Read codes' }).click()
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
    await expectAccessible(page)
  })
