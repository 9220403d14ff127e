import { sawFor } from '../parts/demand.ts'
import { primaryOf } from '../parts/parts.ts'
import type { Part } from '../plan-shapes.ts'
import { readingStep, roundLength } from '../reading/show.ts'
import type { Result } from '../result.ts'
import { good } from '../result.ts'
import { isRound, type Section, turnOf } from '../section/section.ts'
import type { Reading, Saw, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { cosDeg, type Mm, stepsPerMm } from '../units.ts'
import { type Box, boxOf } from './box.ts'
import { holdsCut, pieceHolding, reaches } from './hold.ts'
import { extentOf, type Lying, mirrored, shortestEdge, tips } from './lying.ts'
import { isCompound } from './method.ts'
import {
  bluntCorner,
  compoundEnd,
  notHeld,
  pastLimit,
  pastStop,
  stopInBlade,
  wrongBlank,
} from './refusals.ts'
import { type EndCut, waysOf } from './ways.ts'

/** How the part lies in a stick, leading end at the stop, with its printed length and the true size of the section. */
export function lyingPart({ slopes, printed, section }: Part, { big, small }: Box): Lying {
  const round = isRound(section) ? ({ round: true } as const) : {}
  const shape = { lead: slopes[0], trail: slopes[1], depth: big, height: small, ...round }
  const length = printed.length.mm
  return { ...shape, mid: printed.primary === 'edge' ? length : length - tips(shape) }
}

/** How much longer a part is than it is printed, mm: what the exact stops have more than the planned ones. */
export const beyondPrinted = (part: Part): Mm => primaryOf(part) - part.printed.length.mm

/**
 * The cuts that turn a square blank into a part, on the saw of its section: which end first, which face down, which side
 * at the fence, how a compound end is made, which turning between. Chosen: what the saw can do; a swing alone before a
 * bevel, a cradle, a ramp; the lay that shows the splay itself; the shop's usual side at the fence; fewest turns; the
 * point that touches the stop down at the table; steepest end first, which lets all parts share one order of head angles.
 *
 * `blank` is the length of the blank in the stick, mm, `section` the stick's, width off the fence. Refused, with a way
 * out: a blank shorter than the part, a compound end that this saw has no way to, a miter past the limits, a stop too far
 * or none, too short to hold.
 */
export function cutEnds(part: Part, blank: Mm, section: Section, shop: Shop): Result<readonly EndCut[]> {
  const saw = sawFor(shop, section)
  const box = boxOf(section, shop)
  const inHand = lyingPart(part, box)
  const holding = pieceHolding(saw)
  const round = isRound(section)
  const spare = blank - extentOf(inHand)
  if (spare < -sameLength) return wrongBlank(part, blank, extentOf(inHand), shop.reading)
  const half = spare * stepsPerMm < 1 ? 0 : Math.min(shop.blankAllowance, spare) / 2
  const ways = waysOf(holding.stopSide === 'right' ? mirrored(inHand) : inHand, {
    saw,
    round,
    within: (swing) => reaches(saw, holding, swing),
    cornerRadius: turnOf(round ? { ...section, width: box.big } : section),
    unrounded: beyondPrinted(part),
    half,
    across: section.width >= section.height ? box.big : box.small,
    prefer: shop.longSide,
  })
  // Worked out one after the other, until one is allowed: the best is nearly always the first.
  let refused: Result<readonly EndCut[]> | undefined
  for (const way of ways) {
    const found = allowed(way.cuts(), part, saw, half, shop.reading)
    if (found.ok) return found
    refused ??= found
  }
  if (refused) return refused
  return !round && part.slopes.some(isCompound)
    ? compoundEnd(part, saw, holding, shop.reading)
    : pastLimit(part, saw, holding, shop.reading)
}

/** The cuts, if stop and vise can do them and the rounded stops leave both ends their corners. */
function allowed(
  cuts: readonly EndCut[],
  { mark }: Part,
  saw: Saw,
  half: Mm,
  reading: Reading,
): Result<readonly EndCut[]> {
  for (const { planned, kept } of cuts) {
    const stop = roundLength(planned, reading)
    if (stop <= sameLength) return stopInBlade(mark, planned, reading)
    if (stop > saw.limits.longestStop + sameLength) return pastStop(mark, stop, saw, reading)
    const held = shortestEdge(kept)
    if (!holdsCut(saw, pieceHolding(saw), { kept: held, left: 0 })) return notHeld(mark, held, saw, reading)
  }
  const lost = cornerLost(cuts, half, reading)
  return lost > readingStep(reading) / 2 + sameLength ? bluntCorner(mark, lost, reading) : good(cuts)
}

/**
 * Steel that the second end lacks at its corner, mm, where the first stop was rounded down and the second up: each
 * alone may take half a step of the reading, and that is nothing; both together would show.
 */
function cornerLost(cuts: readonly EndCut[], half: Mm, reading: Reading): Mm {
  const [first = 0, second = 0] = cuts.map(
    ({ planned, ramp }) => (roundLength(planned, reading) - planned) / cosDeg(ramp),
  )
  return cuts.length === 2 ? second - first - half : 0
}
