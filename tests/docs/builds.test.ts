import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename, dirname, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import type { ParamSpec } from '../../src/core/builds/build.ts'
import { builds } from '../../src/core/builds/index.ts'

// docs/builds.md is what the builds say of themselves. After a change of theirs: `npx vitest run tests/docs -u`.

const root = resolve(fileURLToPath(import.meta.url), '../../..')
const formats = readFileSync(resolve(root, 'docs/formats.md'), 'utf8')
const developers = readFileSync(resolve(root, 'DEVELOPERS.md'), 'utf8')

const kinds: Readonly<Record<ParamSpec['type'], string>> = {
  length: 'length, mm or as typed',
  angle: 'angle, degrees',
  count: 'whole number',
  choice: 'one of',
  section: 'section',
  flag: '`true` or `false`',
  text: 'text',
  rows: 'rows of',
}

const code = (text: unknown) => `\`${typeof text === 'string' ? text : JSON.stringify(text)}\``

function kindOf({ type, choices, columns, name }: ParamSpec): string {
  if (choices) return `${kinds[type]} ${choices.map(({ value }) => code(value)).join(', ')}`
  return columns
    ? `${kinds[type]} ${columns.map((column) => code(`${name}[].${column.name}`)).join(', ')}`
    : kinds[type]
}

/** Lengths are bounded in mm, angles in degrees. */
function boundsOf({ least, most, why, type }: ParamSpec): string {
  if (type === 'text') return most === undefined ? '' : `up to ${most} letters`
  const from = least === undefined ? '' : `from ${least}`
  const range = [from, most === undefined ? '' : `to ${most}`].filter(Boolean).join(' ')
  return range && why ? `${range}: ${why}` : range
}

const sectionText = (of: object) =>
  Object.values(of)
    .map((each) => String(each))
    .join(' ')

function startOf({ start, optional, late, type }: ParamSpec): string {
  if (optional) return 'may be left out'
  if (late) return `${startOf({ start, type } as ParamSpec)}, also where it is left out`
  if (type === 'rows') return 'see a new job'
  const say = (value: unknown) =>
    code(typeof value === 'object' && value !== null ? sectionText(value) : value)
  return typeof start === 'object' && 'in' in start && 'mm' in start
    ? `${say(start.in)}; mm ${say(start.mm)}`
    : say(start)
}

const cell = (text: string) => text.replaceAll('|', '\\|')

function row(spec: ParamSpec, within = ''): string[] {
  const { name, label, hint, when, columns = [] } = spec
  const what = [`${label}.`, hint ?? '', when ? '*Only where it applies.*' : ''].filter(Boolean).join(' ')
  const own = [code(within + name), what, kindOf(spec), boundsOf(spec), startOf(spec)].map(cell)
  return [`| ${own.join(' | ')} |`, ...columns.flatMap((column) => row(column, `${name}[].`))]
}

const heads = ['name', 'what it is', 'value', 'possible', 'of a new job']

const page = [
  '# Builds and their parameters',
  '',
  'What `job.build` may hold in a job file, written from the builds themselves. All that applies must be given; what does',
  'not apply may be left out, and is not read. A name that is not listed is refused. What one figure alone cannot tell,',
  'such as a leg too short for its caps, is refused by the build, with what was given and what is possible.',
  ...builds.flatMap(({ kind, title, about, params }) => [
    '',
    `## ${code(kind)}: ${title}`,
    '',
    about,
    '',
    `| ${heads.join(' | ')} |`,
    `|${heads.map(() => ' --- |').join('')}`,
    ...params.flatMap((spec) => row(spec)),
  ]),
  '',
].join('\n')

test('docs/builds.md names every parameter of every build, with what is possible and where a new job starts', async () => {
  await expect(page).toMatchFileSnapshot('../../docs/builds.md')
})

test('it holds figures that are known from elsewhere: 3 to 16 sides, and a lean of 45° at most', () => {
  expect(page).toMatch(/`sides`.*from 3 to 16: a polygon frame has 3 to 16 sides/)
  expect(page).toMatch(/`leanLength`.*from 0 to 45/)
  for (const { kind } of builds) expect(page).toContain(`## \`${kind}\``)
})

/** Whether some file is there by this name: from the root or from src/core, `*` for anything, KIND for a build. */
function there(path: string): boolean {
  const [before = '', after = ''] = basename(path).replace('KIND', builds[0]!.kind).split('*')
  return ['.', 'src/core'].some((from) => {
    const folder = resolve(root, from, dirname(path))
    return (
      existsSync(folder) &&
      readdirSync(folder).some((name) => name.startsWith(before) && name.endsWith(after))
    )
  })
}

test('docs/formats.md knows every build, and every file that DEVELOPERS.md names is there', () => {
  for (const { kind } of builds) expect(formats, kind).toContain(`\`${kind}\``)
  const paths = /`((?:src|tests|docs|builds|frame|saw|check|geometry)\/[\w./*-]+)`/g
  const named = [...developers.matchAll(paths)].map(([, path]) => path!)
  expect(named.length).toBeGreaterThan(40)
  expect(named.filter((path) => !there(path))).toEqual([])
  expect(there('builds/no-such-build*.ts')).toBe(false)
})
