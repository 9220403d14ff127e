import { deflateRawSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { parseAngle, parseCount, parseLength } from '../../src/core/reading/parse.ts'
import type { Result } from '../../src/core/result.ts'
import { readSection } from '../../src/core/section/typed.ts'
import { readBackupFile } from '../../src/door/backup-file.ts'
import { readLink } from '../../src/door/carried.ts'
import { readJobFile } from '../../src/door/job-file.ts'
import { toBase64url } from '../../src/door/letters.ts'
import { readNestProblems } from '../../src/door/nest-problem.ts'
import { mostValues } from '../../src/door/tree.ts'
import { inTime } from './fuzz/rounds.ts'
import { put, sampleFile } from './sample.ts'

// What somebody with bad intentions sends first, one test each. In words, in a second of computing (tests/door/fuzz/rounds.ts).

const million = 1_000_000
const refused = (result: Result<unknown>): string => {
  if (result.ok) throw new Error('taken')
  const said = result.problems.map(({ text }) => text).join(' ')
  expect(said.length).toBeLessThan(1500)
  return said
}

test('a fraction of a million digits over a million is no length, angle, count or section', async () => {
  const fraction = `${'7'.repeat(million)}/${'9'.repeat(million)}`
  for (const text of [fraction, `1 ${fraction}`, `${'1'.repeat(million)}.5`, `0.${'3'.repeat(million)}`]) {
    const lengths = await inTime('a million digits', () => parseLength(text, 'in'))
    if (lengths.ok) expect(Number.isFinite(lengths.value.mm)).toBe(true)
    else refused(lengths)
    for (const look of [parseAngle, parseCount, (one: string) => readSection(one, 'in')]) {
      const read: Result<unknown> = await inTime('a million digits', () => look(text))
      if (!read.ok) refused(read)
    }
  }
  expect(refused(parseLength(fraction, 'in'))).toMatch(/[a-z]{3}/)
})

test('a fraction of a million digits in a job file is refused, with where it stands', async () => {
  const size = `${'7'.repeat(million)}/${'9'.repeat(million)}`
  const text = JSON.stringify(put(sampleFile(), 'job.build.params.size', size))
  const read = await inTime('a million digits', () => readJobFile(text))
  expect(refused(read)).toContain('job.build.params.size')
})

test.each(['__proto__', 'constructor', 'prototype'])(
  'a field named %s, at the top, in the job, in a fact or in the params, reaches nothing',
  (key) => {
    for (const path of ['format', 'job.id', 'job.build.params.size', 'facts.0.body']) {
      const marked = JSON.stringify(put(sampleFile(), path, 'MARK'))
      const text = marked.replace('"MARK"', `1,"${key}":{"polluted":true}`)
      expect(text).not.toBe(marked)
      refused(readJobFile(text))
      refused(readBackupFile(text))
    }
    refused(readNestProblems(`{"${key}":{"polluted":true},"stock":[],"parts":[]}`))
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined()
  },
)

test('JSON a hundred thousand levels deep, of lists or of objects, is refused and not followed', async () => {
  for (const [open, close] of [
    ['[', ']'],
    ['{"a":', '}'],
  ] as const) {
    const deep = `${open.repeat(100_000)}1${close.repeat(100_000)}`
    const text = JSON.stringify(put(sampleFile(), 'job.note', 'MARK')).replace('"MARK"', deep)
    for (const door of [readJobFile, readBackupFile])
      refused(await inTime('deep JSON', () => door(text) as Result<unknown>))
    refused(await inTime('deep JSON', () => readJobFile(deep)))
  }
})

test('a link of 1.3 MB that would unpack to a gigabyte stops at 8 MB, and so does one of 40 kB', async () => {
  const small = deflateRawSync(Buffer.alloc(30_000_000, ' '), { level: 9 })
  // 30 MB of spaces are 29 kB so: letters enough for a link that is read.
  const link = `1.${toBase64url(new Uint8Array(small))}`
  expect(link.length).toBeLessThan(60_000)
  const read = await inTime('a bomb', () => readLink(link))
  expect(refused(read)).toContain('unpacks to more than 8000000 bytes')
  // A gigabyte is a megabyte so: longer than any link that is read, so that it is not even unpacked.
  expect(refused(await readLink(`1.${'A'.repeat(1_300_000)}`))).toContain('at most 60000 are read')
})

test('a job of 1e300 copies, of a milliard, of 30,000 rows or of 1.5 million values is refused in words', async () => {
  const marked = JSON.stringify(put(sampleFile(), 'job.build.params.rows', 'MARK'))
  const withRows = (count: number) =>
    marked.replace('"MARK"', `[${'{"count":1,"length":5},'.repeat(count)}{}]`)
  const tooMany = [
    [JSON.stringify(put(sampleFile(), 'job.quantity', 1e300)), 'job.quantity is 1e+300'],
    [JSON.stringify(put(sampleFile(), 'job.quantity', 1_000_000_000)), 'job.quantity is 1000000000'],
    [withRows(30_000), 'a list of at most 2000 rows'],
    [marked.replace('"MARK"', `[${'0,'.repeat(mostValues)}0]`), `more than ${mostValues} values`],
  ] as const
  for (const [text, says] of tooMany)
    expect(refused(await inTime('huge n', () => readJobFile(text)))).toContain(says)
})
