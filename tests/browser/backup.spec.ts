import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { counted, cutButton, expectNumbersInSight } from './saw-steps.ts'
import { expect, test } from './serve.ts'

const withHexagon = async (page: Page) => {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon/ }).click()
  await expect(page.locator('table.parts')).toBeVisible()
}

/** Puts rows into the app's database by hand, as damage would. */
const plant = (page: Page, store: string, row: unknown) =>
  page.evaluate(
    ([where, value]) =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('longpoint')
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          const tx = opening.result.transaction(where as string, 'readwrite')
          tx.objectStore(where as string).put(value)
          tx.oncomplete = () => {
            opening.result.close()
            done()
          }
        }
      }),
    [store, row] as const,
  )

/** A row of the app's database, read past the app. */
const kept = (page: Page, store: string, key: string): Promise<unknown> =>
  page.evaluate(
    ([where, at]) =>
      new Promise((done, fail) => {
        const opening = indexedDB.open('longpoint')
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          const asked = opening.result
            .transaction(where as string)
            .objectStore(where as string)
            .get(at as string)
          asked.onsuccess = () => {
            opening.result.close()
            done(asked.result)
          }
        }
      }),
    [store, key] as const,
  )

const savedBy = async (page: Page, name: string) => {
  const saving = page.waitForEvent('download')
  await page.getByRole('button', { name }).click()
  return JSON.parse(await readFile(await (await saving).path(), 'utf8'))
}

const textOf = (value: unknown) => ({
  name: 'all.json',
  mimeType: 'application/json',
  buffer: Buffer.from(JSON.stringify(value)),
})

test('two weeks after the first job a backup is asked for; saved, it is quiet', async ({ page }) => {
  await page.clock.install({ time: new Date('2030-06-01T08:00:00Z') })
  await withHexagon(page)
  await page.reload()
  await page.goto('./#/')
  await expect(page.locator('.job-card')).toHaveCount(1)
  await expect(page.getByText(/There is no backup yet/)).toHaveCount(0)
  // The days count from a mark that is made once all jobs are planned: the clock may not go on before it is on disk.
  await expect.poll(() => kept(page, 'meta', 'backup')).toBeTruthy()
  await page.clock.setSystemTime(new Date('2030-06-15T09:00:00Z'))
  await page.reload()
  await expect(page.getByText(/There is no backup yet/)).toBeVisible()
  await expectAccessible(page)
  const saved = await savedBy(page, 'Save everything to a file')
  expect(saved).toMatchObject({ format: 'tube-backup', version: 3 })
  await expect(page.getByText(/There is no backup yet/)).toHaveCount(0)
})

test('the Shop says what the browser promises and how much is used, and can be asked', async ({ page }) => {
  await page.goto('./#/shop')
  await expect(page.getByText(/may clear everything here/)).toBeVisible()
  await expect(page.getByText(/Space used: .*MB/)).toBeVisible()
  await page.getByRole('button', { name: 'Ask the browser to keep it' }).click()
  await expect(page.getByText(/It was asked and said no|It keeps what is here/)).toBeVisible()
})

test('a damaged job is told, the others work, and the rescue file holds both and opens elsewhere', async ({
  browser,
  page,
  baseURL,
}) => {
  await withHexagon(page)
  await plant(page, 'jobs', { id: 'bent', rev: 1, parent: null, device: 'd', body: { name: 'Bent' } })
  await page.goto('./#/')
  await page.reload()
  await expect(page.locator('.job-card')).toHaveCount(1)
  await page.getByText(/1 entry on this device cannot be read/).click()
  const file = await savedBy(page, 'Save a rescue file')
  expect(file.stores.jobs).toHaveLength(2)

  const other = await browser.newContext({ baseURL: baseURL ?? '' })
  const there = await other.newPage()
  await there.goto('./#/shop')
  await there.locator('input[type=file]').setInputFiles(textOf(file))
  await expect(there.getByText('1 job opened from all.json.')).toBeVisible()
  await expect(there.getByText(/1 row of it cannot be read/)).toBeVisible()
  await other.close()
})

test('damaged figures of the shop are said at the saw, until there are some again', async ({ page }) => {
  await withHexagon(page)
  const saw = page.url().replace(/(#\/job\/[^/]+).*/, '$1/saw')
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const opening = indexedDB.open('longpoint')
        opening.onsuccess = () => {
          const tx = opening.result.transaction('shop', 'readwrite')
          tx.objectStore('shop').put({ id: 'x', rev: 'none', body: 7 }, 'shop')
          tx.oncomplete = () => {
            opening.result.close()
            done()
          }
        }
      }),
  )
  await page.goto(saw)
  await page.reload()
  const said = page.getByRole('alert').filter({ hasText: 'Do not cut yet' })
  await expect(said).toBeVisible()
  await expectTouchable(page, 64)
  await said.getByRole('link', { name: 'To the Shop' }).click()
  await page.getByRole('textbox', { name: 'Name of the shop' }).fill('Harbor Street again')
  await page.getByRole('textbox', { name: 'Name of the shop' }).press('Enter')
  await expect(said).toHaveCount(0)
  await page.reload()
  await expect(page.getByRole('textbox', { name: 'Name of the shop' })).toHaveValue('Harbor Street again')
  await expect(said).toHaveCount(0)
})

