import type { Problem } from '../core/result.ts'
import { pathText } from './words.ts'

/** Deeper than any document of ours: a plan's nest goes eight levels down. A cycle is caught by it too. */
const deepest = 40

/** Values of one job with all that happened to it: a hundred times the largest of the tests; more would stop the tablet. */
export const mostValues = 1_500_000

/** Of a whole shop with every nest that it ever worked by: as many as a text of the longest length can well have. */
export const mostValuesOfShop = 8_000_000

/** Names that reach into the machinery of JavaScript objects: no field of ours, and never a name of someone's own. */
const forbidden: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

const tag = (value: object): string => Object.prototype.toString.call(value)

/** An object or a list that is being looked through; the ways into words are only made where something is wrong. */
interface Level {
  readonly value: object
  /** Names of the fields; a list has none. */
  readonly names: readonly string[] | undefined
  readonly size: number
  /** Place of the one looked at next. */
  at: number
  readonly above: Level | undefined
  readonly depth: number
}

const keyAt = ({ names }: Level, at: number): string | number => (names ? names[at]! : at)

/** The way to the value looked at last in this level. */
function keysOf(level: Level | undefined): readonly (string | number)[] {
  const keys: (string | number)[] = []
  for (let one = level; one; one = one.above) keys.push(keyAt(one, one.at - 1))
  return keys.toReversed()
}

function faultInLeaf(value: unknown, level: Level | undefined, what: string): Problem | undefined {
  const say = () => {
    const field = pathText(keysOf(level))
    return { field, where: field === '' ? what : field }
  }
  if (typeof value === 'number' && !Number.isFinite(value)) {
    const { field, where } = say()
    return {
      code: 'not-a-number',
      text: `${where} is ${value}, which is no number that can be measured; it must be a plain number.`,
      field,
    }
  }
  if (typeof value === 'bigint' || typeof value === 'function' || typeof value === 'symbol') {
    const { field, where } = say()
    return { code: 'not-plain', text: `${where} is a ${typeof value}; only plain data can be read.`, field }
  }
  return undefined
}

function faultInBranch(value: object, level: Level | undefined, what: string): Problem | undefined {
  if ((level?.depth ?? -1) >= deepest) {
    const start = pathText(keysOf(level).slice(0, 3))
    return {
      code: 'too-deep',
      text: `${start} goes more than ${deepest} levels down; no document here goes so deep.`,
      field: start,
    }
  }
  if (!Array.isArray(value) && tag(value) !== '[object Object]') {
    const field = pathText(keysOf(level))
    return {
      code: 'not-plain',
      text: `${field || what} is ${tag(value).slice(8, -1)}; only plain data can be read.`,
      field,
    }
  }
  const bad = Array.isArray(value) ? undefined : Object.keys(value).find((key) => forbidden.has(key))
  if (bad === undefined) return undefined
  const keys = keysOf(level)
  return {
    code: 'forbidden-name',
    text: `${pathText(keys) || what} has a field named "${bad}", which no document may have; take it out.`,
    field: pathText([...keys, bad]),
  }
}

function enter(value: object, above: Level | undefined): Level {
  const names = Array.isArray(value) ? undefined : Object.keys(value)
  const size = names ? names.length : (value as readonly unknown[]).length
  return { value, names, size, at: 0, above, depth: (above?.depth ?? -1) + 1 }
}

/**
 * What makes a tree of values unfit for any document, whatever its fields mean: numbers that are none, names that
 * reach into the machinery, things that are no plain data, nesting without end, more values than any document has.
 * Undefined when it is sound. The first fault in the order of the document, and in a time that grows with its size and
 * no faster.
 */
export function faultInTree(root: unknown, what: string, most = mostValues): Problem | undefined {
  if (typeof root !== 'object' || root === null) return faultInLeaf(root, undefined, what)
  const fault = faultInBranch(root, undefined, what)
  if (fault) return fault
  let seen = 1
  for (let level: Level | undefined = enter(root, undefined); level; ) {
    if (level.at === level.size) {
      level = level.above
      continue
    }
    const value = (level.value as Record<string | number, unknown>)[keyAt(level, level.at)]
    level.at += 1
    seen += 1
    if (seen > most)
      return {
        code: 'too-many',
        text: `${what} holds more than ${most} values; no document here holds so many.`,
        field: '',
      }
    const branch = typeof value === 'object' && value !== null
    const found = branch ? faultInBranch(value, level, what) : faultInLeaf(value, level, what)
    if (found) return found
    if (branch) level = enter(value, level)
  }
  return undefined
}
