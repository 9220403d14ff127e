import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { planCommand } from '../../src/cli/plan-command.ts'
import type { Outside } from '../../src/cli/planned.ts'
import type { Said } from '../../src/cli/said.ts'

const root = resolve(fileURLToPath(import.meta.url), '../../..')

export const demoNames = ['hexagon-top', 'ten-sided-pedestal', 'five-sided-frame'] as const
export type DemoName = (typeof demoNames)[number]

export const demoText = (name: DemoName): string =>
  readFileSync(resolve(root, `demo-data/${name}.json`), 'utf8')

/** Files by name, in memory; a name that is not there fails as a disk does. */
export function outsideOf(files: Readonly<Record<string, string>>): Outside {
  return {
    read(file) {
      const text = files[file]
      if (text === undefined) throw Object.assign(new Error('no such file'), { code: 'ENOENT' })
      return text
    },
    hash: async (text) => createHash('sha256').update(text).digest('hex'),
  }
}

/** The plan command on one file, `job.json`, with these arguments after it. */
export const planOf = (text: string, ...more: readonly string[]): Promise<Said> =>
  planCommand(['job.json', ...more], outsideOf({ 'job.json': text }))

/** A demo file as JSON holds it, free to be changed into something that is none. */
export interface LooseFile {
  format: string
  version: number
  job: { quantity: number; readonly build: { kind: string; readonly params: Record<string, unknown> } }
  shop?: Record<string, unknown>
  facts?: unknown[]
}

/** The text of a demo file with something in it changed. */
export function changedDemo(name: DemoName, change: (file: LooseFile) => void): string {
  const file = JSON.parse(demoText(name)) as LooseFile
  change(file)
  return JSON.stringify(file)
}
