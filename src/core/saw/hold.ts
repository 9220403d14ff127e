import type { Saw } from '../shop.ts'
import { sameAngle, sameLength } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'

/** Where the stop stands and which part is in the vise. */
export interface Holding {
  readonly stopSide: 'left' | 'right'
  readonly hold: 'stop' | 'stick'
}

const otherSide = (side: 'left' | 'right') => (side === 'left' ? 'right' : 'left')

/**
 * Ways to hold a stick while blanks come off it, the best first: the stick itself in the vise, so that its end can be
 * cleaned up. A vise on one side only holds the other part when the stop is set up on the other side of the blade.
 */
export function stickHoldings({ stopSide, viseHolds }: Saw): readonly Holding[] {
  const across = otherSide(stopSide)
  return [
    { stopSide: viseHolds === 'stop' ? across : stopSide, hold: 'stick' },
    { stopSide: viseHolds === 'stick' ? across : stopSide, hold: 'stop' },
  ]
}

/** Where the rest is scrap the kept piece is held, so the stop moves to the vise's side. */
export const pieceHolding = ({ stopSide, viseHolds }: Saw): Holding => ({
  stopSide: viseHolds === 'stick' ? otherSide(stopSide) : stopSide,
  hold: 'stop',
})

/** One cut, as far as holding is concerned: what is kept at the stop and what is left in the stick, mm. */
export interface HeldCut {
  readonly kept: Mm
  readonly left: Mm
}

/** True where the held part is long enough. */
export const holdsCut = (saw: Saw, { hold }: Holding, { kept, left }: HeldCut): boolean =>
  (hold === 'stop' ? kept : left) >= saw.leastToHold - sameLength

/**
 * Cuts of one stick in a row, shared out among ways to hold it: each way as far as it holds, the one that holds longest
 * first. Returns the ways with how many cuts each takes; stops short where no way holds the next cut.
 */
export function shareOut(
  saw: Saw,
  cuts: readonly HeldCut[],
): readonly { readonly way: Holding; readonly count: number }[] {
  const shares: { readonly way: Holding; readonly count: number }[] = []
  for (let at = 0; at < cuts.length; ) {
    const next = stickHoldings(saw)
      .map((way) => {
        const fails = cuts.slice(at).findIndex((cut) => !holdsCut(saw, way, cut))
        return { way, count: fails < 0 ? cuts.length - at : fails }
      })
      .reduce((best, other) => (other.count > best.count ? other : best))
    if (next.count === 0) break
    shares.push(next)
    at += next.count
  }
  return shares
}

/**
 * Greatest miter each way, degrees, as the stop stands: with the stop on the other side of the blade, what leaned
 * toward it leans away from it.
 */
export function limitsOf({ stopSide, limits }: Saw, holding: Holding): { toward: Deg; away: Deg } {
  const { towardStop, awayFromStop } = limits
  return holding.stopSide === stopSide
    ? { toward: towardStop, away: awayFromStop }
    : { toward: awayFromStop, away: towardStop }
}

export function reaches(saw: Saw, holding: Holding, swing: Deg): boolean {
  const { toward, away } = limitsOf(saw, holding)
  return Math.abs(swing) <= (swing < 0 ? toward : away) + sameAngle
}
