import { counted, cutOne, openSaw } from './saw-steps.ts'
import { expect, test } from './serve.ts'

test('a cut checked off in one tab is counted in the other, which offers the next piece', async ({
  context,
  page,
}) => {
  await openSaw(page)
  const other = await context.newPage()
  await other.goto(page.url())
  await expect(counted(other)).toContainText('0 of 18 in all')
  const name = await cutOne(page)
  await expect(counted(other)).toContainText('1 of 18 in all')
  await expect(other.getByRole('button', { name, exact: true })).toHaveCount(0)
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

test('a field saved in two tabs at once: leaving it does not write over the other tab, and the message stays', async ({
  context,
  page,
}) => {
  await openSaw(page)
  const sizes = page.url().replace(/saw.*$/, 'sizes')
  await page.goto(sizes)
  const other = await context.newPage()
  // What is written in the same moment has not been heard of yet: this tab hears of nothing.
  await other.addInitScript(() => {
    BroadcastChannel.prototype.addEventListener = () => undefined
    Object.defineProperty(BroadcastChannel.prototype, 'onmessage', { set: () => undefined })
  })
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
