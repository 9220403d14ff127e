import type { NestPart } from '../core/nest.ts'

// Pieces that are asked for from one and the same stick go through the search as one.

/** Parts, by index, whose pieces are to come from one stick together: all groups of two pieces and more. */
export function groupsOf(parts: readonly NestPart[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>()
  for (const [at, { same, count }] of parts.entries())
    if (same !== undefined && count > 0) groups.set(same, [...(groups.get(same) ?? []), at])
  return [...groups.values()].filter((group) => group.reduce((sum, at) => sum + parts[at]!.count, 0) > 1)
}
