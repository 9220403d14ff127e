import type { Slope } from '../nest.ts'
import type { StickFace, Turn } from '../plan-shapes.ts'
import type { Saw } from '../shop.ts'
import { type Holding, reaches } from './hold.ts'
import { type Lying, type Side, sideAfter, turned } from './lying.ts'
import { type Making, makings } from './method.ts'
import { sideOfFace } from './ways.ts'

// How a whole stick may lie for a cut: rolled about its axis by quarters, seen from a stop on either side.

/** Quarter turns of a stick, right-hand about +x, in their order. */
export const rolls: readonly (readonly Turn[])[] = [[], ['quarter+'], ['over'], ['quarter-']]

/** How a stick lies: rolled by so many quarters; `mirror` with the stop at the right, where the frame is mirrored in y. */
export interface StickLie {
  readonly roll: number
  readonly mirror: boolean
}

/** The turn from one roll to another; none where they are one. */
export const rollTurns = (from: number, to: number): readonly Turn[] => rolls[(to - from + 4) % 4]!

const mirroredY = (piece: Lying): Lying => ({
  ...piece,
  lead: { p: -piece.lead.p || 0, q: piece.lead.q },
  trail: { p: -piece.trail.p || 0, q: piece.trail.q },
})

/** A piece of the stick as it lies in the saw's frame. */
export const inFrame = (piece: Lying, { roll, mirror }: StickLie): Lying =>
  rolls[roll]!.reduce(turned, mirror ? mirroredY(piece) : piece)

/** Where a face of the stick looks. */
export function faceInFrame(face: StickFace, { roll, mirror }: StickLie): Side {
  const side = sideOfFace(face)
  const seen = mirror && side === 'fence' ? 'outward' : mirror && side === 'outward' ? 'fence' : side
  return sideAfter(seen, rolls[roll]!)
}

const faces: readonly StickFace[] = ['-z', '+z', '-y', '+y']

export const faceDownOf = (lie: StickLie): StickFace =>
  faces.find((face) => faceInFrame(face, lie) === 'down')!

/** One way to cut a plane of the stick. */
export interface StickOption {
  readonly lie: StickLie
  readonly making: Making
}

/**
 * Every way to cut a plane of this slope while the stick lies rolled by quarters, by swing or by bevel: a whole stick
 * goes in no cradle and on no wedge. Empty where the saw has none.
 */
export function stickOptions(
  slope: Slope,
  box: Pick<Lying, 'depth' | 'height' | 'round'>,
  saw: Saw,
  holding: Holding,
): readonly StickOption[] {
  const mirror = holding.stopSide === 'right'
  const plane: Lying = { ...box, lead: slope, trail: slope, mid: 0 }
  // Round steel looks the same on every quarter; a half turn brings the miter to the other side.
  const tried = box.round ? [0, 2] : [0, 1, 2, 3]
  return tried.flatMap((roll) => {
    const lie = { roll, mirror }
    return makings(inFrame(plane, lie).trail, saw, box.round === true)
      .filter(
        ({ method, setting }) =>
          (method === 'swing' || method === 'bevel') && reaches(saw, holding, setting.swing),
      )
      .map((making) => ({ lie, making }))
  })
}
