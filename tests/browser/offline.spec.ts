import { cp, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, relative, sep } from 'node:path'
import type { Page } from '@playwright/test'
import { copyOfBuild, installed, lookForUpdate, publish, removeCopy } from './next-version.ts'
import { counted, cutOne } from './saw-steps.ts'
import { built, expect, startBrowser, startSite, test } from './serve.ts'

test.use({ serviceWorkers: 'allow' })

const prompt = 'A new version is ready'
const accept = 'Use it now'

/** Opens the app and waits until its offline copy is complete and rules this page. */
async function firstVisit(page: Page, url: string) {
  await page.goto(url)
  await installed(page)
}

/** The app is on screen, not a browser's error page and not an empty root. */
async function seesApp(page: Page) {
  await expect(page).toHaveTitle(/Longpoint/)
  await expect(page.locator('#root nav')).toContainText('Jobs')
}

test('after one visit it reloads with the server gone', async ({ page, site }) => {
  const errors: string[] = []
  page.on('pageerror', (error) => errors.push(error.message))
  await firstVisit(page, site.url)
  await seesApp(page)
  await site.kill()
  await page.reload()
  await seesApp(page)
  expect(errors).toEqual([])
})

test('the server is really gone: an address that is not kept fails', async ({ page, site }) => {
  await firstVisit(page, site.url)
  await site.kill()
  const answer = await page.evaluate(() =>
    fetch('./not-kept.txt').then(
      () => 'answered',
      () => 'failed',
    ),
  )
  expect(answer).toBe('failed')
})

test('a new page opens with the server gone, also deep in a station and with a query', async ({
  context,
  page,
  site,
}) => {
  await firstVisit(page, site.url)
  await site.kill()
  await page.close()
  for (const address of ['', '#/shop', '?from=home-screen', 'index.html']) {
    const another = await context.newPage()
    await another.goto(site.url + address)
    await seesApp(another)
    await another.close()
  }
})

