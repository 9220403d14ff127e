import type { Fact } from '../facts.ts'
import { known } from './known.ts'

/**
 * Ids of the facts that count: a fact counts iff no counting undo names it. An undo names one fact, so the undos form
 * chains, settled here from their newest end; undos that name each other in a ring (no honest log holds one, since
 * each would have to be written after the other) never come to an end, and none of them counts.
 */
export function counting(facts: readonly Fact[]): ReadonlySet<string> {
  const undone = new Map<string, string>()
  const waitsFor = new Map<string, number>(facts.map((fact) => [fact.id, 0]))
  for (const fact of facts) {
    const read = known(fact)
    if (read?.kind !== 'undo' || undone.has(fact.id)) continue
    undone.set(fact.id, read.body.fact)
    const waits = waitsFor.get(read.body.fact)
    if (waits !== undefined) waitsFor.set(read.body.fact, waits + 1)
  }
  const out = new Set<string>()
  const counts = new Set<string>()
  const settled = [...waitsFor].filter(([, waits]) => waits === 0).map(([id]) => id)
  for (let id = settled.pop(); id !== undefined; id = settled.pop()) {
    if (!out.has(id)) counts.add(id)
    const target = undone.get(id)
    const waits = target === undefined ? undefined : waitsFor.get(target)
    if (target === undefined || waits === undefined) continue
    if (counts.has(id)) out.add(target)
    waitsFor.set(target, waits - 1)
    if (waits === 1) settled.push(target)
  }
  return counts
}
