import { readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import backupSchema from '../../docs/schemas/tube-backup.schema.json'
import jobSchema from '../../docs/schemas/tube-job.schema.json'
import { readBackupFile, writeBackupFile } from '../../src/door/backup-file.ts'
import { writeJobFile } from '../../src/door/job-file.ts'
import { put, sampleFacts, sampleJob, sampleNest, sampleShop } from './sample.ts'

const holds = new Ajv2020({ allErrors: true, strict: true, strictRequired: false })
  .addSchema(jobSchema)
  .compile(backupSchema)

const whole = {
  shop: sampleShop,
  otherShops: [{ ...sampleShop, name: 'Shop as the other tab has it' }],
  jobs: [sampleJob, { ...sampleJob, id: 'job-2' }],
  nests: [sampleNest],
  facts: sampleFacts,
}
const document = () => JSON.parse(writeBackupFile(whole)) as unknown
const read = (value: unknown) => readBackupFile(JSON.stringify(value))
const why = (value: unknown) => {
  const result = read(value)
  return result.ok ? 'taken' : result.problems.map(({ text }) => text).join(' ')
}

describe('a backup', () => {
  test('is read back to the same, and is what its schema says; so is one without a shop', () => {
    expect(readBackupFile(writeBackupFile(whole))).toEqual({ ok: true, value: whole })
    expect(holds(document()), JSON.stringify(holds.errors)).toBe(true)
    const { shop: _, otherShops: __, ...bare } = whole
    expect(readBackupFile(writeBackupFile(bare))).toEqual({ ok: true, value: bare })
    expect(holds(JSON.parse(writeBackupFile(bare)))).toBe(true)
  })

  test.each([
    ['version', 4, /version 4; this program reads version 3/],
    ['jobs', 7, /jobs is 7/],
    ['jobs', undefined, /jobs is missing/],
    ['jobs.1.quantity', 0, /jobs\[1\]\.quantity is 0/],
    ['shop.saws.0.kerf', 2, /kerf/],
    ['otherShops', 7, /otherShops is 7/],
    ['otherShops.0.saws.0.kerf', 2, /otherShops\[0\].*kerf/],
    ['nests.0.version', 2, /nests\[0\]\.version is 2/],
    ['facts.0.seq', -1, /facts\[0\]\.seq is -1/],
    ['files', [], /files/],
  ])('with %s as %j is refused whole, by schema and door', (path, value, text) => {
    const damaged = put(document(), path, value)
    expect(why(damaged)).toMatch(text)
    expect(holds(damaged)).toBe(false)
  })

  test('that is no JSON, nothing, or something else is refused with the reason', () => {
    const of = (text: string) => {
      const result = readBackupFile(text)
      return result.ok ? 'taken' : result.problems[0]!.text
    }
    expect(of('')).toMatch(/no backup: it is empty/)
    expect(of('{"a":')).toMatch(/not JSON/)
    expect(of('null')).toMatch(/no job file: it holds null/)
    expect(of('{"format":"tube-plan"}')).toMatch(/"format" is "tube-plan"/)
  })

  test('a single job file is a backup of one', () => {
    const text = writeJobFile({ job: sampleJob, shop: sampleShop, nests: [sampleNest], facts: sampleFacts })
    const result = readBackupFile(text)
    const { otherShops: _, ...one } = whole
    expect(result.ok && result.value).toEqual({
      ...one,
      jobs: [sampleJob],
      facts: result.ok && result.value.facts,
    })
    expect(result.ok && new Set(result.value.facts)).toEqual(new Set(sampleFacts))
  })
})

/** As a program of that version wrote it. Never changed, and never taken away. */
const fixture = (name: string): string =>
  readFileSync(new URL(`./fixtures/${name}.json`, import.meta.url), 'utf8')

describe('a file of an older version', () => {
  test('1, a list of job files, is read as one: every job, each nest and each fact once, the shop', () => {
    const result = readBackupFile(fixture('backup-v1'))
    if (!result.ok) throw new Error(result.problems[0]?.text)
    expect(result.value.jobs.map(({ id }) => id)).toEqual(['job-1', 'job-2'])
    expect(result.value.nests.map(({ id }) => id)).toEqual([sampleNest.id])
    expect(result.value.facts.map(({ id }) => id)).toEqual(sampleFacts.map(({ id }) => id))
    expect(result.value.shop?.name).toBe('A shop for tests')
  })

  test('1 with one damaged file is refused whole, and says in which', () => {
    const first = JSON.parse(fixture('backup-v1')) as unknown
    expect(why(put(first, 'files.1.job.quantity', 0))).toMatch(/files\[1\]\.job\.quantity is 0/)
    expect(why(put(first, 'files', 7))).toMatch(/files is 7/)
  })

  test('2, without a place for a second shop, is read to the same, and knows no field of version 3', () => {
    const second = JSON.parse(fixture('backup-v2')) as Record<string, unknown>
    const { format: _, version: __, ...file } = second
    expect(read(second)).toEqual({ ok: true, value: file })
    expect(why({ ...second, otherShops: [sampleShop] })).toMatch(/otherShops/)
  })

  test('every version that was ever written has its fixture, and the newest is what is written now', () => {
    for (let version = 1; version <= 3; version++)
      expect(readBackupFile(fixture(`backup-v${version}`)).ok, `version ${version}`).toBe(true)
    const newest = readBackupFile(fixture('backup-v3'))
    if (!newest.ok) throw new Error(newest.problems[0]?.text)
    expect(JSON.parse(writeBackupFile(newest.value))).toEqual(JSON.parse(fixture('backup-v3')))
    expect(newest.value.otherShops).toHaveLength(1)
  })
})
