import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { counted, cutButton, cutOne, onDisk, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

/** The one figure of time that is promised: what one tab writes, the other shows within a second. */
const soon = { timeout: 1000 }

test('a cut checked off in one tab is counted in the other within a second, which offers the next piece', async ({
  context,
  page,
}) => {
  await openSaw(page)
  const other = await context.newPage()
  await other.goto(page.url())
  await expect(counted(other)).toContainText('0 of 18 in all')
  const name = await cutOne(page)
  await expect(counted(other)).toContainText('1 of 18 in all', soon)
  await expect(other.getByRole('button', { name, exact: true })).toHaveCount(0)
})

const cutsOnDisk = async (page: Page) => (await onDisk(page)).filter(({ kind }) => kind === 'cut')

test('two tabs check off in the same moments: every fact is there, both show the same, and a reload changes nothing', async ({
  context,
  page,
}) => {
  await openSaw(page)
  const other = await context.newPage()
  await other.goto(page.url())
  await expect(counted(other)).toContainText('0 of 18 in all')
  let cuts = 0
  for (let round = 0; round < 3; round++) {
    // Either may have heard of the other before it wrote: then it was one piece, else two.
    await Promise.all([cutButton(page).click(), cutButton(other).click()])
    await expect.poll(async () => (await cutsOnDisk(page)).length).toBeGreaterThan(cuts)
    for (const tab of [page, other]) await expect(tab.locator('.main-button.go')).toBeVisible()
    cuts = (await cutsOnDisk(page)).length
    expect(cuts).toBeLessThanOrEqual(2 * (round + 1))
    for (const tab of [page, other]) await expect(counted(tab)).toContainText(`${cuts} of 18 in all`, soon)
  }
  const ids = (await onDisk(page)).map(({ id }) => id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const tab of [page, other]) {
    await tab.reload()
    await expect(counted(tab)).toContainText(`${cuts} of 18 in all`)
  }
})

test('both tabs cut the sixth of six blanks before they hear of each other: seven pieces, one of them a spare', async ({
  context,
  page,
}) => {
  await openSaw(page)
  for (let n = 0; n < 5; n++) await cutOne(page)
  const other = await context.newPage()
  await deaf(other)
  await other.goto(page.url())
  await expect(counted(other)).toContainText('5 of 18 in all')
  for (const tab of [page, other]) await expect(cutButton(tab)).toContainText('A6')
  await cutOne(page)
  await cutButton(other).click()
  await expect.poll(async () => (await cutsOnDisk(other)).length).toBe(7)
  // The tab that hears shows it by itself, the other one when it looks again.
  await expect(page.getByText('1 spare piece:')).toBeVisible()
  await other.reload()
  for (const tab of [page, other]) {
    await expect(counted(tab)).toContainText('6 of 18 in all')
    await expect(tab.locator('.spares')).toContainText('1 spare piece: A6')
  }
})

test('an undo in one tab gives the piece back in the other', async ({ context, page }) => {
  await openSaw(page)
  const name = await cutOne(page)
  const other = await context.newPage()
  await other.goto(page.url())
  await expect(counted(other)).toContainText('1 of 18 in all')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(counted(other)).toContainText('0 of 18 in all')
  await expect(other.getByRole('button', { name, exact: true })).toBeVisible()
})

/** What is written in the same moment has not been heard of yet: this tab hears of nothing. */
const deaf = (tab: Page) =>
  tab.addInitScript(() => {
    BroadcastChannel.prototype.addEventListener = () => undefined
    Object.defineProperty(BroadcastChannel.prototype, 'onmessage', { set: () => undefined })
  })

test('a newer version that wants the database gets it, and the old tab says so and loses nothing', async ({
  context,
  page,
}) => {
  await openSaw(page)
  await cutOne(page)
  const newer = await context.newPage()
  // A page of the same address that is not the app plays the next version.
  await newer.goto(new URL('manifest.webmanifest', page.url().split('#')[0]).href)
  const version = await newer.evaluate(
    () =>
      new Promise<number>((done, fail) => {
        const opening = indexedDB.open('longpoint', 50)
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          done(opening.result.version)
          opening.result.close()
        }
      }),
  )
  expect(version).toBe(50)
  await expect(page.getByText(/A newer version of this program was opened in another tab/)).toBeVisible()
  await expect(counted(page)).toContainText('1 of 18 in all')
})

test('what is kept is cleared while the page is open, as browsers do that need room: said, and still to be saved from here', async ({
  context,
  page,
}) => {
  await openSaw(page)
  await cutOne(page)
  const other = await context.newPage()
  await other.goto(new URL('manifest.webmanifest', page.url().split('#')[0]).href)
  await other.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const clearing = indexedDB.deleteDatabase('longpoint')
        clearing.onerror = () => fail(clearing.error)
        clearing.onsuccess = () => done()
      }),
  )
  await expect(page.getByRole('alert')).toContainText('What this page shows is still here: save a backup')
  await expect(counted(page)).toContainText('1 of 18 in all')
  await page.getByRole('link', { name: /^Shop/ }).click()
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name: /^Save everything to a file/ }).click()
  const saved = JSON.parse(await readFile(await (await saving).path(), 'utf8'))
  expect(saved.jobs).toHaveLength(1)
  expect(saved.facts.filter((fact: { kind: string }) => fact.kind === 'cut')).toHaveLength(1)
})

test('a field saved in two tabs at once: leaving it does not write over the other tab, and the message stays', async ({
  context,
  page,
}) => {
  await openSaw(page)
  const sizes = page.url().replace(/saw.*$/, 'sizes')
  await page.goto(sizes)
  const other = await context.newPage()
  await deaf(other)
  await other.goto(sizes)
  const copies = (tab: typeof page) => tab.getByLabel('How many', { exact: true })
  await expect(copies(other)).toHaveValue('1')
  await copies(page).fill('7')
  await copies(page).press('Enter')
  await copies(page).blur()
  await expect(copies(page)).toHaveValue('7')
  await copies(other).fill('3')
  const said = other.getByText(/Both versions are kept/)
  await expect(said).toBeVisible()
  await copies(other).blur()
  await expect(copies(other)).toHaveValue('7')
  await expect(said).toBeVisible()
  await page.reload()
  await expect(copies(page)).toHaveValue('7')
  await page.goto(page.url().split('#')[0]!)
  await expect(page.getByRole('heading', { name: /^Two versions of/ })).toBeVisible()
})
