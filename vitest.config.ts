import react from '@vitejs/plugin-react'
import { defineConfig } from 'vitest/config'

// Two lanes: `vitest run` is the daily one; `vitest run --mode prove` is the long seeded one.
export default defineConfig(({ mode }) =>
  mode === 'prove'
    ? {
        test: {
          include: ['tests/prove/**/*.test.ts'],
          testTimeout: 600_000,
          hookTimeout: 600_000,
          passWithNoTests: true,
        },
      }
    : {
        plugins: [react()],
        test: {
          testTimeout: 20_000,
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
          projects: [
            {
              extends: true,
              test: {
                name: 'plain',
                environment: 'node',
                // Nothing of ours keeps a state of its own in a module: the files of one process share what is loaded.
                isolate: false,
                include: ['tests/**/*.test.ts'],
                exclude: ['tests/prove/**', 'tests/browser/**', 'tests/ui/**'],
                // Printed pages carry their style in them.
                css: { include: [/paper\.css/] },
              },
            },
            {
              extends: true,
              test: {
                name: 'ui',
                environment: 'happy-dom',
                include: ['tests/ui/**/*.test.{ts,tsx}', 'tests/**/*.test.tsx'],
              },
            },
          ],
        },
      },
)
