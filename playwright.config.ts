import { defineConfig } from '@playwright/test'
import { browserArgs, findBrowser } from './scripts/find-browser.mjs'

const executablePath = await findBrowser()

/**
 * What `npm run prove` does and `npm test` leaves out, to stay under its ten minutes: an upright tablet and a desk (it looks
 * at a tablet that lies and at a phone), the daylight theme, the second size of paper, the camera, the longer ways of a
 * new version and of shared files, the kills of the browser, a host's inner folder,
 * the rarer states of the saw, a finger on the solid view, every sheet read back from its PDF.
 */
const others =
  /820 × 1180|1440 × 900|in daylight|on A4|297 mm \(A4\)|the camera reads|still waits and asks|new version let in at the desk|at 390 × 844 a test on scraps|is looked at, then opened, with|says what it holds, and is opened|kills of the browser|from a folder of a folder|damaged figures of the shop|states of the saw at 390|end of the saw|every sheet printed|a finger turns the solid view/

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
    // Watching every test costs a quarter of its time: one that is run again is watched.
    trace: 'on-first-retry',
    launchOptions: { args: browserArgs, ...(executablePath ? { executablePath } : {}) },
  },
})