test('a database of a newer version: said, left alone, and rescued whole', async ({ page }) => {
  await withHexagon(page)
  await page.goto('./manifest.webmanifest')
  await page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('longpoint', 99)
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          opening.result.close()
          done()
        }
      }),
  )
  await page.goto('./')
  await expect(page.getByRole('heading', { name: 'The jobs cannot be opened now' })).toBeVisible()
  await expect(page.getByText(/written by a newer version of this program/)).toBeVisible()
  await expectAccessible(page)
  await expectTouchable(page, 44)
  const file = await savedBy(page, 'Save a rescue file')
  expect(file.database).toBe(99)
  expect(file.stores.jobs).toHaveLength(1)
})

test('rescue.html saves the same file with nothing of the app running', async ({ page }) => {
  await withHexagon(page)
  await page.goto('./rescue.html')
  await expectAccessible(page)
  const file = await savedBy(page, 'Save a rescue file')
  expect(file).toMatchObject({ format: 'tube-rescue', version: 1 })
  expect(file.stores.jobs).toHaveLength(1)
})

test('rescue.html where nothing is kept says so, and the app starts after it as ever', async ({ page }) => {
  await page.goto('./rescue.html')
  await page.getByRole('button', { name: 'Save a rescue file' }).click()
  await expect(page.getByText(/Nothing of Longpoint is kept/)).toBeVisible()
  await withHexagon(page)
})

test('a browser that keeps nothing: the app says so, and what to do', async ({ page }) => {
  // As a private window of some browsers is.
  await page.addInitScript(() => Object.defineProperty(globalThis, 'indexedDB', { value: undefined }))
  await page.goto('./')
  await expect(page.getByText(/keeps nothing on this device/)).toBeVisible()
  await page.getByRole('button', { name: 'Save a rescue file' }).click()
  await expect(page.getByText(/gives the page no storage/)).toBeVisible()
})

test('a full disk: the cut is not shown as done, and the message says what is safe', async ({ page }) => {
  await withHexagon(page)
  await page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError')
    }
  })
  await page.getByRole('textbox', { name: 'Size' }).fill('30')
  await page.getByRole('textbox', { name: 'Size' }).press('Enter')
  await expect(
    page.getByRole('alert').filter({ hasText: 'no room left, so nothing was saved' }),
  ).toBeVisible()
  await page.reload()
  await expect(page.locator('table.parts')).toContainText('13 7/8')
})

for (const [width, height] of [
  [390, 844],
  [1180, 820],
] as const)
  test(`the backup at ${width} × ${height} is not clipped, can be touched and used by everybody`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height })
    await page.goto('./#/shop')
    await expect(page.getByText(/Space used/)).toBeVisible()
    await page.getByText('When something is broken').click()
    await expectNothingClipped(page)
    await expectTouchable(page, 44)
    await expectAccessible(page)
  })

test('the browser begins its database anew: job and log are back at the next start, and it says so', async ({
  page,
}) => {
  await withHexagon(page)
  await page.goto(page.url().replace(/(#\/job\/[^/]+).*/, '$1/saw'))
  await cutButton(page).click()
  await expect(counted(page)).toContainText('1 of 18 in all')
  const session = await page.context().newCDPSession(page)
  await session.send('Storage.clearDataForOrigin', {
    origin: new URL(page.url()).origin,
    storageTypes: 'indexeddb',
  })
  await page.reload()
  await expect(counted(page)).toContainText('1 of 18 in all')
  await expect(page.getByText(/put back from the second copy: 1 job, \d+ entr/)).toBeVisible()
  await expectAccessible(page)
  // On a phone it is two lines beside its key, and the numbers to set stay in sight.
  await page.setViewportSize({ width: 390, height: 844 })
  await expectNumbersInSight(page)
  await page.getByRole('button', { name: 'Read it', exact: true }).click()
  await page.getByRole('button', { name: 'I have read it' }).click()
  await expect(page.getByText(/second copy/)).toHaveCount(0)
  await page.reload()
  await expect(counted(page)).toContainText('1 of 18 in all')
  await expect(page.getByText(/second copy/)).toHaveCount(0)
  await page.goto('./#/shop')
  await expect(page.getByText('Everything is kept twice')).toBeVisible()
})
