import * as v from 'valibot'
import { union } from '../core/facts/order.ts'
import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { bad, good, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { fact } from './fact-shape.ts'
import { type JobFile, jobFile, readJobFile } from './job-file.ts'
import { job } from './job-shape.ts'
import { parseJson } from './json.ts'
import { nest } from './nest-shape.ts'
import { readShape } from './problem.ts'
import { type RescueRead, readRescue } from './rescue-file.ts'
import { fields, list, oneOf, type Shape } from './shape.ts'
import { shop } from './shop-shape.ts'
import { mostValuesOfShop } from './tree.ts'

/** All that a device keeps: the whole log and every nest, also those that no job of the list names any more. */
export interface BackupFile {
  /** Absent where nothing was ever said of the shop. */
  readonly shop?: Shop
  /** Further versions of the shop, between which and the first nobody has chosen yet. */
  readonly otherShops?: readonly Shop[]
  readonly jobs: readonly Job[]
  readonly nests: readonly Nest[]
  readonly facts: readonly Fact[]
  /** Only of a rescue file: rows that could not be read, in words. */
  readonly left?: readonly string[]
}

const format = 'tube-backup'
const version = 3

const backupFile = fields('a backup', {
  format: oneOf(format),
  version: oneOf(version),
  shop: v.optional(shop),
  otherShops: v.optional(list('shops', shop)),
  jobs: list('jobs', job),
  nests: list('nests', nest),
  facts: list('facts', fact),
}) satisfies Shape<BackupFile>

/** Version 2 had no place for a second version of the shop. */
const secondBackupFile = fields('a backup', {
  format: oneOf(format),
  version: oneOf(2),
  shop: v.optional(shop),
  jobs: list('jobs', job),
  nests: list('nests', nest),
  facts: list('facts', fact),
}) satisfies Shape<BackupFile>

/** Version 1 was a list of job files, and lost what no job named: steel that lay on the rack. */
const firstBackupFile = fields('a backup', {
  format: oneOf(format),
  version: oneOf(1),
  files: list('files', jobFile),
})

/** Job files as one: each nest once, the union of what happened, the first shop. */
function together(files: readonly JobFile[]): BackupFile {
  const given = files.find((file) => file.shop)?.shop
  const nests = new Map(files.flatMap((file) => file.nests ?? []).map((one) => [one.id, one]))
  return {
    ...(given && { shop: given }),
    jobs: files.map((file) => file.job),
    nests: [...nests.values()],
    facts: union(...files.map((file) => file.facts ?? [])),
  }
}

/**
 * A backup of this version or an older one; a single job file is a backup of one. Whole or not at all: one damaged
 * field and nothing is taken, with its path (`jobs[2].build.params.size`) in the problem. Only a rescue file is read
 * row by row, since what is left of a broken disk is better than nothing. A job may stand in `jobs` twice, in two
 * versions between which nobody has chosen yet.
 */
export function readBackupFile(text: string): Result<BackupFile> {
  const parsed = parseJson(text, 'backup')
  if (!parsed.ok) return parsed
  const head = (parsed.value ?? {}) as { readonly format?: unknown; readonly version?: unknown }
  if (head.format === 'tube-rescue') return readRescue(parsed.value) satisfies Result<RescueRead>
  if (head.format !== format) {
    const one = readJobFile(text)
    return one.ok ? good(together([one.value])) : one
  }
  if (typeof head.version === 'number' && head.version > version)
    return bad(
      'newer-version',
      `This backup is of version ${head.version}; this program reads version ${version}. Open it with a newer one; nothing was changed.`,
      'version',
    )
  if (head.version === 1) {
    const first = readShape(firstBackupFile, parsed.value, 'the backup', mostValuesOfShop)
    return first.ok ? good(together(first.value.files)) : first
  }
  const shape: Shape<BackupFile> = head.version === 2 ? secondBackupFile : backupFile
  const read = readShape(shape, parsed.value, 'the backup', mostValuesOfShop)
  if (!read.ok) return read
  const {
    format: _format,
    version: _version,
    ...file
  } = read.value as BackupFile & Record<'format' | 'version', unknown>
  return good(file)
}

/** The text of a backup, which `readBackupFile` reads back to the same. */
export function writeBackupFile({ shop: given, otherShops, jobs, nests, facts }: BackupFile): string {
  return `${JSON.stringify({ format, version, shop: given, otherShops, jobs, nests, facts }, null, 1)}\n`
}
