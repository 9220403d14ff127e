// What every browser test starts from: `import { expect, test } from './serve.ts'`.
// Pages open on a server of their own (`page.goto('./')`), so that tests and checkouts never meet on a port.
import { test as base, chromium } from '@playwright/test'
import { browserArgs, findBrowser } from '../../scripts/find-browser.mjs'
import { serve } from '../../scripts/serve.mjs'

export { expect } from '@playwright/test'

/** The built app under test: `dist`, or the folder that LONGPOINT_DIST names. */
export const built = process.env.LONGPOINT_DIST ?? 'dist'

export interface Site {
  readonly url: string
  /** Ends the server as a pulled plug does: open connections are cut. Twice is no error. */
  kill(): Promise<void>
  /** Serves again at the same address, so that a browser finds what it kept for it. */
  revive(): Promise<void>
}

/** Starts a server on a free port for `dir`. */
export async function startSite(dir: string = built): Promise<Site> {
  let server: Awaited<ReturnType<typeof serve>> | undefined = await serve({ dir })
  const { url, port } = server
  return {
    url,
    async kill() {
      const running = server
      server = undefined
      await running?.close()
    },
    async revive() {
      if (server) return
      server = await serve({ dir, port })
      if (server.port !== port) throw new Error(`port ${port} was taken meanwhile`)
    },
  }
}

/** Starts a whole browser on a profile folder, so that a test can close it and start it again with what it kept. */
export async function startBrowser(profile: string) {
  const executablePath = await findBrowser()
  return chromium.launchPersistentContext(profile, {
    args: browserArgs,
    headless: true,
    viewport: { width: 1180, height: 820 },
    locale: 'en-US',
    ...(executablePath ? { executablePath } : {}),
  })
}

export const test = base.extend<{ site: Site }, { sharedSite: Site }>({
  /** One server for all tests of a worker: never kill this one. */
  sharedSite: [
    async ({}, use) => {
      const site = await startSite()
      await use(site)
      await site.kill()
    },
    { scope: 'worker' },
  ],
  baseURL: async ({ sharedSite }, use) => use(sharedSite.url),
  /** A server for this test alone, to kill and revive. */
  site: async ({}, use) => {
    const site = await startSite()
    await use(site)
    await site.kill()
  },
})
