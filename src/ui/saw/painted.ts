import { known } from '../../core/facts/known.ts'
import { dropSign, rackMarks } from '../../core/facts/rack-mark.ts'
import type { Fact, Progress } from '../../core/facts.ts'

/** A drop of this nest that lies on the rack, with what is painted on it. */
export interface Painted {
  readonly stick: string
  readonly mark: string
  /** mm. */
  readonly length: number
}

/** What will be painted on the drop of a stick that is not kept yet, beside all that lies on the rack. */
export function markToPaint({ rack }: Progress, nest: string, stick: string): string {
  const drop = { id: 'not kept yet', sign: dropSign(nest, stick) }
  return rackMarks([...rack, drop]).get(drop.id)!
}

/** The drops that were kept under a nest, the last one first. */
export function paintedOf(facts: readonly Fact[], { rack }: Progress, nest: string): readonly Painted[] {
  const marks = rackMarks(rack)
  return facts
    .flatMap((fact): readonly Painted[] => {
      const read = fact.nest === nest && fact.kind === 'kept' ? known(fact) : undefined
      const piece = read && rack.find(({ id }) => id === read.id)
      const mark = piece && marks.get(piece.id)
      return read?.kind === 'kept' && piece && mark
        ? [{ stick: read.body.stick, mark, length: piece.length }]
        : []
    })
    .reverse()
}
