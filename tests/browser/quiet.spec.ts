import { expect, startSite, test } from './serve.ts'

test.use({ serviceWorkers: 'allow' })

test('once installed, a day of work asks the network for nothing, and the hourly look for a new version carries nothing', async ({
  page,
}) => {
  const site = await startSite()
  await page.goto(site.url)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)

  const asked: { url: string; method: string; body: string | null; kept: boolean }[] = []
  page.context().on('response', (response) => {
    const request = response.request()
    asked.push({
      url: request.url(),
      method: request.method(),
      body: request.postData(),
      kept: response.fromServiceWorker(),
    })
  })
  await page.getByRole('button', { name: /^Hexagon/ }).click()
  await expect(page.locator('table.parts')).toBeVisible()
  await page.getByRole('textbox', { name: 'Size' }).fill('30')
  await page.getByRole('textbox', { name: 'Size' }).press('Enter')
  for (const station of ['Stock', 'Saw', 'Weld', 'Paper', 'Shop', 'Jobs']) {
    await page
      .getByRole('link', { name: new RegExp(`^${station}`) })
      .first()
      .click()
    await page.waitForTimeout(300)
  }
  await page.reload()
  await expect(page.locator('.job-card')).toHaveCount(1)
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update())
  await page.waitForTimeout(500)

  const overNetwork = asked.filter(({ url, kept }) => !kept && !/^(blob|data):/.test(url))
  // The browser looks at sw.js again, and at nothing else; it sends no body and no question with it.
  expect(overNetwork.map(({ url }) => url).filter((url) => url !== `${site.url}sw.js`)).toEqual([])
  expect(asked.filter(({ method, body }) => method !== 'GET' || body !== null)).toEqual([])
  expect(asked.filter(({ url }) => !url.startsWith(site.url) && !/^(blob|data):/.test(url))).toEqual([])
  await site.kill()
})

test('the built page carries the policy itself: no inline script runs, no other address is reached', async ({
  page,
}) => {
  await page.goto('./')
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content')
  expect(policy).toContain("default-src 'self'")
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'/)
  const tried = await page.evaluate(async () => {
    const script = document.createElement('script')
    script.textContent = 'window.ran = true'
    document.head.append(script)
    const image = await new Promise((done) => {
      const picture = new Image()
      picture.onload = () => done('loaded')
      picture.onerror = () => done('refused')
      picture.src = 'https://example.org/x.png'
    })
    const fetched = await fetch('https://example.org/').then(
      () => 'fetched',
      () => 'refused',
    )
    const evaluated = (() => {
      try {
        return new Function('return 1')()
      } catch {
        return 'refused'
      }
    })()
    return { ran: 'ran' in window, image, fetched, evaluated }
  })
  expect(tried).toEqual({ ran: false, image: 'refused', fetched: 'refused', evaluated: 'refused' })
})

test('a job called <img onerror> is text on every station', async ({ page }) => {
  await page.goto('./')
  await page.getByRole('button', { name: /^Hexagon/ }).click()
  await expect(page.locator('.drawing').first()).toBeVisible()
  await page.goto('./#/')
  const name = '<img src=x onerror="window.ran=1"><b>bold</b>'
  const text = await page.evaluate(() => fetch('./index.html').then((answer) => answer.text()))
  expect(text).toContain('Longpoint')
  const file = {
    format: 'tube-job',
    version: 1,
    job: { id: 'x', name, note: name, quantity: 1, build: { kind: 'polygon-frame', params: {} } },
  }
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({
      name: 'x.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(file)),
    })
  await expect(page.getByText(name).first()).toBeVisible()
  for (const station of ['sizes', 'stock', 'saw', 'weld', 'paper']) {
    await page.goto(`./#/job/x/${station}`)
    await page.waitForTimeout(300)
    expect(await page.evaluate(() => 'ran' in window)).toBe(false)
    expect(await page.locator('img[src=x]').count()).toBe(0)
  }
})
