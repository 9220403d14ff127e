import { defineConfig } from '@playwright/test'
import { browserArgs, findBrowser } from './scripts/find-browser.mjs'

const executablePath = await findBrowser()

/**
 * An upright tablet and a desk, and the kills of the browser: `npm run prove` does them, `npm test` looks at a tablet
 * that lies and at a phone.
 */
const others = /820 × 1180|1440 × 900|kills of the browser/

export default defineConfig({
  testDir: process.env.BENCH ? 'tests/bench' : 'tests/browser',
  testMatch: '**/*.spec.ts',
  ...(process.env.PROVE ? { grep: others } : { grepInvert: others }),
  fullyParallel: true,
  forbidOnly: true,
  // Two browsers on two busy cores: what fails once is run again, and named at the end.
  retries: process.env.BENCH ? 0 : 1,
  workers: process.env.BENCH ? 1 : 2,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: 'list',
  use: {
    headless: true,
    // Only the files that ask for it keep the app in a worker: filling that store takes a second of every test.
    serviceWorkers: 'block',
    locale: 'en-US',
    viewport: { width: 1180, height: 820 },
    trace: 'retain-on-failure',
    launchOptions: { args: browserArgs, ...(executablePath ? { executablePath } : {}) },
  },
})
