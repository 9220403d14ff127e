import { type Nest, piecesIn } from '../nest.ts'
import type { Run } from '../plan-shapes.ts'
import type { Replayed } from './replay.ts'

/** Ids of the pieces that the run leaves to the hand. */
export const leftIn = ({ left = [] }: Run): ReadonlySet<string> => new Set(left.map(({ piece }) => piece))

/**
 * What is left to the hand: a piece of the nest, once, with a reason; not made by any program; and its steel lies there: a
 * blank or a bar that is cut no further and names it, or its stick, never loaded.
 */
export function leftFaults(run: Run, nest: Nest, { made, loaded }: Replayed): string[] {
  const stickOf = new Map(
    nest.sections.flatMap(({ sticks }) =>
      sticks.flatMap(({ id, pieces }) => pieces.flatMap(piecesIn).map(({ piece }) => [piece, id] as const)),
    ),
  )
  const seen = new Set<string>()
  return (run.left ?? []).flatMap(({ piece, why }) => {
    const faults: string[] = []
    const name = `piece ${piece}, left to the hand,`
    if (seen.has(piece)) faults.push(`${name} stands twice`)
    seen.add(piece)
    const stick = stickOf.get(piece)
    if (stick === undefined) return [...faults, `${name} is none of the nest`]
    if (why.trim() === '') faults.push(`${name} comes without a reason`)
    if (made.has(piece)) faults.push(`${name} is made all the same`)
    const lies = run.products.some(
      ({ id, makes, kind }) =>
        makes?.includes(piece) &&
        ['blank', 'rest'].includes(kind) &&
        made.get(id)?.stick === stick &&
        !loaded.has(id),
    )
    if (!lies && loaded.has(stick))
      faults.push(`${name} has no steel left: ${stick} is cut, and nothing that lies there names it`)
    return faults
  })
}
