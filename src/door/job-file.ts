import * as v from 'valibot'
import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { bad, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { fact } from './fact-shape.ts'
import { job } from './job-shape.ts'
import { parseJson } from './json.ts'
import { nest } from './nest-shape.ts'
import { readShape } from './problem.ts'
import { fields, list, oneOf, type Shape } from './shape.ts'
import { shop } from './shop-shape.ts'
import { given } from './words.ts'

/** A job with what goes along with it: the shop it was planned in, whole or absent; its nests; what happened. */
export interface JobFile {
  readonly job: Job
  readonly shop?: Shop
  readonly nests?: readonly Nest[]
  readonly facts?: readonly Fact[]
}

/** Code of the problem with a file that is of ours, but holds a whole shop. */
export const isBackup = 'is-backup'

const format = 'tube-job'
const version = 1

export const jobFile = fields('a job file', {
  format: oneOf(format),
  version: oneOf(version),
  job,
  shop: v.optional(shop),
  nests: v.optional(list('nests', nest)),
  facts: v.optional(list('facts', fact)),
}) satisfies Shape<JobFile>

function headFault(value: unknown): Result<never> | undefined {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return bad(
      'not-a-job',
      `This is no job file: it holds ${given(value)}, not an object with "format": "${format}".`,
    )
  const head = value as { readonly format?: unknown; readonly version?: unknown }
  if (head.format === undefined)
    return bad('not-a-job', `This is no job file: "format" is missing; it must be "${format}".`, 'format')
  if (head.format === 'tube-backup' || head.format === 'tube-rescue')
    return bad(
      isBackup,
      'This is a backup of a whole shop, not one job. Open it in the Shop station, “Open a backup or a job”.',
      'format',
    )
  if (head.format !== format)
    return bad(
      'not-a-job',
      `This is no job file: "format" is ${given(head.format)}; it must be "${format}".`,
      'format',
    )
  if (typeof head.version === 'number' && head.version > version)
    return bad(
      'newer-version',
      `This file is of version ${head.version}; this program reads version ${version}. Open it with a newer one; the file is as it was.`,
      'version',
    )
  return undefined
}

/**
 * The one door for files, links, demo data and the command line. Nothing is guessed and nothing is dropped: an unknown
 * field is refused, since it may be a misspelled one, and only facts keep what this program does not know.
 * Paths in problems are those of the file: `job.build.params.size`.
 */
export function readJobFile(text: string): Result<JobFile> {
  const parsed = parseJson(text, 'job file')
  if (!parsed.ok) return parsed
  const fault = headFault(parsed.value)
  if (fault) return fault
  const read = readShape(jobFile, parsed.value, 'the file')
  if (!read.ok) return read
  const { format: _format, version: _version, ...file } = read.value
  return { ok: true, value: file }
}

/** The text of a job file, which `readJobFile` reads back to the same. `indent` 0 where every letter counts. */
export function writeJobFile(file: JobFile, indent = 2): string {
  const { job, shop, nests, facts } = file
  return `${JSON.stringify({ format, version, job, shop, nests, facts }, null, indent)}\n`
}
