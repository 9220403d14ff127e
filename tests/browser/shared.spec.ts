import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expectAccessible, expectNothingClipped, expectTouchable } from './axe.ts'
import { openSaw } from './saw-steps.ts'
import { expect, type Site, test } from './serve.ts'

test.use({ serviceWorkers: 'allow' })

const hexagon = await readFile('demo-data/hexagon-top.json')
const job = (name: string) => ({ name, mimeType: 'application/json', buffer: hexagon })

async function installed(page: Page, site: Site) {
  await page.goto(site.url)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
}

/** Posts what the share sheet of a device posts, by the names that the manifest gives, from a page that is not ours. */
async function share(page: Page, site: Site, files: ReturnType<typeof job>[], text = '') {
  const manifest = JSON.parse(await readFile('public/manifest.webmanifest', 'utf8'))
  const { action, method, enctype, params } = manifest.share_target
  const address = new URL(action, site.url).href
  await page.goto('about:blank')
  await page.setContent(`<form action="${address}" method="${method}" enctype="${enctype}">
    <input type="file" name="${params.files[0].name}" multiple><input name="${params.text}"><button>Share</button></form>`)
  await page.locator('input[type=file]').setInputFiles(files)
  await page.locator(`input[name=${params.text}]`).fill(text)
  await page.getByRole('button', { name: 'Share' }).click()
  await page.waitForURL(`${site.url}#/shared`)
}

test('a job shared with the installed app is looked at, then opened, with the server gone', async ({
  page,
  site,
}) => {
  await installed(page, site)
  // What is posted cannot have gone to a server: there is none.
  await site.kill()
  await share(page, site, [job('porch.json')])
  await expect(page.getByRole('heading', { name: 'Shared with Longpoint' })).toBeVisible()
  await expect(page.getByText('24 in across flats')).toBeVisible()
  await expectAccessible(page)
  await expectNothingClipped(page)
  await expectTouchable(page, 44)
  // Any site could post such a form: nothing is kept before the person says so, and a reload asks again.
  await page.reload()
  await page.getByRole('link', { name: 'All jobs' }).click()
  await expect(page.getByRole('heading', { name: 'No job yet' })).toBeVisible()
  await page.goBack()
  await page.getByRole('button', { name: 'Open this job' }).click()
  await expect(page.locator('table.parts')).toContainText('13 7/8')
  // It was taken, and does not come again.
  await page.goto(`${site.url}#/shared`)
  await expect(page.getByText(/Nothing came with it/)).toBeVisible()
})

test('what is no job is said by its name, a link among words is found, and two files are asked for one by one', async ({
  page,
  site,
}) => {
  await installed(page, site)
  await share(page, site, [
    { name: 'dog.json', mimeType: 'application/json', buffer: Buffer.from('{"format":"dog"}') },
    job('one.json'),
    job('two.json'),
  ])
  await expect(page.getByText(/^dog\.json: This is no job file/)).toBeVisible()
  await expect(page.getByRole('button', { name: 'Open this job' })).toHaveCount(2)
  await page.getByRole('button', { name: 'Open this job' }).first().click()
  await expect(page.getByRole('button', { name: 'Open this job' })).toHaveCount(1)
  await page.getByRole('button', { name: 'Leave it' }).click()
  await expect(page.locator('.job-card')).toHaveCount(1)
  await page.getByRole('button', { name: /^Carry / }).click()
  const link = await page.getByRole('textbox', { name: 'The link' }).inputValue()
  await share(page, site, [], `Look at this: ${link} before Monday`)
  await expect(page.getByText('24 in across flats')).toBeVisible()
  await share(page, site, [], 'nothing of the kind')
  await expect(page.getByRole('alert')).toContainText('This is no job file')
})

test('a backup that is shared or opened under Jobs says what it holds, and is opened when wanted', async ({
  page,
  site,
}) => {
  await installed(page, site)
  const backup = {
    format: 'tube-backup',
    version: 2,
    jobs: [JSON.parse(hexagon.toString()).job],
    nests: [],
    facts: [],
  }
  const file = {
    name: 'all.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(backup)),
  }
  await page.goto(`${site.url}#/`)
  await page.locator('input[type=file]').first().setInputFiles(file)
  await expect(page.getByText(/A backup of a shop: 1 job and 0 cuts and entries/)).toBeVisible()
  await page.getByRole('button', { name: 'Leave it' }).click()
  await share(page, site, [file])
  await page.getByRole('button', { name: 'Open this backup' }).click()
  await expect(page.getByText('1 job opened from all.json.')).toBeVisible()
  await page.getByRole('button', { name: 'Good' }).click()
  await expect(page.locator('.job-card')).toHaveCount(1)
})

test('a file dropped at the Saw is opened, and the browser does not leave the app for it', async ({
  page,
}) => {
  await openSaw(page)
  await page.evaluate((text) => {
    const data = new DataTransfer()
    const other = text
      .replace(/"id": *"[^"]*"/, '"id": "dropped"')
      .replace(/"name": *"[^"]*"/, '"name": "Dropped"')
    data.items.add(new File([other], 'dropped.json', { type: 'application/json' }))
    for (const kind of ['dragover', 'drop'])
      document.body.dispatchEvent(
        new DragEvent(kind, { dataTransfer: data, bubbles: true, cancelable: true }),
      )
  }, hexagon.toString())
  await expect(page).toHaveURL(/#\/job\/dropped\/sizes/)
  await expect(page.getByRole('link', { name: 'Dropped' })).toBeVisible()
})
