import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { findBrowser } from '../../scripts/find-browser.mjs'
import { expect, test } from './serve.ts'

const root = resolve(import.meta.dirname, '../..')
const paper = (args: readonly string[], env: Record<string, string> = {}) =>
  spawnSync(process.execPath, ['scripts/run.mjs', 'src/cli/paper.ts', ...args], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  })

const pdfInfo = (file: string) => {
  const text = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
  const [, wide, high] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(text)!
  return {
    pages: Number(/Pages:\s+(\d+)/.exec(text)?.[1]),
    wide: (Number(wide) / 72) * 25.4,
    high: (Number(high) / 72) * 25.4,
  }
}

for (const [page, wide, high] of [
  ['Letter', 215.9, 279.4],
  ['A4', 210, 297],
] as const)
  test(`the paper command prints each sheet of a job to a PDF of ${wide} × ${high} mm (${page})`, async () => {
    const out = join(mkdtempSync(join(tmpdir(), 'longpoint-pdf-')), 'made by it')
    const { status, stdout, stderr } = paper(
      ['demo-data/ten-sided-pedestal.json', '--out', out, '--page', page],
      { CHROMIUM_PATH: (await findBrowser())! },
    )
    expect([status, stderr]).toEqual([0, ''])
    const said = [...stdout.matchAll(/^(.+): (\d+) pages?$/gm)]
    expect(said.map(([, file]) => file).sort()).toEqual(
      readdirSync(out)
        .map((name) => join(out, name))
        .sort(),
    )
    expect(said.length).toBeGreaterThanOrEqual(4)
    for (const [, file, pages] of said) {
      const info = pdfInfo(file!)
      expect(info.pages, file).toBe(Number(pages))
      expect(info.wide).toBeCloseTo(wide, 0)
      expect(info.high).toBeCloseTo(high, 0)
    }
  })

test('a browser that is not there is one clear line, and nothing is written', () => {
  const out = join(mkdtempSync(join(tmpdir(), 'longpoint-pdf-')), 'none')
  const { status, stdout, stderr } = paper(['demo-data/hexagon-top.json', '--out', out], {
    CHROMIUM_PATH: '/no/such/browser',
  })
  expect([status, stdout]).toEqual([1, ''])
  expect(stderr).toBe('CHROMIUM_PATH names /no/such/browser, which cannot be run.\n')
  expect(() => readdirSync(out)).toThrow()
})
