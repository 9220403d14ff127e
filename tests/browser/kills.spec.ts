// The whole browser is killed while cuts are checked off, again and again on one profile: `npm run prove` only.
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Locator, Page } from '@playwright/test'
import { counting } from '../../src/core/facts/counting.ts'
import type { Bodies, Fact } from '../../src/core/facts.ts'
import { dice, seed } from '../prove/seed.ts'
import { type Killable, startKillable } from './killed-browser.ts'
import { counted, cutButton, onDisk } from './saw-steps.ts'
import { expect, test } from './serve.ts'

// A loss must not be hidden by a second try.
test.describe.configure({ retries: 0 })
// A trace of two hundred browsers is of no use to anybody.
test.use({ trace: 'off' })

const kills = Number(process.env.PROVE_KILLS ?? 200)
const copies = 4

/** The cuts that count, as the person calls them. */
function cutsIn(facts: readonly Fact[]): readonly string[] {
  const counts = counting(facts)
  return facts
    .filter(({ id, kind }) => kind === 'cut' && counts.has(id))
    .sort((a, b) => a.lamport - b.lamport)
    .map(({ body }) => `${(body as Bodies['cut']).label} ${(body as Bodies['cut']).stage}`)
}

/** Tells the test what the screen says, the moment it says it. */
const watch = (page: Page) =>
  page.evaluate(() => {
    const tell = () => console.info(`said ${document.querySelector('.bar-words [role=status]')?.textContent}`)
    new MutationObserver(tell).observe(document.querySelector('.cut-bar')!, {
      subtree: true,
      childList: true,
      characterData: true,
    })
  })

/** The hexagon sample, so many times over; gives the address of its Saw station. */
async function newJob(page: Page, url: string): Promise<string> {
  await page.goto(url)
  await page
    .getByRole('button', { name: /hexagon/i })
    .first()
    .click()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  const many = page.getByLabel('How many', { exact: true })
  await many.fill(String(copies))
  await many.press('Enter')
  await expect(many).toHaveValue(String(copies))
  const address = `${url}#/job/${job}/saw`
  await page.goto(address)
  await expect(counted(page)).toContainText(`0 of ${18 * copies} in all`, { timeout: 60_000 })
  return address
}

const move = (page: Page): Locator => page.locator('.main-button.move')

/** Goes to the next set-up where this one is cut; back when a cut can be checked off and the last one is no more told of. */
const toTheCut = (page: Page) =>
  expect(async () => {
    if (await move(page).count()) await move(page).click({ timeout: 1000 })
    await expect(cutButton(page)).toContainText(/^Cut/, { timeout: 1000 })
  }).toPass({ timeout: 20_000 })

/** The browser began a new database, and the app put back what was in it: seen about once in five hundred kills. */
const putBack = (page: Page): Promise<number> => page.getByText(/put back from the second copy/).count()

const nextTurn = () => new Promise((next) => setTimeout(next, 1))

const countOf = (words: string): number => Number(/(\d+) of \d+ in all/.exec(words)?.[1] ?? Number.NaN)

test(`${kills} kills of the browser while cuts are checked off: all that the screen said is there, none twice`, async ({
  site,
}) => {
  test.setTimeout(1_200_000)
  const roll = dice('browser kills')
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-kills-'))
  let address = ''
  /** From a tap until the screen says it, ms, as it was lately. */
  let took = 100
  const told = { said: 0, unsaid: 0, written: 0, undone: 0, putBack: 0 }
  let last: Killable | undefined
  let before: readonly string[] = []
  /** Counts that were right to be found: what was said, or what was asked for and not yet said. */
  let right: readonly number[] = [0]
  try {
    for (let round = 0; round <= kills; round++) {
      const which = `seed ${seed}, kill ${round}`
      last = await startKillable(profile)
      const { context, kill } = last
      const page = context.pages()[0] ?? (await context.newPage())
      page.setDefaultTimeout(20_000)
      if (round === 0) address = await newJob(page, site.url)
      else {
        await page.goto(address)
      }
      await expect(counted(page)).toContainText('in all', { timeout: 30_000 })
      if ((await putBack(page)) > 0) {
        told.putBack += 1
        console.log(`${which}: the database was begun anew, ${before.length} cuts stood in it; all put back`)
      }
      const facts = await onDisk(page)
      const cuts = cutsIn(facts)
      const shown = countOf((await counted(page).textContent()) ?? '')
      expect(right, `${which}: ${before.length} before, ${cuts.length} now`).toContain(cuts.length)
      expect(shown, which).toBe(cuts.length)
      expect(new Set(cuts).size, `${which}: none twice`).toBe(cuts.length)
      const common = Math.min(before.length, cuts.length)
      expect(cuts.slice(0, common), `${which}: what was there before`).toEqual(before.slice(0, common))
      // A write that was cut off leaves no hole in the row of a device.
      expect(
        facts.map(({ seq }) => seq).sort((a, b) => a - b),
        which,
      ).toEqual(facts.map((_, at) => at + 1))
      if (right.length > 1 && cuts.length === right[1]) told.written += 1
      before = cuts
      if (round === kills) {
        await kill()
        break
      }

      let said = cuts.length
      let asked = cuts.length
      let dead = false
      let tapped = 0
      page.on('console', (message) => {
        const count = dead || !message.text().startsWith('said ') ? Number.NaN : countOf(message.text())
        if (Number.isNaN(count) || count === said) return
        said = count
        took = (took + performance.now() - tapped) / 2
      })
      await watch(page)
      const tap = async (key: Locator) => {
        const { x, y, width, height } = (await key.boundingBox())!
        tapped = performance.now()
        await page.mouse.click(x + width / 2, y + height / 2)
      }
      await toTheCut(page)
      // Now and then one is cut in peace first. The last one is died in: before, while and after it is said.
      if (roll() < 0.25) {
        asked = said + 1
        await tap(cutButton(page))
        await expect.poll(() => said, { intervals: [10] }).toBe(asked)
        // The button tells of it a moment after the count does.
        await page.waitForTimeout(100)
        await toTheCut(page)
      }
      // Near the end of the job more is taken back than cut, so that it lasts.
      const undo = roll() < (said > 12 * copies ? 0.8 : said > 4 ? 0.15 : 0)
      tapped = 0
      const wait = roll.between(0, 2)
      asked = said + (undo ? -1 : 1)
      const dying = tap(undo ? page.getByRole('button', { name: 'Undo' }) : cutButton(page))
      while (tapped === 0 || performance.now() - tapped < wait * took) await nextTurn()
      dead = true
      await Promise.all([kill(), dying.catch(() => undefined)])
      if (undo) told.undone += 1
      right = said === asked ? [said] : [said, asked]
      if (said === asked) told.said += 1
      else told.unsaid += 1
    }
    console.log(
      `browser kills: seed ${seed}, ${kills} kills, ${before.length} cuts stand, ${JSON.stringify(told)}`,
    )
    expect(told.said).toBeGreaterThan(kills / 10)
    expect(told.unsaid).toBeGreaterThan(kills / 10)
  } finally {
    await last?.kill().catch(() => undefined)
    await rm(profile, { recursive: true, force: true, maxRetries: 5 })
  }
})
