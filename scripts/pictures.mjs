// Takes the pictures of README.md from the real app: `npm run pictures` (builds first).
import { mkdirSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium } from '@playwright/test'
import { browserArgs, findBrowser } from './find-browser.mjs'
import { serve } from './serve.mjs'

const root = resolve(fileURLToPath(import.meta.url), '../..')
const folder = join(root, 'docs/pictures')
mkdirSync(folder, { recursive: true })

const site = await serve({ dir: join(root, 'dist') })
const executablePath = await findBrowser()
const browser = await chromium.launch({ args: browserArgs, ...(executablePath ? { executablePath } : {}) })
const newPage = () => browser.newPage({ viewport: { width: 1180, height: 820 }, locale: 'en-US' })
let page = await newPage()

/** A sample on a device of its own, so that the shop is the sample's.
 * @param {string} sample */
async function open(sample) {
  page = await newPage()
  await page.goto(site.url)
  await page.getByRole('button', { name: sample }).first().click()
  await page.waitForURL(/#\/job\//)
  return /#\/job\/([^/]+)/.exec(page.url())?.[1] ?? ''
}

/** @param {string} name */
const shoot = (name) => page.screenshot({ path: join(folder, `${name}.png`) })

/** @param {string} job @param {string} station */
async function go(job, station) {
  await page.goto(`${site.url}#/job/${job}/${station}`)
  await page.waitForLoadState('networkidle')
}

const hexagon = await open('Hexagon table top')
await go(hexagon, 'saw')
// Six blanks and two first ends: the main button first cuts, then leads to the next set-up.
for (let cut = 0; cut < 9; cut++) {
  await page.waitForFunction(() => !document.querySelector('.main-button.was-cut'))
  await page.locator('.main-button').click()
  await page.waitForTimeout(800)
}
await shoot('saw')
await page.setViewportSize({ width: 390, height: 844 })
await page.waitForTimeout(300)
await shoot('phone')
await page.setViewportSize({ width: 1180, height: 820 })
const pedestal = await open('Ten-sided pedestal table')
await go(pedestal, 'sizes')
await page.waitForTimeout(800)
await shoot('sizes')
await go(pedestal, 'stock')
await page.locator('.stock').getByText('proved least').first().waitFor()
// The ways of cutting come over the sticks once they are compared; the picture is of the sticks.
await page.getByRole('button', { name: 'Cut this way' }).first().waitFor()
await page.getByText('Where each part is cut').evaluate((head) => head.scrollIntoView())
await shoot('stock')
await go(pedestal, 'weld')
await page.waitForTimeout(500)
await shoot('weld')
await go(pedestal, 'paper')
await page.locator('.paper-shown').first().waitFor()
await shoot('paper')
await browser.close()
await site.close()
console.log(`pictures in ${folder.slice(root.length + 1)}`)