test('every file of the build is kept, the solver too', async ({ page, site }) => {
  await firstVisit(page, site.url)
  await site.kill()
  const addresses = await page.evaluate(async () => {
    const found: string[] = []
    for (const name of (await caches.keys()).filter((one) => !one.endsWith('second copy')))
      for (const request of await (await caches.open(name)).keys()) found.push(request.url)
    return found.map((url) => url.replace(/\?__WB_REVISION__=\w+$/, ''))
  })
  const files = (await readdir(built, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile() && entry.name !== 'sw.js' && !entry.name.endsWith('.map'))
    .map((entry) => join(relative(built, entry.parentPath), entry.name).split(sep).join('/'))
  expect(files).toContain('manifest.webmanifest')
  expect(addresses.sort()).toEqual(files.map((file) => new URL(file, site.url).href).sort())
})

test('the browser is closed and started again with the server gone', async ({ site }) => {
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-profile-'))
  try {
    const before = await startBrowser(profile)
    await firstVisit(await before.newPage(), site.url)
    await before.close()
    await site.kill()
    const after = await startBrowser(profile)
    const page = await after.newPage()
    await page.goto(site.url)
    await seesApp(page)
    await after.close()
  } finally {
    await rm(profile, { recursive: true, force: true })
  }
})

test('from a folder of a folder of a static host: a job, its nest and a restart with the server gone, and nothing of its neighbors', async () => {
  const host = await mkdtemp(join(tmpdir(), 'longpoint-host-'))
  const profile = await mkdtemp(join(tmpdir(), 'longpoint-profile-'))
  await cp(built, join(host, 'tools/saw plan'), { recursive: true })
  await writeFile(join(host, 'index.html'), '<title>Another page</title>')
  await writeFile(join(host, 'tools/index.html'), '<title>Tools</title>')
  const site = await startSite(host)
  try {
    const home = `${site.url}tools/saw%20plan/`
    const before = await startBrowser(profile)
    const page = await before.newPage()
    const strayed: string[] = []
    page.on('request', (request) => {
      if (!/^(blob|data):/.test(request.url()) && !request.url().startsWith(home)) strayed.push(request.url())
    })
    await firstVisit(page, home)
    await page.getByRole('button', { name: /^Hexagon/ }).click()
    await expect(page.locator('table.parts')).toBeVisible()
    const job = /#\/job\/([^/]+)/.exec(page.url())![1]
    // The solver and its program come out of the same folder.
    await page.goto(`${home}#/job/${job}/stock`)
    await expect(page.getByText('proved least').first()).toBeVisible({ timeout: 30_000 })
    expect(strayed).toEqual([])
    // The offline copy rules its own folder and no other.
    const neighbor = await before.newPage()
    await neighbor.goto(`${site.url}tools/`)
    await expect(neighbor).toHaveTitle('Tools')
    expect(await neighbor.evaluate(() => navigator.serviceWorker.controller)).toBeNull()
    await before.close()

    await site.kill()
    const after = await startBrowser(profile)
    const again = await after.newPage()
    await again.goto(`${home}#/job/${job}/saw`)
    await cutOne(again)
    await expect(counted(again)).toContainText('1 of 18 in all')
    await again.goto(`${home}rescue.html`)
    await expect(again.locator('body')).toContainText(/rescue/i)
    await after.close()
  } finally {
    await site.kill()
    await rm(host, { recursive: true, force: true })
    await rm(profile, { recursive: true, force: true })
  }
})

test.describe('a new version', () => {
  let folder = ''

  test.beforeEach(async () => {
    folder = await copyOfBuild()
  })
  test.afterEach(() => removeCopy(folder))

  test('waits, asks, and comes in only when accepted', async ({ page }) => {
    const site = await startSite(folder)
    await firstVisit(page, site.url)
    await expect(page.getByText(prompt)).toHaveCount(0)
    await page.evaluate(() => Object.assign(window, { untouched: true }))

    await publish(folder, 'second')
    await lookForUpdate(page)
    await expect(page.getByText(prompt)).toBeVisible()
    // It asks and does nothing: same page, same version, also for a page opened now.
    await page.waitForTimeout(500)
    expect(await page.evaluate(() => 'untouched' in window)).toBe(true)
    await expect(page).toHaveTitle('Longpoint')

    await page.getByRole('button', { name: accept }).click()
    await expect(page).toHaveTitle('Longpoint second')
    await expect(page.getByText(prompt)).toHaveCount(0)
    await site.kill()
    await page.reload()
    await expect(page).toHaveTitle('Longpoint second')
  })

  test('still waits and asks after a reload that did not accept it', async ({ page }) => {
    const site = await startSite(folder)
    await firstVisit(page, site.url)
    await publish(folder, 'second')
    await lookForUpdate(page)
    await expect(page.getByText(prompt)).toBeVisible()
    await site.kill()
    await page.reload()
    await expect(page).toHaveTitle('Longpoint')
    await expect(page.getByText(prompt)).toBeVisible()
    await page.getByRole('button', { name: accept }).click()
    await expect(page).toHaveTitle('Longpoint second')
  })

  test('accepted in one tab leaves the other as it is, and asks there', async ({ context, page }) => {
    const site = await startSite(folder)
    await firstVisit(page, site.url)
    const other = await context.newPage()
    await firstVisit(other, site.url)
    await other.evaluate(() => Object.assign(window, { untouched: true }))
    await publish(folder, 'second')
    await lookForUpdate(page)
    await page.getByRole('button', { name: accept }).click()
    await expect(page).toHaveTitle('Longpoint second')
    await expect(other.getByText(prompt)).toBeVisible()
    expect(await other.evaluate(() => 'untouched' in window)).toBe(true)
    await other.getByRole('button', { name: accept }).click()
    await expect(other).toHaveTitle('Longpoint second')
    await site.kill()
  })
})

test.describe('the server', () => {
  test('asks for the page and the worker each time, and never again for a hashed file', async ({
    request,
    site,
  }) => {
    const page = await request.get(site.url)
    expect(page.headers()['cache-control']).toBe('no-cache')
    expect(page.headers()['content-type']).toBe('text/html; charset=utf-8')
    expect(page.headers()['content-security-policy']).toContain("script-src 'self' 'wasm-unsafe-eval'")
    const worker = await request.get(`${site.url}sw.js`)
    expect(worker.headers()['cache-control']).toBe('no-cache')
    const script = /src="\.\/(assets\/[^"]+\.js)"/.exec(await page.text())?.[1]
    const hashed = await request.get(`${site.url}${script}`)
    expect(hashed.headers()['cache-control']).toContain('immutable')
    expect(hashed.headers()['content-type']).toBe('text/javascript; charset=utf-8')
  })

  test('gives nothing from outside its folder, nothing hidden, and takes only questions', async ({
    request,
    site,
  }) => {
    const { fileFor } = await import('../../scripts/serve.mjs')
    for (const address of [
      '/../package.json',
      '/%2e%2e/package.json',
      '/..%2fpackage.json',
      '/a/..%5c..%5cb',
      '/.git/config',
      '/%00',
      '/%E0%A4%A',
    ])
      expect(fileFor('/srv/dist', address), address).toBeUndefined()
    expect(fileFor('/srv/dist', '/?x=/../y')).toBe('/srv/dist/index.html')
    expect((await request.get(`${site.url}..%2fpackage.json`)).status()).toBe(404)
    expect((await request.get(`${site.url}assets/`)).status()).toBe(404)
    expect((await request.post(site.url)).status()).toBe(405)
  })

  test('moves to the next port when the one asked for is taken', async () => {
    const { serve } = await import('../../scripts/serve.mjs')
    const first = await serve({ dir: built })
    const second = await serve({ dir: built, port: first.port })
    expect(second.port).toBeGreaterThan(first.port)
    await first.close()
    await second.close()
  })
})
