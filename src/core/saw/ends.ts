import { sawFor } from '../parts/demand.ts'
import type { Part, Turn } from '../plan-shapes.ts'
import { readingStep, roundLength } from '../reading/show.ts'
import type { Result } from '../result.ts'
import { good } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Reading, Saw, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import { stepsPerMm } from '../units.ts'
import { type Box, boxOf } from './box.ts'
import { holdsCut, pieceHolding, reaches } from './hold.ts'
import { extentOf, isSquare, type Lying, mirrored, shortestEdge, tips, turnedBy } from './lying.ts'
import {
  bluntCorner,
  compoundEnd,
  notHeld,
  pastLimit,
  pastStop,
  stopInBlade,
  wrongBlank,
} from './refusals.ts'
import { settingOf } from './setting.ts'
import { beforeLead, longSideOf, pointOf, stopOf } from './stop.ts'

/** One cut at the end of a blank; `exact` is the unrounded stop, mm. */
export interface EndCut {
  readonly kind: 'first' | 'second' | 'only'
  readonly swing: Deg
  readonly exact: Mm
  /** After loading, before the cut. */
  readonly turns: readonly Turn[]
  readonly longSide: 'fence' | 'outward'
  readonly faceDown: '-z' | '+z' | '-y' | '+y'
  /** Both sides equal: the point that touches the stop then stands for the long side. */
  readonly parallel: boolean
  /** What is kept, as it lies when it is cut. */
  readonly kept: Lying
}

/** How the part lies in a stick, leading end at the stop, with its printed length and the true size of the section. */
export function lyingPart({ slopes, printed }: Part, { big, small }: Box): Lying {
  const shape = { lead: slopes[0], trail: slopes[1], depth: big, height: small }
  const length = printed.length.mm
  return { ...shape, mid: printed.primary === 'edge' ? length : length - tips(shape) }
}

/** The eight ways in which a piece can lie along the fence. */
const lays: readonly (readonly Turn[])[] = [
  [],
  ['over'],
  ['end'],
  ['flip'],
  ['quarter+'],
  ['quarter-'],
  ['quarter+', 'end'],
  ['quarter+', 'flip'],
]

/** The four that bring the cut end to the stop. */
const swaps: readonly (readonly Turn[])[] = [['flip'], ['end'], ['quarter+', 'flip'], ['quarter+', 'end']]

const facesDown = ['-z', '-y', '+z', '+y'] as const

const quarters = (turns: readonly Turn[]): number => turns.filter((turn) => turn === 'quarter+').length

/** A saw that only swings can cut the trailing end. */
const plain = ({ trail }: Lying): boolean => Math.abs(trail.q) <= sameSlope

interface Way {
  readonly cuts: readonly EndCut[]
  /** Less is better, one place after the other. */
  readonly rank: readonly number[]
}

/**
 * The cuts that turn a square blank into a part, on the saw of its section: which end first, which side at the fence,
 * which turning between. Chosen: what the saw can do; the shop's usual side at the fence; fewest turns; the point that
 * touches the stop down at the table; steepest end first, which lets all parts share one order of head angles.
 *
 * `blank` is the length of the blank in the stick, mm, `section` the stick's, width off the fence. Refused, with a way
 * out: a blank shorter than the part, a compound end, a miter past the limits, a stop too far or none, too short to hold.
 */
export function cutEnds(part: Part, blank: Mm, section: Section, shop: Shop): Result<readonly EndCut[]> {
  const saw = sawFor(shop, section)
  const box = boxOf(section, shop)
  const inHand = lyingPart(part, box)
  const holding = pieceHolding(saw)
  if ([inHand.lead, inHand.trail].some(({ p, q }) => Math.abs(p) > sameSlope && Math.abs(q) > sameSlope))
    return compoundEnd(part, saw)
  const spare = blank - extentOf(inHand)
  if (spare < -sameLength) return wrongBlank(part, blank, extentOf(inHand), shop.reading)
  const target = holding.stopSide === 'right' ? mirrored(inHand) : inHand
  const loading: Loading = {
    half: spare * stepsPerMm < 1 ? 0 : Math.min(shop.blankAllowance, spare) / 2,
    across: section.width >= section.height ? box.big : box.small,
    prefer: shop.longSide,
  }
  const within = lays
    .flatMap((turns) => waysFrom(turnedBy(target, turns), loading))
    .sort((one, two) => compare(one.rank, two.rank))
    .filter(({ cuts }) => cuts.every(({ swing }) => reaches(saw, holding, swing)))
    .map(({ cuts }) => allowed(cuts, part, saw, loading.half, shop.reading))
  return within.find(({ ok }) => ok) ?? within[0] ?? pastLimit(part, saw, holding, shop.reading)
}

/** The cuts, if stop and vise can do them and the rounded stops leave both ends their corners. */
function allowed(
  cuts: readonly EndCut[],
  { mark }: Part,
  saw: Saw,
  half: Mm,
  reading: Reading,
): Result<readonly EndCut[]> {
  for (const { exact, kept } of cuts) {
    const stop = roundLength(exact, reading)
    if (stop <= sameLength) return stopInBlade(mark, exact, reading)
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
  const [first = 0, second = 0] = cuts.map(({ exact }) => roundLength(exact, reading) - exact)
  return cuts.length === 2 ? second - first - half : 0
}

interface Loading {
  /** Half of the allowance: what the first end leaves for the second. */
  readonly half: Mm
  /** Size off the fence of the blank as it comes off the stick. */
  readonly across: Mm
  readonly prefer: 'fence' | 'outward'
}

function waysFrom(laid: Lying, { half, across, prefer }: Loading): Way[] {
  if (!plain(laid)) return []
  const load: readonly Turn[] = Math.abs(laid.depth - across) > sameLength ? ['quarter+'] : []
  if (isSquare(laid.lead)) return [way([endCut('only', laid, stopOf(laid), load, 0)], [laid], prefer)]
  if (isSquare(laid.trail)) return []
  const kept = beforeLead(laid, half)
  const first = endCut('first', kept, stopOf(kept), load, 0)
  return swaps
    .map((turns) => ({ turns, after: turnedBy(laid, turns) }))
    .filter(({ after }) => plain(after))
    .map(({ turns, after }) =>
      way([first, endCut('second', after, stopOf(after), turns, quarters(load))], [laid, after], prefer),
    )
}

function endCut(
  kind: EndCut['kind'],
  piece: Lying,
  exact: Mm,
  turns: readonly Turn[],
  rolled: number,
): EndCut {
  const { lead, trail } = piece
  return {
    kind,
    swing: settingOf(trail).swing,
    exact,
    turns,
    longSide: longSideOf(piece),
    faceDown: facesDown[(rolled + quarters(turns)) % 4]!,
    parallel: !isSquare(lead) && Math.abs(lead.p - trail.p) <= sameSlope,
    kept: piece,
  }
}

/** `pieces`: the finished piece as it lies at each of the cuts. */
const way = (cuts: readonly EndCut[], pieces: readonly Lying[], prefer: 'fence' | 'outward'): Way => ({
  cuts,
  rank: [
    pieces.filter((piece) => pointOf(piece) !== prefer).length,
    cuts.reduce((sum, { turns }) => sum + turns.length, 0),
    pieces.filter(({ lead }) => lead.q > sameSlope).length,
    cuts.length === 2 && Math.abs(cuts[0]!.swing) < Math.abs(cuts[1]!.swing) ? 1 : 0,
  ],
})

function compare(one: readonly number[], two: readonly number[]): number {
  const at = one.findIndex((value, place) => value !== two[place])
  return at < 0 ? 0 : one[at]! - two[at]!
}
