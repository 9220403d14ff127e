import { defineConfig } from '@playwright/test'
import { browserArgs, findBrowser } from './scripts/find-browser.mjs'

const executablePath = await findBrowser()

export default defineConfig({
  testDir: process.env.BENCH ? 'tests/bench' : 'tests/browser',
  testMatch: '**/*.spec.ts',
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
    locale: 'en-US',
    viewport: { width: 1180, height: 820 },
    trace: 'retain-on-failure',
    launchOptions: { args: browserArgs, ...(executablePath ? { executablePath } : {}) },
  },
})
