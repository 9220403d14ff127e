import { known } from '../core/facts/known.ts'
import { stickName } from '../core/facts/rack.ts'
import type { Nest } from '../core/nest.ts'
import type { BenchCut, SetUp } from '../core/plan-shapes.ts'
import type { AppState } from './state.ts'

/**
 * Corrections of the stop that still stand, by set-up: since each was written, nothing was cut on its saw with the head
 * set otherwise, and no other blade was put on. The facts are in the order of the log.
 */
export function standingStops(
  { facts, progress }: Pick<AppState, 'facts' | 'progress'>,
  nest: Nest,
  cuts: readonly BenchCut[],
): Readonly<Record<string, number>> {
  const setUps = new Map(cuts.map(({ setUp }) => [setUp.id, setUp]))
  const cutAs = new Map(
    cuts.flatMap(({ done, lost, setUp }) => ((done ?? lost) ? [[done ?? lost, setUp]] : [])),
  )
  const stops: Record<string, number> = {}
  for (const [id, setUp] of setUps) {
    const stop = progress.stops[stickName(nest.id, id)]
    if (!stop) continue
    const since = facts.slice(facts.findIndex((fact) => fact.id === stop.fact) + 1)
    const moved = since.some((fact) => {
      const other = cutAs.get(fact.id)
      if (other) return headMoved(setUp, other)
      const read = known(fact)
      return read?.kind === 'bladeChanged' && read.body.saw === setUp.saw
    })
    if (!moved) stops[id] = stop.by
  }
  return stops
}

const headMoved = (one: SetUp, two: SetUp): boolean =>
  one.saw === two.saw && (one.swing !== two.swing || one.tilt !== two.tilt || one.stopSide !== two.stopSide)
