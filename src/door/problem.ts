import * as v from 'valibot'
import { badAll, good, type Problem, type Result } from '../core/result.ts'
import { faultInTree } from './tree.ts'
import { given, pathText } from './words.ts'

/** More problems than this at once help nobody; the rest are counted. */
const mostProblems = 12

function keysOf(issue: v.BaseIssue<unknown>): (string | number)[] {
  return (issue.path ?? []).map((step) => step.key as string | number)
}

function valueAt(root: unknown, keys: readonly (string | number)[]): unknown {
  let value = root
  for (const key of keys) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = (value as Record<string | number, unknown>)[key]
  }
  return value
}

function problemOf(issue: v.BaseIssue<unknown>, root: unknown, what: string): Problem {
  const keys = keysOf(issue)
  const field = pathText(keys)
  const value = valueAt(root, keys)
  const where = field === '' ? what : field
  if (issue.expected === 'never' && typeof keys.at(-1) === 'string')
    return { code: 'unknown-field', text: `${where} is not known; it must be ${issue.message}.`, field }
  if (value === undefined)
    return { code: 'missing', text: `${where} is missing; it must be ${issue.message}.`, field }
  return { code: 'not-possible', text: `${where} is ${given(value)}; it must be ${issue.message}.`, field }
}

/** Values in a document up to which every fault is looked for; in a larger one reading ends at the first. */
const mostToSearch = 20_000

/** Whether a tree has more than `most` values. */
function isLarger(root: unknown, most: number): boolean {
  const open: unknown[] = [root]
  for (let count = 0; open.length > 0; count++) {
    if (count + open.length > most) return true
    const value = open.pop()
    if (typeof value !== 'object' || value === null) continue
    const inside = Object.values(value)
    if (count + open.length + inside.length > most) return true
    open.push(...inside)
  }
  return false
}

/**
 * Reads what came from outside by a schema. `what` is how the whole is called where a path is empty: `the job`.
 * Every problem says the path, what was given and what is possible.
 */
export function readShape<T>(
  schema: v.GenericSchema<unknown, T>,
  value: unknown,
  what: string,
  most?: number,
): Result<T> {
  const fault = faultInTree(value, what, most)
  if (fault) return badAll([fault])
  const large = isLarger(value, mostToSearch)
  const parsed = v.safeParse(schema, value, { abortEarly: large })
  if (parsed.success) return good(parsed.output)
  const problems = parsed.issues.map((issue) => problemOf(issue, value, what))
  if (large)
    return badAll([
      ...problems,
      { code: 'more', text: 'This is a large file: reading it ended at the first fault.' },
    ])
  if (problems.length <= mostProblems) return badAll(problems)
  const more = problems.length - mostProblems
  return badAll([
    ...problems.slice(0, mostProblems),
    { code: 'more', text: `There are ${more} more problems of this kind.` },
  ])
}
