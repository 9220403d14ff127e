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
