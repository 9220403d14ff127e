import type { NestPart, Turning } from '../nest.ts'
import { nestPart, sawFor } from '../parts/demand.ts'
import { byCopy } from '../parts/one-stick.ts'
import type { Part, StickFace, Turn } from '../plan-shapes.ts'
import { isRound, type Section } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { boxOf } from './box.ts'
import { lyingPart } from './ends.ts'
import { stickHoldings } from './hold.ts'
import { type Lying, shortestEdge, sideAfter } from './lying.ts'
import { stickOptions } from './stick-options.ts'
import { sideOfFace } from './ways.ts'

// What the way *from the stick* asks of the nest: pieces with their final ends, turned as their seam allows.

const faces: readonly StickFace[] = ['+z', '-z', '+y', '-y']

const turnings: readonly (readonly [Turning, readonly Turn[]])[] = [
  ['none', []],
  ['over', ['over']],
  ['end', ['end']],
  ['flip', ['flip']],
]

/**
 * Turnings that bring the seam of every piece of a part onto one face of the stick: all where it is free. A part that a
 * half turn brings onto itself keeps more than one face, so a trapezoid pinned on top is turned over, one pinned outside
 * is not. Empty where no turning does.
 */
export function turnsOnto(face: StickFace, { seam = [] }: Part): readonly Turning[] {
  return turnings
    .filter(([, turns]) =>
      seam.every(
        (allowed) =>
          allowed.length === 0 ||
          allowed.some((each) => sideAfter(sideOfFace(each), turns) === sideOfFace(face)),
      ),
    )
    .map(([turning]) => turning)
}

export const isPinned = ({ seam = [] }: Part): boolean => seam.some((allowed) => allowed.length > 0)

/** Whether the saw cuts both ends of a part while it is still part of its stick. */
export function fromStick(part: Part, section: Section, shop: Shop): boolean {
  const saw = sawFor(shop, section)
  const box = boxOf(section, shop)
  const lying = lyingPart(part, box)
  const outside: Pick<Lying, 'depth' | 'height' | 'round'> = {
    depth: box.big,
    height: box.small,
    ...(isRound(section) ? { round: true } : {}),
  }
  return (
    part.printed.length.mm <= saw.limits.longestStop + sameLength &&
    shortestEdge(lying) > sameLength &&
    part.slopes.every((slope) =>
      stickHoldings(saw).every((way) => stickOptions(slope, outside, saw, way).length > 0),
    )
  )
}

/** The face of the stick that has its seam, so that most pieces can be cut from it; undefined where none is pinned. */
export function seamFace(parts: readonly Part[], section: Section, shop: Shop): StickFace | undefined {
  const pinned = parts.filter(
    (part) => part.shape !== 'square' && isPinned(part) && fromStick(part, section, shop),
  )
  if (pinned.length === 0) return undefined
  // Among equals pieces lie as their parts do.
  const worth = (turns: readonly Turning[]) => turns.length + (turns.includes('none') ? 0.5 : 0)
  const served = (face: StickFace) =>
    pinned.reduce((sum, part) => sum + part.count * worth(turnsOnto(face, part)), 0)
  return faces.reduce((best, face) => (served(face) > served(best) ? face : best))
}

/** What the parts of one section ask of the nest; those that cannot be cut from the stick come off it as blanks. */
export function stickParts(
  parts: readonly Part[],
  section: Section,
  job: string,
  quantity: number,
  shop: Shop,
): readonly NestPart[] {
  const seam = seamFace(parts, section, shop)
  const box = boxOf(section, shop)
  const asked = (part: Part): NestPart => {
    const asBlank = nestPart(part, job, quantity, shop)
    if (part.shape === 'square' || !fromStick(part, section, shop)) return asBlank
    const turns = seam ? turnsOnto(seam, part) : turnings.map(([turning]) => turning)
    if (turns.length === 0) return asBlank
    return { ...asBlank, mid: lyingPart(part, box).mid, ends: part.slopes, turns, finished: true }
  }
  return parts.flatMap((part) => byCopy(asked(part), part))
}
