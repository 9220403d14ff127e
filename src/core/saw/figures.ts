import type { Run } from '../plan-shapes.ts'
import { sameAngle, sameLength } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import type { Visit } from './visit.ts'

/** How one saw stands: it starts at square, with no stop set. */
interface Standing {
  swing: Deg
  stop: Mm | null
  side: 'left' | 'right' | null
}

/**
 * What a run asks of hands and saws, and its minutes by each saw's figures. A load is a workpiece put on the saw that
 * was not in hand from the cut before; a stop counts when it is moved to another distance or another side.
 */
export function workOf(visits: readonly Visit[]): Run['work'] {
  const standing = new Map<string, Standing>()
  const work = { heads: 0, stops: 0, loads: 0, turns: 0, cuts: 0, minutes: 0 }
  let inHand = ''
  for (const { saw, load, trim, cuts, stopSide } of visits) {
    const now = standing.get(saw.id) ?? { swing: 0, stop: null, side: null }
    standing.set(saw.id, now)
    const before = { ...work }
    if (load !== inHand) work.loads += 1
    if (trim !== undefined) work.cuts += 1
    for (const cut of cuts) {
      if (Math.abs(cut.swing - now.swing) > sameAngle) work.heads += 1
      if (now.stop === null || now.side !== stopSide || Math.abs(cut.stop.mm - now.stop) > sameLength)
        work.stops += 1
      work.turns += cut.turns.length
      work.cuts += 1
      Object.assign(now, { swing: cut.swing, stop: cut.stop.mm, side: stopSide })
      inHand = cut.keep.id
    }
    const per = saw.minutes
    work.minutes +=
      (work.heads - before.heads) * per.head +
      (work.stops - before.stops) * per.stop +
      (work.loads - before.loads) * per.load +
      (work.turns - before.turns) * per.turn +
      (work.cuts - before.cuts) * per.cut
  }
  return work
}

/** The candidate that takes the fewest minutes; the earlier one among equals. */
export function quickest(candidates: readonly (readonly Visit[])[]): readonly Visit[] {
  let best: readonly Visit[] = candidates[0] ?? []
  let least = workOf(best).minutes
  for (const candidate of candidates.slice(1)) {
    const { minutes } = workOf(candidate)
    if (minutes < least - sameLength) {
      best = candidate
      least = minutes
    }
  }
  return best
}
