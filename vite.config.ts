import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, resolve, sep } from 'node:path'
import react from '@vitejs/plugin-react'
import { build, defineConfig, type Plugin } from 'vite'
import { contentPolicy } from './scripts/policy.mjs'

/** Every file under `folder`, as forward-slash paths from it, in a fixed order. */
function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort()
}

/** The content policy as a meta tag, in the build only: the development server needs inline scripts. */
function contentPolicyTag(): Plugin {
  return {
    name: 'content-policy-tag',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: contentPolicy },
          injectTo: 'head-prepend',
        },
      ],
    },
  }
}

/**
 * Builds src/pwa/sw.ts to sw.js once the page's own files are written, with the list of all of them.
 * A file under assets/ has its hash in its name, so its address alone identifies it (revision null).
 */
function serviceWorker(): Plugin {
  let outDir = ''
  return {
    name: 'service-worker',
    apply: 'build',
    configResolved(config) {
      outDir = resolve(config.root, config.build.outDir)
    },
    async closeBundle(error?: Error) {
      if (error) return
      const list = filesIn(outDir)
        .filter((file) => file !== 'sw.js' && !file.endsWith('.map'))
        .map((url) => ({
          url,
          revision: url.startsWith('assets/')
            ? null
            : createHash('sha256')
                .update(readFileSync(join(outDir, url)))
                .digest('hex')
                .slice(0, 16),
        }))
      await build({
        configFile: false,
        publicDir: false,
        logLevel: 'warn',
        define: {
          'self.__WB_MANIFEST': JSON.stringify(list),
          'process.env.NODE_ENV': '"production"',
        },
        build: {
          outDir,
          emptyOutDir: false,
          copyPublicDir: false,
          lib: { entry: resolve('src/pwa/sw.ts'), formats: ['iife'], name: 'sw', fileName: () => 'sw.js' },
        },
      })
    },
  }
}

export default defineConfig({
  // Relative, so that the build serves from any folder of any static host.
  base: './',
  plugins: [react(), contentPolicyTag(), serviceWorker()],
  worker: { format: 'es' },
  build: {
    target: 'es2023',
    // A file folded into the page as a data: address could not be listed for the service worker.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // The second page saves what is kept when the first one does not start.
    rolldownOptions: { input: ['index.html', 'rescue.html'] },
  },
})
