import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { counted, cutOne } from '../browser/saw-steps.ts'
import { expect, startBrowser, test } from '../browser/serve.ts'

/** 95 of 100 check-offs are on disk within this, from the tap on: the aim of the issue. */
const aimMs = 50
const rounds = 4

interface Watch {
  readonly times: number[]
  tapped: number
}

/** In the page: from the click to the end of the transaction that holds the facts. */
function watch() {
  const seen: Watch = { times: [], tapped: 0 }
  Object.assign(window, { checkOffs: seen })
  addEventListener(
    'click',
    () => {
      seen.tapped = performance.now()
    },
    { capture: true },
  )
  const begin = IDBDatabase.prototype.transaction
  IDBDatabase.prototype.transaction = function (...given) {
    const tx = begin.apply(this, given)
    if (tx.mode === 'readwrite' && tx.objectStoreNames.contains('facts') && tx.durability === 'strict')
      tx.addEventListener('complete', () => seen.times.push(performance.now() - seen.tapped))
    return tx
  }
}

test('check-off: from the tap to the disk', async ({ site }) => {
  test.setTimeout(180_000)
  // A profile folder of its own: only then does the browser write to a disk at all.
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-check-off-'))
  try {
    const browser = await startBrowser(profile)
    const page = await browser.newPage()
    await page.addInitScript(watch)
    await page.goto(site.url)
    await page
      .getByRole('button', { name: /hexagon/i })
      .first()
      .click()
    await expect(page).toHaveURL(/#\/job\//)
    const job = /#\/job\/([^/]+)/.exec(page.url())![1]
    await page.goto(`${site.url}#/job/${job}/saw`)
    await expect(counted(page)).toContainText('0 of 18 in all', { timeout: 30_000 })
    for (let round = 0; round < rounds; round++) {
      for (let cut = 0; cut < 6; cut++) await cutOne(page)
      for (let cut = 5; cut >= 0; cut--) {
        await page.getByRole('button', { name: 'Undo' }).click()
        await expect(counted(page)).toContainText(`${cut} of 18 in all`)
      }
    }
    const times = await page.evaluate(() => (window as unknown as { checkOffs: Watch }).checkOffs.times)
    await browser.close()
    expect(times).toHaveLength(rounds * 12)
    times.sort((a, b) => a - b)
    const at = (share: number) => times[Math.ceil(times.length * share) - 1]!
    console.log(
      `check-off to durable: median ${at(0.5).toFixed(1)} ms, p95 ${at(0.95).toFixed(1)} ms, slowest ${at(1).toFixed(1)} ms, ${times.length} writes (aim: p95 ${aimMs} ms)`,
    )
    expect(at(0.95)).toBeLessThanOrEqual(aimMs)
  } finally {
    await rm(profile, { recursive: true, force: true })
  }
})
