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
 * Ways to hold a stick while blanks come off it, the usual one first. A vise on one side only can hold the other part
 * when the stop is set up on the other side of the blade.
 */
export function stickHoldings({ stopSide, viseHolds }: Saw): readonly Holding[] {
  const usual = { stopSide, hold: viseHolds === 'stop' ? 'stop' : 'stick' } as const
  const other = usual.hold === 'stop' ? 'stick' : 'stop'
  return [usual, { stopSide: viseHolds === 'both' ? stopSide : otherSide(stopSide), hold: other }]
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

/** True where the held part is long enough at every cut. */
export const holds = (saw: Saw, { hold }: Holding, cuts: readonly HeldCut[]): boolean =>
  cuts.every(({ kept, left }) => (hold === 'stop' ? kept : left) >= saw.leastToHold - sameLength)

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
