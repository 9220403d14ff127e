import type { Page } from '@playwright/test'
import { expectAccessible, expectTouchable } from './axe.ts'
import { copyOfBuild, installed, lookForUpdate, publish, removeCopy } from './next-version.ts'
import { counted, cutButton, cutOne, openSaw } from './saw-steps.ts'
import { test as base, expect, startSite } from './serve.ts'

/** A server whose files this test may replace. */
const test = base.extend<{ folder: string }>({
  folder: async ({}, use) => {
    const folder = await copyOfBuild()
    await use(folder)
    await removeCopy(folder)
  },
  baseURL: async ({ folder }, use) => {
    const site = await startSite(folder)
    await use(site.url)
    await site.kill()
  },
})
test.use({ serviceWorkers: 'allow' })

const prompt = 'A new version is ready'
const nextPiece = async (page: Page) => ((await cutButton(page).textContent()) ?? '').replace(/\s+/g, ' ')
const mark = (page: Page) => page.evaluate(() => Object.assign(window, { untouched: true }))
const untouched = (page: Page) => page.evaluate(() => 'untouched' in window)

test('a new version in the middle of a run waits and asks; cutting goes on, and once let in it is at the same cut', async ({
  page,
  folder,
}) => {
  await openSaw(page)
  await installed(page)
  await cutOne(page)
  const at = page.url()
  await mark(page)

  await publish(folder, 'second')
  await lookForUpdate(page)
  await expect(page.getByText(prompt)).toBeVisible()
  await expectTouchable(page, 64)
  await expectAccessible(page)
  // The hand goes on cutting; the page stays the one that it is.
  await cutOne(page)
  await page.waitForTimeout(1000)
  expect(await untouched(page)).toBe(true)
  expect(page.url()).toBe(at)
  await expect(page).toHaveTitle('Longpoint')
  const next = await nextPiece(page)

  await page.getByRole('button', { name: 'Use it now' }).click()
  await expect(page).toHaveTitle('Longpoint second')
  expect(page.url()).toBe(at)
  await expect(counted(page)).toContainText('2 of 18 in all')
  expect(await nextPiece(page)).toBe(next)
  await expect(page.getByText(prompt)).toHaveCount(0)
  // Its database is of the next version, and takes the next cut.
  await cutOne(page)
})

test('a new version let in at the desk: the tab at the saw stays, saves nothing that could be lost, and is at its cut after its own yes', async ({
  context,
  page,
  folder,
}) => {
  await openSaw(page)
  await installed(page)
  await cutOne(page)
  await mark(page)
  const next = await nextPiece(page)
  const desk = await context.newPage()
  await desk.goto(page.url())
  await expect(counted(desk)).toContainText('1 of 18 in all')

  await publish(folder, 'second')
  await lookForUpdate(desk)
  await desk.getByRole('button', { name: 'Use it now' }).click()
  await expect(desk).toHaveTitle('Longpoint second')
  await expect(counted(desk)).toContainText('1 of 18 in all')

  // The old tab gave the database up: it says so, is as it was, and shows nothing as done that is not on disk.
  await expect(page.getByText(/A newer version of this program was opened in another tab/)).toBeVisible()
  await cutOne(desk)
  await cutButton(page).click()
  await expect(page.getByRole('alert')).toContainText('written by a newer version of this program')
  await expect(counted(page)).toContainText('1 of 18 in all')
  expect(await nextPiece(page)).toBe(next)
  expect(await untouched(page)).toBe(true)

  await page.getByRole('button', { name: 'Use it now' }).click()
  await expect(page).toHaveTitle('Longpoint second')
  await expect(counted(page)).toContainText('2 of 18 in all')
})
