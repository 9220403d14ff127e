import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import Ajv2020 from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import jobSchema from '../../docs/schemas/tube-job.schema.json'
import planSchema from '../../docs/schemas/tube-plan.schema.json'
import { planCommand } from '../../src/cli/plan-command.ts'
import { spans } from '../../src/cli/plan-text.ts'
import type { TubePlan } from '../../src/cli/tube-plan.ts'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { put } from '../door/sample.ts'
import { changedDemo, demoNames, demoText, outsideOf, planOf } from './shelf.ts'

const root = resolve(fileURLToPath(import.meta.url), '../../..')
const ajv = new Ajv2020({ allErrors: true, strict: true, strictRequired: false })
const isPlan = ajv.compile(planSchema)
const isJob = ajv.compile(jobSchema)

const jsonPlan = async (text: string, ...more: readonly string[]) => {
  const said = await planOf(text, '--json', ...more)
  expect(said).toMatchObject({ code: 0, err: '' })
  return JSON.parse(said.out) as Required<TubePlan>
}

describe('the documents hold against their schemas', () => {
  test.each(demoNames)('%s: the job as it lies in demo-data, and as the door writes it', (name) => {
    expect(isJob(JSON.parse(demoText(name))), JSON.stringify(isJob.errors)).toBe(true)
    const read = readJobFile(demoText(name))
    if (!read.ok) throw new Error(read.problems.map(({ text }) => text).join())
    expect(JSON.parse(writeJobFile(read.value))).toEqual(JSON.parse(demoText(name)))
  })

  test.each(demoNames)('%s: the plan that is printed', async (name) => {
    const plan = await jsonPlan(demoText(name))
    expect(isPlan(plan), JSON.stringify(isPlan.errors?.slice(0, 5))).toBe(true)
  })

  test('a plan with a field too many, one missing or one of a wrong kind does not', async () => {
    const plan = await jsonPlan(demoText('hexagon-top'))
    const damages: readonly (readonly [string, unknown])[] = [
      ['extra', 1],
      ['parts.0.shortPoint', undefined],
      ['run.programs.0.steps.0', { wiggle: 1 }],
      ['nests.0.sticks.0.ends.0', 'sawn'],
      ['parts.0.longPoint', null],
      ['frame.members.0.pose', [1, 2, 3]],
    ]
    for (const [path, value] of damages) expect(isPlan(put(plan, path, value)), path).toBe(false)
  })
})

describe('the plan command', () => {
  test.each(demoNames)('says the same of %s each time', async (name) => {
    expect(await planOf(demoText(name), '--json')).toEqual(await planOf(demoText(name), '--json'))
  })

  test('says parts, steel, set-ups and warnings in words', async () => {
    const { out, err, code } = await planOf(demoText('ten-sided-pedestal'))
    expect({ err, code }).toEqual({ err: '', code: 0 })
    for (const words of [
      'Ten-sided pedestal table, 3 of it',
      'Parts of one',
      '292 mm strong',
      'proved least',
      'S1',
      'Set-ups in the order of work',
      'Band saw: miter 72°',
      'Layout marks',
      'Mind',
      'flare seam',
    ])
      expect(out).toContain(words)
  })

  test('takes the shop from --shop before the one in the file: reading 1/64 gives 13 55/64', async () => {
    const shop = JSON.parse(demoText('hexagon-top')).shop
    const fine = { ...shop, reading: { kind: 'inch-fraction', denominator: 64 } }
    const outside = outsideOf({ 'job.json': demoText('hexagon-top'), 'shop.json': JSON.stringify(fine) })
    const said = await planCommand(['job.json', '--json', '--shop', 'shop.json'], outside)
    // 13.8564 in lies 0.0030 in from 13 55/64 = 13.8594.
    expect(JSON.parse(said.out).parts[0]!.printed.length.text).toBe('13 55/64')
  })

  test('without any shop plans with the starting figures of a shop in the units of the job', async () => {
    const plan = await jsonPlan(changedDemo('hexagon-top', (file) => delete file.shop))
    expect(plan.parts[0]!.printed.length).toMatchObject({ text: '13 7/8', unit: 'in' })
    const metric = await jsonPlan(changedDemo('five-sided-frame', (file) => delete file.shop))
    expect(metric.parts[0]!.printed.length).toMatchObject({ text: '500', unit: 'mm' })
  })

  test('lengths are not rounded: seven sides of 700 across the flats circle are 2 · 350 · tan(180/7)', async () => {
    const plan = await jsonPlan(
      changedDemo('five-sided-frame', (file) =>
        Object.assign(file.job.build.params, { sides: 7, sizeKind: 'across flats', size: 700 }),
      ),
    )
    expect(plan.parts[0]!.longPoint).toBeCloseTo(700 * Math.tan(Math.PI / 7), 9)
    expect(plan.parts[0]!.printed.length.mm).toBe(337)
  })
})

describe('ids in a row', () => {
  test.each([
    ['A1 A2 A3', 'A1 to A3'],
    ['A1 A2', 'A1 A2'],
    ['A1 A2 A4', 'A1 A2 A4'],
    ['E9.b E8.b E7.b', 'E9.b to E7.b'],
    ['D1.m D1 D2.m D2 D3.m D3', 'D1.m to D3.m, D1 to D3'],
    ['A1 B1 A2 B2 A3', 'A1 to A3, B1 B2'],
    ['A3', 'A3'],
    ['', ''],
  ])('%s is said as %s', (ids, said) => {
    expect(spans(ids === '' ? [] : ids.split(' '))).toBe(said)
  })
})

describe('run as a program', () => {
  const run = (...args: readonly string[]) =>
    spawnSync(process.execPath, ['scripts/run.mjs', 'src/cli/plan.ts', ...args], {
      cwd: root,
      encoding: 'utf8',
    })

  test('prints a plan with exit code 0, and on a bad file one line on standard error with exit code 1', () => {
    const folder = mkdtempSync(join(tmpdir(), 'plan-'))
    try {
      const goodRun = run('demo-data/hexagon-top.json', '--json')
      expect(goodRun.stderr).toBe('')
      expect(goodRun.status).toBe(0)
      expect(JSON.parse(goodRun.stdout)).toMatchObject({ format: 'tube-plan', version: 1, quantity: 1 })
      const bad = join(folder, 'bad.json')
      writeFileSync(bad, demoText('hexagon-top').replace('"quantity": 1', '"quantity": 0'))
      const badRun = run(bad, '--json')
      expect(badRun.stdout).toBe('')
      expect(badRun.stderr).toMatch(
        /^[^\n]*job\.quantity is 0; it must be a whole number from 1 to 1000\.\n$/,
      )
      expect(badRun.status).toBe(1)
    } finally {
      rmSync(folder, { recursive: true })
    }
  }, 60_000)
})
