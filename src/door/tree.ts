import type { Problem } from '../core/result.ts'
import { pathText } from './words.ts'

/** Deeper than any document of ours: a plan's nest goes eight levels down. A cycle is caught by it too. */
const deepest = 40

/** Names that reach into the machinery of JavaScript objects: no field of ours, and never a name of someone's own. */
const forbidden: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

const tag = (value: object): string => Object.prototype.toString.call(value)

/** One value of the tree, and the way to it; the way is only put into words where something is wrong. */
interface Node {
  readonly value: unknown
  readonly key: string | number
  readonly above: Node | undefined
  readonly depth: number
}

function keysOf(node: Node): readonly (string | number)[] {
  const keys: (string | number)[] = []
  for (let at: Node | undefined = node; at?.above; at = at.above) keys.push(at.key)
  return keys.toReversed()
}

function faultInLeaf(node: Node, what: string): Problem | undefined {
  const { value } = node
  const say = () => {
    const field = pathText(keysOf(node))
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

function faultInBranch(node: Node, value: object, what: string): Problem | undefined {
  if (node.depth > deepest) {
    const start = pathText(keysOf(node).slice(0, 3))
    return {
      code: 'too-deep',
      text: `${start} goes more than ${deepest} levels down; no document here goes so deep.`,
      field: start,
    }
  }
  if (!Array.isArray(value) && tag(value) !== '[object Object]') {
    const field = pathText(keysOf(node))
    return {
      code: 'not-plain',
      text: `${field || what} is ${tag(value).slice(8, -1)}; only plain data can be read.`,
      field,
    }
  }
  const bad = Array.isArray(value) ? undefined : Object.keys(value).find((key) => forbidden.has(key))
  if (bad === undefined) return undefined
  const keys = keysOf(node)
  return {
    code: 'forbidden-name',
    text: `${pathText(keys) || what} has a field named "${bad}", which no document may have; take it out.`,
    field: pathText([...keys, bad]),
  }
}

/**
 * What makes a tree of values unfit for any document, whatever its fields mean: numbers that are none, names that
 * reach into the machinery, things that are no plain data, nesting without end. Undefined when it is sound. The first
 * fault in the order of the document, and in a time that grows with its size and no faster.
 */
export function faultInTree(root: unknown, what: string): Problem | undefined {
  const open: Node[] = [{ value: root, key: '', above: undefined, depth: 0 }]
  for (let node = open.pop(); node; node = open.pop()) {
    const { value } = node
    if (typeof value !== 'object' || value === null) {
      const fault = faultInLeaf(node, what)
      if (fault) return fault
      continue
    }
    const fault = faultInBranch(node, value, what)
    if (fault) return fault
    const depth = node.depth + 1
    // From the last to the first, since the last pushed is looked at first.
    if (Array.isArray(value))
      for (let at = value.length - 1; at >= 0; at--)
        open.push({ value: value[at], key: at, above: node, depth })
    else
      for (const key of Object.keys(value).toReversed())
        open.push({ value: (value as Record<string, unknown>)[key], key, above: node, depth })
  }
  return undefined
}
