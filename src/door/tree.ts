import type { Problem } from '../core/result.ts'
import { pathText } from './words.ts'

/** Deeper than any document of ours: a plan's nest goes eight levels down. A cycle is caught by it too. */
const deepest = 40

/** Names that reach into the machinery of JavaScript objects: no field of ours, and never a name of someone's own. */
const forbidden: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

const tag = (value: object): string => Object.prototype.toString.call(value)

type Keys = readonly (string | number)[]

function faultInLeaf(value: unknown, keys: Keys, what: string): Problem | undefined {
  const field = pathText(keys)
  const where = field === '' ? what : field
  if (typeof value === 'number' && !Number.isFinite(value))
    return {
      code: 'not-a-number',
      text: `${where} is ${value}, which is no number that can be measured; it must be a plain number.`,
      field,
    }
  if (typeof value === 'bigint' || typeof value === 'function' || typeof value === 'symbol')
    return { code: 'not-plain', text: `${where} is a ${typeof value}; only plain data can be read.`, field }
  return undefined
}

function childrenOf(value: object, keys: Keys): readonly (readonly [unknown, Keys])[] {
  if (Array.isArray(value)) return value.map((item, index) => [item, [...keys, index]] as const)
  return Object.entries(value).map(([key, item]) => [item, [...keys, key]] as const)
}

/**
 * What makes a tree of values unfit for any document, whatever its fields mean: numbers that are none, names that
 * reach into the machinery, things that are no plain data, nesting without end. Undefined when it is sound.
 */
export function faultInTree(root: unknown, what: string): Problem | undefined {
  const open: (readonly [unknown, Keys])[] = [[root, []]]
  for (let next = open.pop(); next; next = open.pop()) {
    const [value, keys] = next
    if (typeof value !== 'object' || value === null) {
      const fault = faultInLeaf(value, keys, what)
      if (fault) return fault
      continue
    }
    const field = pathText(keys)
    if (keys.length > deepest) {
      const start = pathText(keys.slice(0, 3))
      return {
        code: 'too-deep',
        text: `${start} goes more than ${deepest} levels down; no document here goes so deep.`,
        field: start,
      }
    }
    if (!Array.isArray(value) && tag(value) !== '[object Object]')
      return {
        code: 'not-plain',
        text: `${field || what} is ${tag(value).slice(8, -1)}; only plain data can be read.`,
        field,
      }
    const bad = Object.keys(value).find((key) => forbidden.has(key))
    if (bad)
      return {
        code: 'forbidden-name',
        text: `${field || what} has a field named "${bad}", which no document may have; take it out.`,
        field: pathText([...keys, bad]),
      }
    open.push(...childrenOf(value, keys).toReversed())
  }
  return undefined
}
