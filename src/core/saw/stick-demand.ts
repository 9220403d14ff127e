import type { Warning } from '../frame/frame.ts'
import type { NestPart, Slope, Turning } from '../nest.ts'
import { nestPart, sawFor } from '../parts/demand.ts'
import { byCopy } from '../parts/one-stick.ts'
import type { Part, StickFace, Turn } from '../plan-shapes.ts'
import { isRound, type Section } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { boxOf } from './box.ts'
import { lyingPart } from './ends.ts'
import { stickHoldings } from './hold.ts'
import { isSquare, type Lying, shortestEdge, sideAfter } from './lying.ts'
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

const everyTurning = turnings.map(([turning]) => turning)

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
    const turns = seam ? turnsOnto(seam, part) : everyTurning
    if (turns.length === 0) return asBlank
    return { ...asBlank, mid: lyingPart(part, box).mid, ends: part.slopes, turns, finished: true }
  }
  return parts.flatMap((part) => byCopy(asked(part), part))
}

const after: Readonly<Record<Turning, (ends: readonly [Slope, Slope]) => readonly [Slope, Slope]>> = {
  none: (ends) => ends,
  over: ([lead, trail]) => [minus(lead), minus(trail)],
  end: ([lead, trail]) => [trail, lead],
  flip: ([lead, trail]) => [minus(trail), minus(lead)],
}
const minus = ({ p, q }: Slope): Slope => ({ p: -p, q: -q })
const alike = (one: Slope, two: Slope) => Math.hypot(one.p - two.p, one.q - two.q) <= sameSlope

/** Whether the cut that ends one of these pieces can begin the next, turned as it may be. */
function sharesCuts({ ends }: NestPart, turns: readonly Turning[]): boolean {
  const lying = turns.map((turn) => after[turn](ends))
  return lying.some(([, trail]) => lying.some(([lead]) => alike(trail, lead)))
}

/** Why pieces with two miters come from the stick one by one: their seam keeps them from being turned over. */
export function seamNotes(parts: readonly Part[], asked: readonly NestPart[]): readonly Warning[] {
  const kept = parts.filter((part) => {
    const of = asked.find(({ key }) => key === part.key)
    const mitered = of?.finished && part.slopes.every((slope) => !isSquare(slope))
    return mitered && !sharesCuts(of, of.turns) && sharesCuts(of, everyTurning)
  })
  if (kept.length === 0) return []
  const marks = kept.map(({ mark }) => mark)
  return [
    {
      code: 'seam-keeps-cuts',
      text:
        `${marks.join(', ')}: no cut makes two ends, since the weld seam must not change its side and so no piece is turned over in the stick. ` +
        'Each takes its whole length and a kerf. Ways out: leave the seam free, or pin it to another side.',
      members: kept.flatMap(({ members }) => members),
    },
  ]
}
