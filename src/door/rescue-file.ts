import * as v from 'valibot'
import { union } from '../core/facts/order.ts'
import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { good, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { readShape } from './problem.ts'
import { fields, list, oneOf, openFields, text, whole } from './shape.ts'
import { readStoredFact, readStoredJob, readStoredNest, readStoredShop } from './stored.ts'
import { mostValuesOfShop } from './tree.ts'
import { given } from './words.ts'

const row = openFields('a row', {})

const rescueFile = fields('a rescue file', {
  format: oneOf('tube-rescue'),
  version: oneOf(1),
  database: whole(1),
  stores: v.record(text(60), list('rows', row), 'an object of stores, each a list of rows'),
  lost: list('texts', text(10_000, 0)),
})

/** What of a rescue file could be read, and of each row that could not, in words, why. */
export interface RescueRead {
  readonly shop?: Shop
  readonly otherShops?: readonly Shop[]
  readonly jobs: readonly Job[]
  readonly nests: readonly Nest[]
  readonly facts: readonly Fact[]
  readonly left: readonly string[]
}

type Field = { readonly value?: unknown }

const bodyOf = (value: unknown): unknown => (value as { readonly body?: unknown } | null)?.body
const isRemoved = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'removed' in value
const isOf = (document: string) => (value: unknown) =>
  (value as { readonly document?: unknown } | null)?.document === document

/**
 * The rows of a database that was saved when nothing else worked. Each row is looked at by itself: one that cannot be
 * read is told in `left` and takes nothing of the others with it.
 */
export function readRescue(value: unknown): Result<RescueRead> {
  const read = readShape(rescueFile, value, 'the rescue file', mostValuesOfShop)
  if (!read.ok) return read
  const { stores, lost } = read.value
  const left: string[] = lost.map((what) => `${what} (the browser did not give it)`)

  function readable<T>(store: string, rows: readonly unknown[], look: (row: unknown) => Result<T>): T[] {
    return rows.flatMap((value, at) => {
      const result = look(value)
      if (result.ok) return [result.value]
      left.push(`${store}, row ${at + 1}: ${result.problems.map(({ text: said }) => said).join(' ')}`)
      return []
    })
  }
  const valuesOf = (store: string): readonly unknown[] =>
    (Object.hasOwn(stores, store) ? stores[store]! : []).map((one) => (one as Field).value)

  const rivals = valuesOf('rivals')
  const jobs = [
    ...readable(
      'jobs',
      valuesOf('jobs').filter((one) => !isRemoved(one)),
      (one) => readStoredJob(bodyOf(one)),
    ),
    ...readable('second versions', rivals.filter(isOf('job')), (one) => readStoredJob(bodyOf(one))),
  ]
  for (const stray of valuesOf('strays')) {
    const { store, key, why } = (stray ?? {}) as Record<string, unknown>
    left.push(`${given(store)}, ${given(key)}, which stood aside: ${given(why)}`)
  }
  const [shop] = readable('shop', valuesOf('shop'), (one) => readStoredShop(bodyOf(one)))
  const otherShops = readable('second versions', rivals.filter(isOf('shop')), (one) =>
    readStoredShop(bodyOf(one)),
  )
  return good({
    ...(shop && { shop }),
    ...(otherShops.length > 0 && { otherShops }),
    jobs,
    nests: readable('nests', valuesOf('nests'), readStoredNest),
    facts: union(readable('facts', valuesOf('facts'), readStoredFact)),
    left,
  })
}
