// `npm run bench`: size of the build, then tests/bench/*.bench.ts (Node) and tests/bench/*.spec.ts (browser).
// A bench that misses its aim fails by its own expectation; this only runs them all and sums up.
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { installMissing } from './find-browser.mjs'
import { report } from './size.mjs'
import { playwright, root, run, vite, vitest } from './stages.mjs'

const folder = join(root, 'tests/bench')
const files = existsSync(folder) ? readdirSync(folder, { recursive: true }).map(String) : []
/** @type {string[]} */
const missed = []
/** @param {string} name @param {boolean} ok */
const note = (name, ok) => ok || missed.push(name)

const built = await run(vite, ['build', '--logLevel', 'warn'])
note('build', built)
if (built) note('size', report(join(root, 'dist')))
if (files.some((name) => name.endsWith('.bench.ts')))
  note('node benches', await run(vitest, ['bench', '--run', '--project', 'plain']))
note('nests', await run('scripts/run.mjs', ['tests/bench/nest-run.ts']))
if (built && files.some((name) => name.endsWith('.spec.ts'))) {
  await installMissing()
  note('browser benches', await run(playwright, ['test'], { BENCH: '1' }))
}

console.log(missed.length === 0 ? '\nbench: every aim met' : `\nbench: missed: ${missed.join(', ')}`)
process.exit(missed.length === 0 ? 0 : 1)
