import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, startBrowser, test } from '../browser/serve.ts'

const runs = 5
/** Not an aim, only a fence: a start slower than this means that something waits for the missing network. */
const fenceMs = 3000

test('cold start offline: from a fresh browser with the server gone to the first screen', async ({
  site,
}) => {
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-profile-'))
  try {
    const first = await startBrowser(profile)
    const page = await first.newPage()
    await page.goto(site.url)
    await page.evaluate(() => navigator.serviceWorker.ready)
    await first.close()
    await site.kill()

    const times: number[] = []
    for (let run = 0; run < runs; run += 1) {
      const browser = await startBrowser(profile)
      const opened = await browser.newPage()
      const start = performance.now()
      await opened.goto(site.url, { waitUntil: 'commit' })
      await expect(opened.locator('#root')).toContainText(/\w/)
      times.push(performance.now() - start)
      await browser.close()
    }
    times.sort((a, b) => a - b)
    const median = times[Math.floor(runs / 2)] ?? Number.NaN
    console.log(
      `cold start offline: median ${median.toFixed(0)} ms, slowest ${times.at(-1)?.toFixed(0)} ms, ${runs} runs`,
    )
    expect(median).toBeLessThan(fenceMs)
  } finally {
    await rm(profile, { recursive: true, force: true })
  }
})
