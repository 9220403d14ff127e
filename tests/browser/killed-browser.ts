// A whole browser on a profile folder that can be killed as a power cut does it: every process of it, at once.
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { type BrowserContext, chromium } from '@playwright/test'
import { browserArgs, findBrowser } from '../../scripts/find-browser.mjs'

export interface Killable {
  readonly context: BrowserContext
  /** SIGKILL to the browser and all that it started; resolves when it is gone. */
  kill(): Promise<void>
}

/** Starts a browser on `profile`; a folder that a killed browser left is taken as it lies there. */
export async function startKillable(profile: string): Promise<Killable> {
  const program = await findBrowser()
  if (!program) throw new Error('no browser found')
  const child = spawn(
    program,
    [
      ...browserArgs,
      '--headless',
      '--disable-gpu',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    // A group of its own, so that one signal reaches every process of it.
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  )
  const gone = once(child, 'exit')
  const browser = await chromium.connectOverCDP(await addressOf(child))
  return {
    context: browser.contexts()[0]!,
    async kill() {
      process.kill(-child.pid!, 'SIGKILL')
      await gone
      await browser.close().catch(() => undefined)
    },
  }
}

/** Where the browser listens, as it says itself once it runs. */
const addressOf = (child: ChildProcess): Promise<string> =>
  new Promise((found, fail) => {
    let said = ''
    // Read to the end: a browser whose words nobody takes stands still.
    child.stderr!.on('data', (words) => {
      said += words
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1]
      if (address) found(address)
    })
    child.on('exit', () => fail(new Error(`the browser did not start: ${said}`)))
  })
