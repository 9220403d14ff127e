// A build is one file and one line: nothing else in the program asks for one of them by its name.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { builds } from '../../../src/core/builds/index.ts'

const sources = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name)
    return entry.isDirectory() ? sources(path) : /\.tsx?$/.test(entry.name) ? [path] : []
  })

/** These words also name other things: a rack of drops, and what is typed as a cut list. */
const otherSense = new Set(['rack', 'cut-list'])

test('outside its own files no build is named, save in the list of builds and where the words mean something else', () => {
  const kinds = builds.map(({ kind }) => kind).filter((kind) => !otherSense.has(kind))
  expect(kinds.length).toBeGreaterThan(6)
  const files = sources('src').filter((path) => !path.includes(join('core', 'builds')))
  expect(files.length).toBeGreaterThan(300)
  const named = files.flatMap((path) => {
    const text = readFileSync(path, 'utf8')
    return kinds.filter((kind) => text.includes(`'${kind}'`)).map((kind) => `${path}: ${kind}`)
  })
  expect(named).toEqual([])
})

test('of the others too nothing asks what kind a job’s build is', () => {
  const asking = /build\.kind\s*[!=]==?\s*['"]/
  expect(sources('src').filter((path) => asking.test(readFileSync(path, 'utf8')))).toEqual([])
  // The test would see one.
  expect(asking.test("if (job.build.kind === 'rack') return")).toBe(true)
})
