// What a bench measures must be what is shipped: the test runner reads every import through a getter of its own, which
// makes small functions ten times slower. So the core is built first, as for the app, and loaded from there.
import { pathToFileURL } from 'node:url'
import { build } from 'vite'

const folder = 'node_modules/.cache/bench'

/** The core, built. */
export async function builtCore(): Promise<typeof import('./core.ts')> {
  await build({
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    build: {
      outDir: folder,
      emptyOutDir: false,
      lib: { entry: 'tests/bench/core.ts', formats: ['es'], fileName: () => 'core.mjs' },
    },
  })
  return import(/* @vite-ignore */ `${pathToFileURL(folder).href}/core.mjs`)
}
