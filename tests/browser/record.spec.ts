import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { expect, test } from './serve.ts'

// By touch, on the hexagon sample: 24 in across flats of 2 in tube, one copy.
test.use({ hasTouch: true })

test('what is measured and written stays with the job, teaches the next, and is refused with one tap', async ({
  page,
}) => {
  await page.goto('./')
  await page
    .getByRole('button', { name: /hexagon/i })
    .first()
    .tap()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  const job = /#\/job\/([^/]+)/.exec(page.url())![1]
  await page.goto(`./#/job/${job}/finish`)
  const size = page.locator('.finish-size').first()
  await size.getByRole('textbox').fill('23 31/32')
  await size.getByRole('textbox').press('Enter')
  await expect(size).toContainText('1/32 in less than asked')
  const minutes = page.getByRole('textbox', { name: 'Minutes, weld' })
  await minutes.fill('45')
  await minutes.press('Enter')
  await page.getByLabel('Note for the next one').fill('Clamp the long side first')
  await page.getByRole('button', { name: 'Keep the note' }).tap()
  await page.getByText('Look at the whole record').tap()
  const record = page.locator('.record')
  await expect(record.getByRole('row', { name: /^Across flats/ })).toContainText('23 31/32 in')
  await expect(record).toContainText('Clamp the long side first')
  await expectNothingClipped(page)
  await expectAccessible(page)

  // The sheet of paper is chosen alone.
  await page.getByRole('link', { name: 'Print the record' }).tap()
  await expect(page.locator('.paper-shown')).toHaveCount(2)
  await expect(page.locator('.paper-shown').first()).toContainText('measured 23 31/32 in')

  // Planned 24 1/32 by the rounded lengths: 1/16 in over two mitered joints.
  await page.goto(`./#/job/${job}/sizes`)
  const learned = page.locator('section', {
    has: page.getByRole('heading', { name: 'What the welds draw in' }),
  })
  await expect(learned).toContainText('0.032 in')
  await learned.getByRole('button', { name: 'Plan this job larger by it' }).tap()
  await expect(learned).toContainText('In use: 0.032 in at each mitered joint')
  await learned.getByRole('button', { name: 'Plan without it' }).tap()
  await expect(learned).toContainText('Not used here')
  await expectTouchable(page, 44)

  await page.goto('./')
  await page.getByRole('button', { name: /copy/i }).first().tap()
  const last = page.locator('section', { has: page.getByRole('heading', { name: /^Last time/ }) })
  await expect(last).toContainText('weld about 45 min')
  await expect(last).toContainText('Clamp the long side first')
  await last.getByRole('button', { name: 'Do not show it in this job' }).tap()
  await expect(last).toHaveCount(0)
})

test('at Weld by touch: the steel is cleaned, a note is kept at its step, and the machine is set', async ({
  page,
}) => {
  await page.goto('./')
  await page
    .getByRole('button', { name: /hexagon/i })
    .first()
    .tap()
  await expect(page).toHaveURL(/#\/job\/[^/]+/)
  await page.goto(page.url().replace(/(#\/job\/[^/]+).*$/, '$1/weld'))
  const now = page.locator('.weld-step-now')
  const done = page.locator('.main-button.go')
  await expect(done).toContainText('Clean: done')
  await done.tap()
  await expect(now).toContainText('Clamp all parts')
  await done.tap()
  await expect(now).toContainText('Tack corner 1, outside')
  await now.locator('summary', { hasText: 'Note' }).tap()
  await now.getByLabel('Note to this step').fill('Hot start')
  await now.getByRole('button', { name: 'Keep the note' }).tap()
  await now.locator('summary', { hasText: 'Machine settings' }).tap()
  for (const [name, text] of [
    ['Volts', '18'],
    ['Wire speed', '200'],
  ] as const) {
    const field = now.getByRole('textbox', { name })
    await field.fill(text)
    await field.press('Enter')
  }
  await now.getByRole('button', { name: 'Keep in the settings book' }).tap()
  await expect(now).toContainText('set to 18 V, 200 in/min')
  await page.reload()
  await expect(now.locator('summary', { hasText: 'Note' })).toContainText('Hot start')
  await expect(now).toContainText('set to 18 V, 200 in/min')
  await expectNothingClipped(page)
})
