// The app in WebKit, the nearest thing to the browser of some tablets, by hand: `npm run build`, then
// `xvfb-run -a node scripts/second-engine.mjs [--pictures FOLDER]`. On Debian it wants the packages webkit2gtk-driver
// and xvfb. It says what was seen, and ends with 1 at the first thing that was not.
import { spawn } from 'node:child_process'
import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { parseArgs } from 'node:util'
import { serve } from './serve.mjs'

const { values } = parseArgs({ options: { pictures: { type: 'string' } } })
const patience = 60_000

const libraries = '/usr/lib/x86_64-linux-gnu'
const found = readdirSync(libraries).find((name) => name.startsWith('webkit2gtk-'))
const binary = process.env.MINI_BROWSER ?? join(libraries, found ?? 'webkit2gtk-4.1', 'MiniBrowser')
const driverPort = 4572

/** One call of the W3C WebDriver protocol.
 * @param {string} method @param {string} path @param {object} [body] @returns {Promise<any>} */
async function call(method, path, body) {
  const given = body ? { body: JSON.stringify(body) } : {}
  const answer = await fetch(`http://127.0.0.1:${driverPort}${path}`, { method, ...given })
  const { value } = /** @type {{ value: any }} */ (await answer.json())
  if (value?.error) throw new Error(`${path}: ${value.error}, ${value.message}`)
  return value
}

async function start() {
  const capabilities = {
    alwaysMatch: { 'webkitgtk:browserOptions': { binary, args: ['--automation'] } },
  }
  const { sessionId, capabilities: is } = await call('POST', '/session', { capabilities })
  const session = `/session/${sessionId}`
  /** @param {string} script */
  const run = (script) => call('POST', `${session}/execute/sync`, { script, args: [] })
  /** Asks until `script` gives something. @param {string} what @param {string} script */
  async function seen(what, script) {
    for (const end = Date.now() + patience; Date.now() < end; await pause(200)) {
      // A page that is being loaded has nothing to ask yet.
      const value = await run(script).catch(() => undefined)
      if (value) return value
    }
    throw new Error(`not seen: ${what}. The page says: ${await run('return document.body.innerText')}`)
  }
  return {
    is,
    run,
    seen,
    /** @param {string} url */
    go: (url) => call('POST', `${session}/url`, { url }),
    /** @param {string} name */
    async picture(name) {
      if (values.pictures === undefined) return
      const png = await call('GET', `${session}/screenshot`)
      writeFileSync(join(values.pictures, `${name}.png`), Buffer.from(png, 'base64'))
    },
    end: () => call('DELETE', session),
  }
}

/** @param {string} words */
const pressOf = (words) =>
  `const key = [...document.querySelectorAll('button')].find((one) => one.textContent.trim().startsWith(${JSON.stringify(words)}))
   key?.click()
   return key !== undefined`
/** @param {number} done */
const counted = (done) =>
  `const said = document.querySelector('.bar-words [role=status]')?.textContent
   return said?.includes('${done} of 18 in all') && said`
const cut = `const key = document.querySelector('.main-button.go:not(.move)')
  // Right after a cut the key says what was cut, and takes no press.
  const ready = key?.textContent.trim().startsWith('Cut') && key.ariaDisabled !== 'true' && key.ariaBusy !== 'true'
  if (ready) key.click()
  return ready`

const driver = spawn('WebKitWebDriver', [`--port=${driverPort}`], { stdio: 'inherit' })
const site = await serve({ dir: 'dist' })
try {
  await pause(1500)
  const page = await start()
  console.log(`engine: ${page.is.browserName} ${page.is.browserVersion}`)
  await page.go(site.url)
  await page.seen('the samples', pressOf('Hexagon table top'))
  await page.seen('the parts of the job', "return document.querySelector('table.parts') !== null")
  console.log('a job was made, and its parts are on the screen')
  await page.seen('the offline copy', 'return navigator.serviceWorker?.controller != null')
  console.log('the offline copy rules the page')
  await page.run("location.hash = location.hash.replace('sizes', 'saw')")
  await page.seen('the saw', counted(0))
  for (const done of [1, 2, 3]) {
    await page.seen('the cut key', cut)
    await page.seen(`cut ${done}`, counted(done))
  }
  await page.picture('saw')
  console.log('three cuts were checked off')
  await site.close()
  const at = await page.run('return location.href')
  await page.run('location.reload()')
  console.log(`server gone, loaded again: ${await page.seen('the saw offline', counted(3))}`)
  await page.go('about:blank')
  await page.go(at)
  console.log(`server gone, visited anew: ${await page.seen('the saw offline', counted(3))}`)
  await page.seen('the cut key', cut)
  console.log(`server gone, one more cut: ${await page.seen('a cut offline', counted(4))}`)
  await page.run("location.hash = '#/shop'")
  const promises = "return document.querySelector('.kept-here')?.innerText"
  console.log(`the Shop: ${await page.seen('what is promised', promises)}`)
  await page.picture('shop')
  await page.run("location.hash = '#/'")
  await page.seen('the key to another device', pressOf('To another device'))
  await page.seen('the link and the codes', "return document.querySelector('.link-text')?.value.length")
  await page.picture('codes')
  console.log('a link and codes were made')
  await page.end()
} catch (error) {
  console.error(error)
  process.exitCode = 1
} finally {
  driver.kill()
  await site.close().catch(() => undefined)
}
