import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { plan } from '../../src/core/plan.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { type Codes, readCodes, readLink, withCode } from '../../src/door/carried.ts'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'

// Job files, links and codes as the programs of each version wrote them. A fixture is never changed and never taken away:
// somewhere such a file lies on a stick. Backups: backup-file.test.ts; databases: tests/storage/schema.test.ts.

const fixture = (name: string): string =>
  readFileSync(new URL(`./fixtures/${name}.json`, import.meta.url), 'utf8')

test('a job file of version 1 is read to the last field, and written back the same', () => {
  const read = readJobFile(fixture('job-v1'))
  if (!read.ok) throw new Error(read.problems[0]?.text)
  expect(JSON.parse(writeJobFile(read.value))).toEqual(JSON.parse(fixture('job-v1')))
  expect(read.value).toMatchObject({ job: { name: 'Side table', quantity: 2 }, shop: { leastDrop: 150 } })
})

test('a job file with parts that are wanted from one stick, which older ones lack, is read and planned so', () => {
  const read = readJobFile(fixture('job-v1-one-stick'))
  if (!read.ok) throw new Error(read.problems[0]?.text)
  expect(JSON.parse(writeJobFile(read.value))).toEqual(JSON.parse(fixture('job-v1-one-stick')))
  const planned = plan(read.value.job, startShop('mm'))
  if (!planned.ok) throw new Error(planned.problems[0]?.text)
  const { parts } = planned.value.demand[0]!
  expect(parts.map(({ mark, count, same }) => [mark, count, same])).toEqual([
    ['A', 2, 'job-1/A/1'],
    ['A', 2, 'job-1/A/2'],
    ['B', 2, 'job-1/B/1'],
    ['B', 2, 'job-1/B/2'],
  ])
})

test('a link and codes of version 1 carry the job of that file and what happened to it', async () => {
  const { link, codes } = JSON.parse(fixture('carried-v1')) as { link: string; codes: string[] }
  const { job, facts } = JSON.parse(fixture('job-v1')) as { job: unknown; facts: unknown[] }
  const carried = await readLink(link)
  if (!carried.ok) throw new Error(carried.problems[0]?.text)
  expect(readJobFile(carried.value)).toEqual({ ok: true, value: { job, facts } })
  let read: Codes | null = null
  for (const code of codes) {
    const next = withCode(read, code)
    if (!next.ok) throw new Error(next.problems[0]?.text)
    read = next.value
  }
  expect(await readCodes(read!)).toEqual(carried)
})
