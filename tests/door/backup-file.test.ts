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
    const { shop: _, ...bare } = whole
    expect(readBackupFile(writeBackupFile(bare))).toEqual({ ok: true, value: bare })
    expect(holds(JSON.parse(writeBackupFile(bare)))).toBe(true)
  })

  test.each([
    ['version', 3, /version 3; this program reads version 2/],
    ['jobs', 7, /jobs is 7/],
    ['jobs', undefined, /jobs is missing/],
    ['jobs.1.quantity', 0, /jobs\[1\]\.quantity is 0/],
    ['shop.saws.0.kerf', 2, /kerf/],
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
    expect(result.ok && result.value).toEqual({
      ...whole,
      jobs: [sampleJob],
      facts: result.ok && result.value.facts,
    })
    expect(result.ok && new Set(result.value.facts)).toEqual(new Set(sampleFacts))
  })
})

describe('version 1, a list of job files, as the first version of the program wrote it', () => {
  const file = (id: string, facts: typeof sampleFacts) =>
    JSON.parse(
      writeJobFile({ job: { ...sampleJob, id }, shop: sampleShop, nests: [sampleNest], facts }),
    ) as unknown
  const first = {
    format: 'tube-backup',
    version: 1,
    files: [file('job-1', sampleFacts.slice(0, 8)), file('job-2', sampleFacts.slice(4))],
  }

  test('is read as one: every job, each nest and each fact once, the shop', () => {
    const result = read(first)
    if (!result.ok) throw new Error(result.problems[0]?.text)
    expect(result.value.jobs.map(({ id }) => id)).toEqual(['job-1', 'job-2'])
    expect(result.value.nests).toEqual([sampleNest])
    expect(result.value.facts.map(({ id }) => id)).toEqual(sampleFacts.map(({ id }) => id))
    expect(result.value.shop).toEqual(sampleShop)
  })

  test('with one damaged file is refused whole, and says in which', () => {
    expect(why(put(first, 'files.1.job.quantity', 0))).toMatch(/files\[1\]\.job\.quantity is 0/)
    expect(why(put(first, 'files', 7))).toMatch(/files is 7/)
  })
})
