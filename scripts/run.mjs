// Runs a TypeScript entry on Node: `node scripts/run.mjs src/cli/plan.ts ARGS...`
// The bundle is kept under node_modules/.cache and made anew when one of its sources has changed.
// Nothing is printed here on standard output; exit code and streams are the entry's own.
import { mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs'
import { basename, join, relative, resolve } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

const root = resolve(fileURLToPath(import.meta.url), '../..')
const folder = join(root, 'node_modules/.cache/longpoint')

/** @param {string} file @returns {string} changes whenever the file does */
function stamp(file) {
  const { mtimeMs, size } = statSync(join(root, file))
  return `${mtimeMs}/${size}`
}

/** @param {string} list @returns {boolean} whether every source listed there is as it was */
function fresh(list) {
  try {
    const stamps = Object.entries(JSON.parse(readFileSync(list, 'utf8')))
    return stamps.every(([file, then]) => stamp(file) === then)
  } catch {
    return false
  }
}

/** Written beside and then renamed, so that a run at the same moment never reads half a file.
 * @param {string} file @param {string} text */
function put(file, text) {
  const aside = `${file}.${process.pid}`
  writeFileSync(aside, text)
  renameSync(aside, file)
}

/** @param {string} entry @param {string} bundle @param {string} list */
async function make(entry, bundle, list) {
  const { build } = await import('vite')
  const result = await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'silent',
    build: {
      ssr: entry,
      write: false,
      minify: false,
      target: 'node20',
      rolldownOptions: { output: { codeSplitting: false } },
    },
  })
  const chunks = 'output' in result ? result.output.filter((part) => part.type === 'chunk') : []
  const [chunk] = chunks
  if (!chunk || chunks.length !== 1) throw new Error(`${entry} did not become one file`)
  const sources = chunk.moduleIds
    .map((id) => relative(root, id.split('?')[0] ?? id).replaceAll('\\', '/'))
    .filter((file) => /^[\w-]/.test(file) && !file.startsWith('node_modules/'))
  const own = ['package-lock.json', 'scripts/run.mjs']
  const stamps = Object.fromEntries([...sources, ...own].map((file) => [file, stamp(file)]))
  mkdirSync(folder, { recursive: true })
  put(bundle, chunk.code)
  put(list, JSON.stringify(stamps))
}

const [entry, ...args] = process.argv.slice(2)
if (!entry) {
  console.error('usage: node scripts/run.mjs ENTRY ARGS...')
  process.exit(1)
}
const name = basename(entry, '.ts')
const bundle = join(folder, `${name}.mjs`)
const list = join(folder, `${name}.json`)
if (!fresh(list)) await make(entry, bundle, list)
process.argv = [process.execPath, resolve(root, entry), ...args]
await import(pathToFileURL(bundle).href)
