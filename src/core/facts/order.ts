import type { Fact } from '../facts.ts'
import { canonical } from '../nest-seal.ts'

type Place = Pick<Fact, 'lamport' | 'device' | 'seq'>

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** The one order of a log, whatever order it came in: lamport, then device, then sequence. Never the clock. */
export const inOrder = (a: Place, b: Place): number =>
  a.lamport - b.lamport || byText(a.device, b.device) || a.seq - b.seq

/** Two facts say the same, whatever the order of their fields. */
export const sameFact = (a: Fact, b: Fact): boolean => a === b || canonical(a) === canonical(b)

/**
 * Each fact once, in the order of the log. Should one id stand for two contents (a copied device), the same one of
 * them is taken whatever came first.
 */
export function union(...logs: readonly (readonly Fact[])[]): readonly Fact[] {
  const byId = new Map<string, Fact>()
  for (const fact of logs.flat()) {
    const other = byId.get(fact.id)
    if (!other || (other !== fact && canonical(fact) > canonical(other))) byId.set(fact.id, fact)
  }
  return [...byId.values()].sort((a, b) => inOrder(a, b) || byText(a.id, b.id))
}
