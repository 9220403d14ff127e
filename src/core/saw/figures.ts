import type { Run } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { gangsOf } from './gang.ts'
import { atRest, type Setting, sameSetting } from './setting.ts'
import type { CleanUp, Visit } from './visit.ts'

/** How one saw stands: it starts at square, with no stop set. */
interface Standing {
  setting: Setting
  stop: Mm | null
  side: string
  longSide: string
}

/**
 * What a run asks of hands and saws, and its minutes by each saw's figures. A load is a workpiece put on the saw that
 * was not in hand from the cut before; a stop counts when it is moved to another distance or another side of the blade.
 * Where only another side of the pieces comes to the fence, it is another set-up, tried anew: that takes as long as moving
 * the stop. What lies side by side is loaded and turned one by one, and cut by the same strokes.
 */
export function workOf(visits: readonly Visit[]): Run['work'] {
  const standing = new Map<string, Standing>()
  const total = { heads: 0, stops: 0, loads: 0, turns: 0, cuts: 0, minutes: 0 }
  let inHand = ''
  for (const gang of gangsOf(visits)) {
    const { saw, load, cuts, cleanUpLast, stopSide } = gang[0]!
    const now = standing.get(saw.id) ?? { setting: atRest, stop: null, side: '', longSide: '' }
    standing.set(saw.id, now)
    const loads = load === inHand ? 0 : gang.length
    let [heads, stops, tried, turns, made] = [0, 0, 0, 0, 0]
    const set = (setting: Setting): void => {
      // A cradle or a wedge that is changed takes about as long as the head; the stop's zero moves with the head.
      if (sameSetting(setting, now.setting)) return
      heads += 1
      now.setting = setting
      now.stop = null
    }
    const clean = (cleanUp: CleanUp | undefined): void => {
      if (!cleanUp) return
      turns += cleanUp.turns.length * gang.length
      set(cleanUp.setting)
      made += 1
    }
    for (const cut of cuts) {
      clean(cut.cleanUp)
      turns += cut.turns.length * gang.length
      set(cut)
      if (now.stop === null || now.side !== stopSide || Math.abs(cut.stop.mm - now.stop) > sameLength)
        stops += 1
      else if (now.longSide !== cut.longSide) tried += 1
      now.stop = cut.stop.mm
      now.side = stopSide
      now.longSide = cut.longSide
      made += 1
      inHand = gang.length > 1 ? '' : cut.keep.id
    }
    clean(cleanUpLast)
    // After it the stick is in hand, not what was cut off.
    if (cleanUpLast) inHand = ''
    total.heads += heads
    total.stops += stops
    total.loads += loads
    total.turns += turns
    total.cuts += made
    const per = saw.minutes
    total.minutes +=
      heads * per.head + (stops + tried) * per.stop + loads * per.load + turns * per.turn + made * per.cut
  }
  return total
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
