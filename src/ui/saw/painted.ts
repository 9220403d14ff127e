import { known } from '../../core/facts/known.ts'
import { rackMarks } from '../../core/facts/rack-mark.ts'
import type { Fact, Progress } from '../../core/facts.ts'

/** A drop of this nest that lies on the rack, with what is painted on it. */
export interface Painted {
  readonly stick: string
  readonly mark: string
  /** mm. */
  readonly length: number
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
