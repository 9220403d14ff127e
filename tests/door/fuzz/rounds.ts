import { readFileSync } from 'node:fs'
import { expect } from 'vitest'
import { cutList } from '../../../src/core/builds/cut-list.ts'
import { fold } from '../../../src/core/facts/fold.ts'
import { union } from '../../../src/core/facts/order.ts'
import type { Fact } from '../../../src/core/facts.ts'
import { plan } from '../../../src/core/plan.ts'
import { parseAngle, parseCount, parseLength } from '../../../src/core/reading/parse.ts'
import type { Result } from '../../../src/core/result.ts'
import { readSection } from '../../../src/core/section/typed.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { readBackupFile } from '../../../src/door/backup-file.ts'
import {
  type Codes,
  isWhole,
  readCodes,
  readLink,
  withCode,
  writeCodes,
  writeLink,
} from '../../../src/door/carried.ts'
import { readJobFile, writeJobFile } from '../../../src/door/job-file.ts'
import { readNestProblems } from '../../../src/door/nest-problem.ts'
import { readShopFile } from '../../../src/door/shop-file.ts'
import { readStoredFact } from '../../../src/door/stored.ts'
import { readRoute } from '../../../src/ui/shell/route.ts'
import type { Dice } from '../../prove/seed.ts'
import { readPasted } from '../../ui/sizes/pasted-rows.ts'
import { sampleFile } from '../sample.ts'
import { bent, spoiled } from './nasty.ts'

// One round at each door: something spoiled goes in; out comes a document or words, within a second, and nothing that
// was there before is touched.

/** Seconds of computing that one answer may take. */
const longest = 1

/** What `look` gives, and that it came in time. Fails with what was given. */
export async function inTime<T>(given: string, look: () => T | Promise<T>): Promise<T> {
  const before = process.cpuUsage()
  let answer: T
  try {
    answer = await look()
  } catch (error) {
    throw new Error(`crashed (${String(error)}) on ${given.slice(0, 2000)}`)
  }
  const { user, system } = process.cpuUsage(before)
  const seconds = (user + system) / 1e6
  if (seconds > longest) throw new Error(`${seconds.toFixed(2)} s on ${given.slice(0, 2000)}`)
  return answer
}

/** Words, short enough to be read, where it was refused. */
function inWords(given: string, result: Result<unknown>): void {
  if (result.ok) return
  expect(result.problems.length, given.slice(0, 500)).toBeGreaterThan(0)
  for (const { text } of result.problems) {
    expect(text, given.slice(0, 500)).toMatch(/[a-z]{2}/)
    expect(text.length, given.slice(0, 500)).toBeLessThan(1500)
  }
}

const demo = (name: string): string =>
  readFileSync(new URL(`../../../demo-data/${name}.json`, import.meta.url), 'utf8')

const sample = JSON.stringify(sampleFile())
const log = JSON.stringify(sampleFile().facts)
const jobs = [sample, demo('hexagon-top'), demo('ten-sided-pedestal'), demo('five-sided-frame')]
const backup = JSON.stringify({
  format: 'tube-backup',
  version: 3,
  shop: sampleFile().shop,
  otherShops: [sampleFile().shop],
  jobs: [sampleFile().job],
  nests: sampleFile().nests,
  facts: sampleFile().facts,
})
const rescue = JSON.stringify({
  format: 'tube-rescue',
  version: 1,
  database: 1,
  lost: [],
  stores: {
    jobs: [{ key: 'a', value: { id: 'a', rev: 1, parent: null, device: 'd', body: sampleFile().job } }],
    facts: (sampleFile().facts as unknown[]).map((value, key) => ({ key, value })),
    nests: (sampleFile().nests as unknown[]).map((value, key) => ({ key, value })),
  },
})
const problem = JSON.stringify([
  {
    name: 'x',
    kerf: 2.5,
    width: 40,
    stock: [{ length: 6000, price: 12 }],
    parts: [{ length: 700, count: 3, ends: [30, 30] }],
  },
])
const list = 'Count\tLength\tA\tB\n6\t13 7/8\t30\t30\n2\t"24"""\t0\t45\n'
const typed = [
  '9 5/8',
  '6\' 2 1/2"',
  '26 - 2*1 1/2',
  '17.5 cm',
  '22½°',
  '180/7',
  '1 1/2 x 1 1/2 x 16 ga',
  '12',
]

const spoil = (text: string, roll: Dice): string =>
  roll() < 0.5 ? spoiled(text, roll) : JSON.stringify(bent(JSON.parse(text), roll))

function withBentJob(text: string, roll: Dice): string {
  const file = JSON.parse(text) as { job: { build: { params: unknown } } }
  file.job.build.params = bent(file.job.build.params, roll)
  return JSON.stringify(file)
}

