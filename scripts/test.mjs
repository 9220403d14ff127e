// `npm test`: types, lint, unit and published checks, build, browser tests. Every stage runs, so that one
// run tells all that is wrong; a stage without tests of its own counts as one failure when it fails.
import { findBrowser, installMissing } from './find-browser.mjs'
import { biome, close, run, runPlaywright, runVitest, vite } from './stages.mjs'

const started = Date.now()
const total = { passed: 0, failed: 0 }
/** @type {string[]} */
const broken = []

/** @param {string} name @param {{ passed: number, failed: number }} counts */
function add(name, counts) {
  total.passed += counts.passed
  total.failed += counts.failed
  if (counts.failed > 0) broken.push(`${name} (${counts.failed})`)
}
/** @param {string} name @param {boolean} ok */
const must = (name, ok) => add(name, { passed: 0, failed: ok ? 0 : 1 })

const browser = (await installMissing()) ?? (await findBrowser())
must('types', await run('scripts/types.mjs'))
must('lint', await run(biome, ['check', '--error-on-warnings', '.']))
add('unit', await runVitest([]))
const built = await run(vite, ['build'])
must('build', built)
if (!browser) console.error('No browser: the browser tests cannot run.')
if (built && browser) add('browser', await runPlaywright())
else must('browser', false)

console.log(`\n${Math.round((Date.now() - started) / 1000)} s`)
if (broken.length > 0) console.log(`Failed: ${broken.join(', ')}`)
close(total)
