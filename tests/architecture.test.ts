// The walls between the folders of src/. Every import counts: values, `import type`, `export ... from`, `import()`,
// and `new URL('./x.ts', import.meta.url)`. The scanner is itself tried on bad text below, so that it can fail.
import { readdirSync, readFileSync } from 'node:fs'
import { join, posix, relative, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const root = resolve(fileURLToPath(import.meta.url), '../..')

interface Wall {
  /** Folders of src/ (or parts of them) that may be imported, besides one's own. */
  readonly folders: readonly string[]
  /** npm packages and Node modules. */
  readonly packages?: RegExp
  /** Data outside src/. */
  readonly data?: RegExp
}

const reactive = /^(react|react-dom)(\/|$)/
const walls: Readonly<Record<string, Wall>> = {
  core: { folders: [], data: /^shared\/reference\/[\w-]+\.json$/ },
  nest: { folders: ['core'], packages: /^highs$/ },
  // The worker only says where the solver's file lies; nest/ calls it.
  worker: { folders: ['core', 'nest'], packages: /^highs\/[\w./-]+\?url$/ },
  door: { folders: ['core'], packages: /^valibot$/ },
  storage: { folders: ['core', 'door'], packages: /^idb$/ },
  app: { folders: ['core', 'door'], packages: /^zustand(\/|$)/, data: /^demo-data\/[\w-]+\.json$/ },
  ui: { folders: ['core', 'app', 'paper'], packages: /^(react|react-dom|zustand|wouter|qr)(\/|$)/ },
  paper: { folders: ['core', 'app', 'ui/drawing'], packages: reactive },
  // One way to find a browser, for the tests and for printing.
  cli: {
    folders: ['core', 'door', 'nest', 'paper'],
    packages: /^node:/,
    data: /^scripts\/find-browser\.mjs$/,
  },
  pwa: { folders: [], packages: /^workbox-/ },
  main: {
    folders: ['core', 'nest', 'worker', 'door', 'storage', 'app', 'ui', 'paper', 'pwa'],
    packages: /^(react|react-dom|wouter)(\/|$)/,
    data: /^demo-data\/[\w-]+\.json$/,
  },
}

/** What a judge may lean on: the documents and plain geometry, never the code that made the plan. */
const judgeMayUse = [
  /^src\/core\/(nest|job|shop|facts|plan-shapes|units|tolerance|result)\.ts$/,
  /^src\/core\/(plan-shapes|geometry|section|units|check)\//,
]

const mostLines = 400

// ---------------------------------------------------------------- scanner

interface Import {
  readonly from: string
  readonly kind: 'value' | 'type' | 'later' | 'address'
}

/** The text with comments blanked; `words` also with the insides of strings blanked (not of `${}` in templates). */
function strip(text: string): { code: string; words: string } {
  let code = ''
  let words = ''
  const both = (piece: string) => {
    code += piece
    words += piece
  }
  const blank = (piece: string) => piece.replace(/[^\n]/g, ' ')
  // Depth of braces at which each open template goes on.
  const templates: number[] = []
  let depth = 0
  let at = 0
  const take = (end: number, inWords: boolean, inCode = true) => {
    const piece = text.slice(at, end)
    code += inCode ? piece : blank(piece)
    words += inWords ? piece : blank(piece)
    at = end
  }
  const template = () => {
    let end = at
    while (end < text.length && text[end] !== '`' && !text.startsWith('${', end))
      end += text[end] === '\\' ? 2 : 1
    take(Math.min(end, text.length), false)
    if (text[at] === '`') take(at + 1, true)
    else if (at < text.length) {
      take(at + 2, true)
      templates.push(depth)
      depth += 1
    }
  }
  while (at < text.length) {
    const letter = text[at] as string
    if (text.startsWith('//', at)) {
      const end = text.indexOf('\n', at)
      take(end < 0 ? text.length : end, false, false)
    } else if (text.startsWith('/*', at)) {
      const end = text.indexOf('*/', at + 2)
      take(end < 0 ? text.length : end + 2, false, false)
    } else if (letter === "'" || letter === '"') {
      let end = at + 1
      while (end < text.length && text[end] !== letter && text[end] !== '\n')
        end += text[end] === '\\' ? 2 : 1
      take(at + 1, true)
      take(Math.min(end, text.length), false)
      if (text[at] === letter) take(at + 1, true)
    } else if (letter === '`') {
      take(at + 1, true)
      template()
    } else if (letter === '/' && /(^|[=(,:[!&|?{};+\n]|\breturn|=>)\s*$/.test(words.slice(-40))) {
      // A regular expression: its quotes open no string.
      const found = /^\/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\n[])+\/\w*/.exec(text.slice(at))
      take(at + (found ? found[0].length : 1), !found)
    } else {
      if (letter === '{') depth += 1
      if (letter === '}') depth -= 1
      both(letter)
      at += 1
      if (letter === '}' && templates.at(-1) === depth) {
        templates.pop()
        template()
      }
    }
  }
  return { code, words }
}

function importsOf(text: string): Import[] {
  const { code } = strip(text)
  const found: Import[] = []
  const statement =
    /\b(?:import|export)\b(\s+type\b(?!\s*,|\s+from\b))?(?:[^'"`;()=]*?\bfrom)?\s*(['"])([^'"\n]+)\2/g
  for (const match of code.matchAll(statement))
    found.push({ from: match[3] ?? '', kind: match[1] ? 'type' : 'value' })
  for (const match of code.matchAll(/\b(?:import|require)\s*\(\s*(?:(['"`])([^'"`\n]*)\1\s*[,)])?/g))
    found.push({ from: match[2] ?? '(not a plain text)', kind: 'later' })
  for (const match of code.matchAll(/\bnew\s+URL\s*\(\s*(['"`])([^'"`\n]*)\1\s*,\s*import\.meta\.url/g))
    found.push({ from: match[2] ?? '', kind: 'address' })
  return found
}

/** Where an import leads: a path from the root for a relative one, else the package with its path. */
function target(file: string, { from }: Import): { path: string } | { pkg: string } {
  return from.startsWith('.')
    ? { path: posix.normalize(posix.join(posix.dirname(file), from.replace(/\?.*$/, ''))) }
    : { pkg: from }
}

const folderOf = (file: string): string =>
  /^src\/main\.tsx?$/.test(file) ? 'main' : (/^src\/([^/]+)\//.exec(file)?.[1] ?? `no folder (${file})`)

const inside = (path: string, folder: string) => path.startsWith(`src/${folder}/`)

type Sources = ReadonlyMap<string, string>

function wallFaults(sources: Sources): string[] {
  const faults: string[] = []
  for (const [file, text] of sources) {
    const folder = folderOf(file)
    const wall = walls[folder]
    if (!wall) {
      faults.push(`${file}: stands in no folder of the layout`)
      continue
    }
    for (const found of importsOf(text)) {
      const to = target(file, found)
      const allowed =
        'pkg' in to
          ? wall.packages?.test(to.pkg)
          : inside(to.path, folder) ||
            wall.folders.some((other) => inside(to.path, other)) ||
            wall.data?.test(to.path)
      if (!allowed) faults.push(`${file}: ${folder} may not import ${'pkg' in to ? to.pkg : to.path}`)
      if ('path' in to && !/\.(tsx?|mjs|json|css|svg|png|woff2|wasm)$/.test(to.path))
        faults.push(`${file}: write the ending of ${found.from}`)
    }
  }
  return faults
}

function judgeFaults(sources: Sources): string[] {
  const faults: string[] = []
  for (const [file, text] of sources) {
    if (!inside(file, 'core/check')) continue
    for (const found of importsOf(text)) {
      const to = target(file, found)
      if ('pkg' in to || !judgeMayUse.some((known) => known.test(to.path)))
        faults.push(`${file}: a judge may not import ${'pkg' in to ? to.pkg : to.path}`)
    }
  }
  return faults
}

/** What runs when a judge runs, however far away, is neither the nest's code nor the set-ups' nor their account of sticks. */
function judgeReachFaults(sources: Sources): string[] {
  const way = new Map<string, string>()
  const queue = [...sources.keys()].filter((file) => inside(file, 'core/check'))
  for (const file of queue) way.set(file, file)
  for (let file = queue.pop(); file !== undefined; file = queue.pop())
    for (const found of importsOf(sources.get(file) ?? '').filter(countsAtRunTime)) {
      const to = target(file, found)
      if ('pkg' in to || way.has(to.path)) continue
      way.set(to.path, `${way.get(file)} -> ${to.path}`)
      if (sources.has(to.path)) queue.push(to.path)
    }
  return [...way]
    .filter(
      ([file]) => inside(file, 'nest') || inside(file, 'core/saw') || file.endsWith('core/stick-room.ts'),
    )
    .map(([, steps]) => steps)
}

/** Who may run what a judge runs: who asks for a verdict, and the solver for what its proofs are measured by. */
const judgesCalled: readonly (readonly [RegExp, RegExp])[] = [
  [/^src\/core\/plan\.ts$/, /\/check-(nest|run)\.ts$/],
  [/^src\/nest\//, /\/(certificate|stick-sums)\.ts$/],
]

/** What plans does not reckon by the judges' own account, or a slip in it would be judged by itself. */
function planFaults(sources: Sources): string[] {
  return [...sources].flatMap(([file, text]) =>
    inside(file, 'core/check')
      ? []
      : importsOf(text)
          .filter(countsAtRunTime)
          .map((found) => target(file, found))
          .flatMap((to) => ('path' in to && inside(to.path, 'core/check') ? [to.path] : []))
          .filter((path) => !judgesCalled.some(([who, what]) => who.test(file) && what.test(path)))
          .map((path) => `${file}: only a judge reckons by ${path}`),
  )
}

const impure: readonly (readonly [RegExp, string])[] = [
  [/(?<![.\w$])Date\b/, 'Date (pass the clock in)'],
  [/\bMath\s*(\.\s*random\b|\[)/, 'Math.random (pass the seed in)'],
  [/(?<![.\w$])performance\s*[.[]/, 'performance (pass the clock in)'],
  [/(?<![.\w$])console\s*[.[]/, 'console'],
  [/(?<![.\w$])crypto\s*[.[]/, 'crypto (pass the ids in)'],
  [/(?<![.\w$])(setTimeout|setInterval|queueMicrotask)\s*\(/, 'a timer'],
  [/(?<![.\w$])(globalThis|window|self|document|process)\s*[.[]/, 'the outside world'],
]

function purityFaults(sources: Sources): string[] {
  const faults: string[] = []
  for (const [file, text] of sources) {
    if (!inside(file, 'core') && !inside(file, 'nest')) continue
    const { words } = strip(text)
    for (const [pattern, name] of impure) if (pattern.test(words)) faults.push(`${file}: uses ${name}`)
  }
  return faults
}

/** Every ring of imports, each named once; `counts` says which imports tie files together. */
function rings(sources: Sources, counts: (found: Import) => boolean): string[] {
  const next = new Map<string, string[]>()
  for (const [file, text] of sources) {
    const to = importsOf(text)
      .filter(counts)
      .map((found) => target(file, found))
    next.set(file, [
      ...new Set(to.flatMap((end) => ('path' in end && sources.has(end.path) ? [end.path] : []))),
    ])
  }
  const done = new Set<string>()
  const faults: string[] = []
  const visit = (file: string, way: readonly string[]) => {
    const start = way.indexOf(file)
    if (start >= 0) faults.push([...way.slice(start), file].join(' -> '))
    if (start >= 0 || done.has(file)) return
    for (const to of next.get(file) ?? []) visit(to, [...way, file])
    done.add(file)
  }
  for (const file of sources.keys()) visit(file, [])
  return faults
}

const countsAtRunTime = ({ kind }: Import) => kind === 'value' || kind === 'later'

const lengthFaults = (sources: Sources) =>
  [...sources]
    .map(([file, text]) => [file, text.replace(/\n$/, '').split('\n').length] as const)
    .filter(([, lines]) => lines > mostLines)
    .map(([file, lines]) => `${file}: ${lines} lines, at most ${mostLines}`)

// ---------------------------------------------------------------- the real files

function readSources(): Sources {
  const files = readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|tsx|js|mjs|jsx)$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort()
  return new Map(files.map((file) => [file, readFileSync(join(root, file), 'utf8')]))
}

describe('the walls of src/', () => {
  const sources = readSources()

  test('there are files to look at, in every folder of the layout', () => {
    const seen = new Set([...sources.keys()].map(folderOf))
    expect(Object.keys(walls).filter((folder) => !seen.has(folder))).toEqual([])
  })
  test('each folder imports only what it may', () => expect(wallFaults(sources)).toEqual([]))
  test('the judges import documents and geometry only', () => expect(judgeFaults(sources)).toEqual([]))
  test('nothing that a judge runs leads to the nest or the set-ups', () =>
    expect(judgeReachFaults(sources)).toEqual([]))
  test('no plan is made by the account of those that judge it', () => expect(planFaults(sources)).toEqual([]))
  test('core and nest have no clock, no dice, no console, no outside world', () =>
    expect(purityFaults(sources)).toEqual([]))
  test('no files import each other in a ring', () => expect(rings(sources, countsAtRunTime)).toEqual([]))
  test('in core not even types go round in a ring', () => {
    const core = new Map([...sources].filter(([file]) => inside(file, 'core')))
    expect(rings(core, () => true)).toEqual([])
  })
  test(`no file is longer than ${mostLines} lines`, () => expect(lengthFaults(sources)).toEqual([]))
})

// ---------------------------------------------------------------- the scanner on bad text

const one = (file: string, text: string): Sources => new Map([[file, text]])

describe('the scanner sees', () => {
  test.each([
    ["import { a } from './a.ts'", './a.ts', 'value'],
    ["import{a}from'./a.ts'", './a.ts', 'value'],
    ["import a, { type B } from './a.ts'", './a.ts', 'value'],
    ["import { type B } from './a.ts'", './a.ts', 'value'],
    ["import * as a from './a.ts'", './a.ts', 'value'],
    ["import './a.css'", './a.css', 'value'],
    ['import {\n  a,\n  b,\n} from "./a.ts"', './a.ts', 'value'],
    ["import type { A } from './a.ts'", './a.ts', 'type'],
    ["import type A from './a.ts'", './a.ts', 'type'],
    ["import type * as A from './a.ts'", './a.ts', 'type'],
    ["import type, { a } from './a.ts'", './a.ts', 'value'],
    ["export { a } from './a.ts'", './a.ts', 'value'],
    ["export * from './a.ts'", './a.ts', 'value'],
    ["export type { A } from './a.ts'", './a.ts', 'type'],
    ["const a = await import('./a.ts')", './a.ts', 'later'],
    ["let a: import('./a.ts').A", './a.ts', 'later'],
    ['const a = import(`./a.ts`)', './a.ts', 'later'],
    ["const a = require('./a.ts')", './a.ts', 'later'],
    ['const a = import(name)', '(not a plain text)', 'later'],
    ["new Worker(new URL('./worker.ts', import.meta.url))", './worker.ts', 'address'],
    ["const quote = /['\"]/\nimport { a } from './a.ts'", './a.ts', 'value'],
    ["const t = `${'`'}`\nimport { a } from './a.ts'", './a.ts', 'value'],
  ])('%j', (text, from, kind) => expect(importsOf(text)).toEqual([{ from, kind }]))

  test.each([
    "// import { a } from './a.ts'",
    "/* import { a } from './a.ts' */",
    "/**\n * import { a } from './a.ts'\n */",
    "export const from = './a.ts'",
    "export interface A {\n  from: 'stick' | 'rack'\n}",
    'export function a(from = "rack") {}',
    'const here = import.meta.url',
  ])('no import in %j', (text) => expect(importsOf(text)).toEqual([]))
})

describe('the walls stop', () => {
  test.each([
    ['src/core/a.ts', "import { useState } from 'react'", 'core may not import react'],
    ['src/core/a.ts', "import type { Nest } from '../nest/b.ts'", 'core may not import src/nest/b.ts'],
    ['src/core/saw/a.ts', "export * from '../../app/b.ts'", 'core may not import src/app/b.ts'],
    ['src/core/a.ts', "import fs from 'node:fs'", 'core may not import node:fs'],
    [
      'src/core/a.ts',
      "import data from '../../demo-data/hexagon.json'",
      'core may not import demo-data/hexagon.json',
    ],
    ['src/core/a.ts', "import { a } from '../corepart/b.ts'", 'core may not import src/corepart/b.ts'],
    ['src/nest/a.ts', "import { job } from '../door/b.ts'", 'nest may not import src/door/b.ts'],
    ['src/door/a.ts', "import { open } from 'idb'", 'door may not import idb'],
    ['src/app/a.ts', "import { open } from 'idb'", 'app may not import idb'],
    ['src/app/a.ts', "import { keep } from '../storage/b.ts'", 'app may not import src/storage/b.ts'],
    ['src/app/a.ts', "new Worker(new URL('../worker/worker.ts', import.meta.url))", 'src/worker/worker.ts'],
    ['src/ui/a.tsx', "import { solve } from '../nest/b.ts'", 'ui may not import src/nest/b.ts'],
    ['src/paper/a.tsx', "import { Saw } from '../ui/saw/b.tsx'", 'paper may not import src/ui/saw/b.tsx'],
    ['src/pwa/a.ts', "import { a } from '../app/b.ts'", 'pwa may not import src/app/b.ts'],
    ['src/worker/a.ts', "import highs from 'highs'", 'worker may not import highs'],
    ['src/cli/a.ts', 'const a = import(name)', 'cli may not import (not a plain text)'],
    ['src/helpers/a.ts', '', 'stands in no folder'],
    ['src/stray.ts', '', 'stands in no folder'],
    ['src/ui/a.tsx', "import { a } from './b'", 'write the ending of ./b'],
  ])('%s: %s', (file, text, fault) => expect(wallFaults(one(file, text)).join('\n')).toContain(fault))

  test.each([
    ['src/core/a.ts', "import table from '../../shared/reference/sections_us.json'"],
    ['src/core/check/a.ts', "import type { Nest } from '../nest.ts'"],
    ['src/nest/a.ts', "import highs from 'highs'\nimport { mm } from '../core/units.ts'"],
    ['src/worker/a.ts', "import address from 'highs/runtime?url'"],
    ['src/paper/a.tsx', "import { Plan } from '../ui/drawing/plan.tsx'"],
    ['src/main.tsx', "import { openStore } from './storage/store.ts'"],
  ])('but not %s: %s', (file, text) => expect(wallFaults(one(file, text))).toEqual([]))

  test.each([
    "import { run } from '../saw/run.ts'",
    "import type { SetUp } from '../saw/set-up.ts'",
    "import { solve } from '../../nest/solve.ts'",
    "import { plan } from '../plan.ts'",
    "import { build } from '../frame/member.ts'",
    "import { min } from 'somewhere'",
  ])('a judge with %s', (text) => expect(judgeFaults(one('src/core/check/nest.ts', text))).toHaveLength(1))

  test('a judge that reaches the set-ups by a detour, but not one that reads their types', () => {
    const detour = (text: string) =>
      new Map([
        ['src/core/check/run.ts', "import { fold } from '../facts.ts'"],
        ['src/core/facts.ts', text],
        ['src/core/saw/run.ts', ''],
      ])
    expect(judgeReachFaults(detour("import { run } from './saw/run.ts'"))).toEqual([
      'src/core/check/run.ts -> src/core/facts.ts -> src/core/saw/run.ts',
    ])
    expect(judgeReachFaults(detour("import type { Run } from './saw/run.ts'"))).toEqual([])
  })

  test.each([
    ['src/app/rest.ts', "import { front } from '../core/check/room.ts'", 1],
    ['src/nest/a.ts', "import { front } from '../core/check/room.ts'", 1],
    ['src/nest/a.ts', "import { checkCertificate } from '../core/check/certificate.ts'", 0],
    ['src/core/plan.ts', "import { checkNest } from './check/check-nest.ts'", 0],
    ['src/cli/a.ts', "import type { Certificate } from '../core/check/certificate.ts'", 0],
  ])('%s that plans by the account of a judge: %s', (file, text, faults) =>
    expect(planFaults(one(file, text))).toHaveLength(faults),
  )

  test('a judge may read documents and geometry', () =>
    expect(
      judgeFaults(
        one(
          'src/core/check/nest.ts',
          "import type { Nest } from '../nest.ts'\nimport { dot } from '../geometry/vec3.ts'\nimport { a } from './run.ts'",
        ),
      ),
    ).toEqual([]))

  test.each([
    'const t = Date.now()',
    'const t = new Date()',
    'const r = Math.random()',
    "const r = Math['random']()",
    'const t = performance.now()',
    "console.log('x')",
    'const id = crypto.randomUUID()',
    'const s = `at ${Date.now()}`',
    'setTimeout(() => {}, 1)',
    'globalThis.localStorage.clear()',
    'const quote = /["\']/; const t = Date.now()',
  ])('impure text in core and nest: %s', (text) => {
    expect(purityFaults(one('src/core/a.ts', text))).toHaveLength(1)
    expect(purityFaults(one('src/nest/a.ts', text))).toHaveLength(1)
    expect(purityFaults(one('src/app/a.ts', text))).toEqual([])
  })

  test.each([
    '// the Date is passed in, never Date.now()',
    "const text = 'console.log and Math.random'",
    'const text = `Date.now()`',
    'const date = shop.performance.best',
    'const update = 1',
  ])('but not %s', (text) => expect(purityFaults(one('src/core/a.ts', text))).toEqual([]))

  test('rings of two, of three and of one, but no ring by types at run time', () => {
    const two = (first: string) =>
      new Map([
        ['src/core/a.ts', first],
        ['src/core/b.ts', "import { a } from './a.ts'"],
      ])
    expect(rings(two("import { b } from './b.ts'"), countsAtRunTime)).toEqual([
      'src/core/a.ts -> src/core/b.ts -> src/core/a.ts',
    ])
    expect(rings(two("import type { B } from './b.ts'"), countsAtRunTime)).toEqual([])
    expect(rings(two("import type { B } from './b.ts'"), () => true)).toHaveLength(1)
    expect(rings(one('src/core/a.ts', "export * from './a.ts'"), countsAtRunTime)).toHaveLength(1)
    const three = new Map([
      ['src/app/a.ts', "import './b.ts'"],
      ['src/app/b.ts', "import('./c.ts')"],
      ['src/app/c.ts', "export { a } from './a.ts'"],
    ])
    expect(rings(three, countsAtRunTime)).toHaveLength(1)
  })

  test('a file of 401 lines, not one of 400', () => {
    expect(lengthFaults(one('src/core/a.ts', 'x\n'.repeat(401)))).toHaveLength(1)
    expect(lengthFaults(one('src/core/a.ts', 'x\n'.repeat(400)))).toEqual([])
  })
})
