import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, test } from 'vitest'

// A station loads its own style sheet when it is first opened. A class that is styled only in the sheet of another
// station looks right to whoever has been there before, and naked on a first visit.

const ui = 'src/ui'

const filesOf = (end: string): readonly string[] =>
  readdirSync(ui, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(end))
    .map((name) => join(ui, name))

const textOf = (file: string) => readFileSync(file, 'utf8')

/** The sheets that a file brings with it: those imported, and those that they import. */
function sheetsOf(file: string): readonly string[] {
  const pattern = file.endsWith('.css') ? /@import "([^"]+\.css)"/g : /^import '([^']+\.css)'/gm
  const own = [...textOf(file).matchAll(pattern)].map((match) => join(dirname(file), match[1]!))
  return own.flatMap((sheet) => [sheet, ...sheetsOf(sheet)])
}

const classesOf = (sheets: Iterable<string>): ReadonlySet<string> =>
  new Set(
    [...sheets].flatMap((sheet) =>
      [...textOf(sheet).matchAll(/\.([a-zA-Z][\w-]*)/g)].map((match) => match[1]!),
    ),
  )

const components = filesOf('.tsx')

/** The shell, and Jobs, which the shell brings in with the first page. */
const first = [join(ui, 'shell/shell.tsx'), join(ui, 'jobs/jobs.tsx')].flatMap(sheetsOf)

const sheetsIn = (folder: string): ReadonlySet<string> =>
  new Set([...first, ...components.filter((file) => dirname(file) === folder).flatMap(sheetsOf)])

const used = (file: string): readonly string[] =>
  [...textOf(file).matchAll(/className="([^"]+)"/g)].flatMap((match) => match[1]!.split(' '))

describe('every class is styled by a sheet that comes with its component', () => {
  const styled = classesOf(filesOf('.css'))
  for (const folder of new Set(components.map((file) => dirname(file))))
    test(folder, () => {
      const here = classesOf(sheetsIn(folder))
      const naked = components
        .filter((file) => dirname(file) === folder)
        .flatMap((file) => used(file).map((name) => `${name} in ${file}`))
        .filter((line) => styled.has(line.split(' ')[0]!) && !here.has(line.split(' ')[0]!))
      expect(naked).toEqual([])
    })

  test('the sheets are found: the first page brings five, Weld the floor sheet too', () => {
    expect(first).toContain(join(ui, 'theme.css'))
    expect(first).toContain(join(ui, 'jobs/jobs.css'))
    expect(sheetsIn(join(ui, 'weld'))).toContain(join(ui, 'saw/floor.css'))
  })
})

/** Classes that a sheet lays out wherever they stand: first in a selector. A query around them changes nothing. */
const laidOutBy = (sheet: string): ReadonlySet<string> =>
  new Set(
    [
      ...textOf(sheet)
        .replaceAll(/\/\*[\s\S]*?\*\//g, '')
        .matchAll(/(?:^|[,{}])\s*\.([a-zA-Z][\w-]*)(?=[^{}()]*\{)/g),
    ].map((match) => match[1]!),
  )

test('no two stations lay out the same class: a sheet stays when its station is left', () => {
  const sheets = [...filesOf('.css').filter((file) => !first.includes(file)), 'src/paper/paper.css']
  const folders = new Map<string, Set<string>>()
  for (const sheet of sheets)
    for (const name of laidOutBy(sheet)) {
      // The sheets on the screen and on paper of one station.
      const folder = dirname(sheet).replace('src/ui/paper', 'src/paper')
      folders.set(name, (folders.get(name) ?? new Set<string>()).add(folder))
    }
  expect(folders.size).toBeGreaterThan(200)
  expect([...folders].filter(([, own]) => own.size > 1).map(([name, own]) => [name, ...own])).toEqual([])
})