let polluted = 0
const mustBeClean = (): void => {
  polluted += 'polluted' in {} ? 1 : 0
  expect(polluted, 'the prototype of all objects was reached').toBe(0)
}

/** A job file; what is taken is written back the same, and planned or refused in words. Counts what was taken. */
export async function jobRound(roll: Dice, planned: boolean): Promise<boolean> {
  const whole = roll.pick(jobs)
  // Half of them only in the job itself, so that a good part is taken and what stands behind the door is tried too.
  const text = roll() < 0.5 ? spoil(whole, roll) : withBentJob(whole, roll)
  const read = await inTime(text, () => readJobFile(text))
  inWords(text, read)
  mustBeClean()
  if (!read.ok) return false
  expect(readJobFile(writeJobFile(read.value))).toEqual(read)
  if (planned) {
    const { job, shop = startShop('mm') } = read.value
    inWords(text, await inTime(text, () => plan(job, shop)))
  }
  return true
}

/**
 * A log by itself: in a job file whose job is sound, and row by row as a disk gives it. What is taken is folded, the same in
 * whatever order and however often it comes. Counts the facts that were taken.
 */
export async function logRound(roll: Dice): Promise<number> {
  const facts = spoil(log, roll)
  const text = JSON.stringify({ ...sampleFile(), facts: 'MARK' }).replace('"MARK"', () => facts)
  const read = await inTime(text, () => readJobFile(text))
  inWords(text, read)
  mustBeClean()
  const rows = read.ok ? (read.value.facts ?? []) : rowsOf(facts)
  const taken: Fact[] = []
  for (const row of rows) {
    const fact = await inTime(facts, () => readStoredFact(row))
    inWords(facts, fact)
    if (fact.ok) taken.push(fact.value)
  }
  const progress = await inTime(facts, () => fold(taken))
  const half = roll.whole(0, taken.length)
  const merged = union(taken.slice(half), taken.toReversed(), taken.slice(0, half))
  expect(fold(merged), facts).toEqual(progress)
  expect(union(merged, taken), facts).toEqual(union(taken))
  mustBeClean()
  return taken.length
}

/** Rows of a spoiled log as far as it is JSON. */
function rowsOf(text: string): readonly unknown[] {
  try {
    const value: unknown = JSON.parse(text)
    return Array.isArray(value) ? value : [value]
  } catch {
    return []
  }
}

/** Backups, rescue files, shops and nest problems. */
export async function fileRound(roll: Dice): Promise<void> {
  const text = spoil(roll.pick([backup, rescue, sample, problem]), roll)
  for (const door of [readBackupFile, readShopFile, readNestProblems] as ((
    text: string,
  ) => Result<unknown>)[])
    inWords(text, await inTime(text, () => door(text)))
  mustBeClean()
}

const base = readJobFile(sample)
if (!base.ok) throw new Error('the sample is not sound')
const [link, codes] = await Promise.all([writeLink(base.value), writeCodes(base.value)])
if (!link.ok || !codes.ok) throw new Error('the sample is too long')

/** A link and a row of codes. */
export async function carriedRound(roll: Dice): Promise<void> {
  const spoiledLink = spoiled(link.ok ? link.value : '', roll)
  const text = await inTime(spoiledLink, () => readLink(spoiledLink))
  inWords(spoiledLink, text)
  if (text.ok) inWords(text.value, readJobFile(text.value))
  await inTime(spoiledLink, () => readRoute(`/open/${spoiledLink}`))

  let read: Codes | null = null
  for (const code of codes.ok ? codes.value : []) {
    const given: string = roll() < 0.3 ? spoiled(code, roll) : code
    const next: Result<Codes> = await inTime(given, () => withCode(read, given))
    inWords(given, next)
    if (next.ok) read = next.value
  }
  if (!read || !isWhole(read)) return
  const whole = read
  const carried = await inTime('codes', () => readCodes(whole))
  inWords('codes', carried)
  if (carried.ok) expect(readJobFile(carried.value)).toEqual(base)
}

const columns = cutList.params.find(({ name }) => name === 'rows')!.columns!

/** A pasted list, and what is typed into a field. */
export async function typedRound(roll: Dice): Promise<void> {
  const units = roll.pick(['in', 'mm'] as const)
  const pasted = spoiled(list, roll)
  inWords(pasted, await inTime(pasted, () => readPasted(pasted, columns, units)))
  const text = spoiled(roll.pick(typed), roll)
  inWords(text, await inTime(text, () => parseLength(text, units)))
  inWords(text, await inTime(text, () => parseAngle(text)))
  inWords(text, await inTime(text, () => parseCount(text)))
  inWords(text, await inTime(text, () => readSection(text, units)))
}
