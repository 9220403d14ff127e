import type { StickFace, Turn } from '../plan-shapes.ts'
import type { Saw } from '../shop.ts'
import { sameAngle, sameLength, sameSlope } from '../tolerance.ts'
import { cosDeg, type Mm } from '../units.ts'
import { isSquare, type Lying, type Side, sideAfter, turnedBy } from './lying.ts'
import { costOf, type Making, type Method, makings, oddAngles } from './method.ts'
import { type Setting, sameSetting } from './setting.ts'
import { beforeLead, longSideOf, pointOf, stopAt } from './stop.ts'

/** One cut at the end of a blank. */
export interface EndCut extends Setting {
  readonly kind: 'first' | 'second' | 'only'
  readonly method: Method
  /** Stop for the printed length, mm, before it is rounded to what can be set. */
  readonly planned: Mm
  /** Stop for the unrounded length of the part, mm. */
  readonly exact: Mm
  /** After loading, before the cut. */
  readonly turns: readonly Turn[]
  /** From the part as it lies in a stick to how it lies at this cut. */
  readonly lay: readonly Turn[]
  readonly longSide: 'fence' | 'outward'
  readonly faceDown: StickFace
  /** Both sides equal: the point that touches the stop then stands for the long side. */
  readonly parallel: boolean
  /** What is kept, as it lies when it is cut. */
  readonly kept: Lying
}

export interface Loading {
  readonly saw: Saw
  readonly round: boolean
  readonly cornerRadius: Mm
  /** Unrounded length of the part beyond the printed one, mm. */
  readonly unrounded: Mm
  /** Half of the allowance: what the first end leaves for the second. */
  readonly half: Mm
  /** Size off the fence of the blank as it comes off the stick. */
  readonly across: Mm
  readonly prefer: 'fence' | 'outward'
}

export interface Way {
  readonly cuts: readonly EndCut[]
  /** Less is better, one place after the other. */
  readonly rank: readonly number[]
}

/** The eight ways in which a piece can lie along the fence. */
export const lays: readonly (readonly Turn[])[] = [
  [],
  ['over'],
  ['end'],
  ['flip'],
  ['quarter+'],
  ['quarter-'],
  ['quarter+', 'end'],
  ['quarter+', 'flip'],
]

/** The four that bring the cut end to the stop. Where the ends are crossed only some of them are right: one hand. */
const swaps: readonly (readonly Turn[])[] = [['flip'], ['end'], ['quarter+', 'flip'], ['quarter+', 'end']]

/** Every way to cut both ends of a part: how it lies first, how each end is made, what is turned between. */
export function waysOf(target: Lying, loading: Loading): Way[] {
  return lays.flatMap((lay) => waysFrom(target, lay, loading)).sort((one, two) => compare(one.rank, two.rank))
}

function waysFrom(target: Lying, lay: readonly Turn[], loading: Loading): Way[] {
  const { saw, round, across, half } = loading
  const laid = turnedBy(target, lay)
  if (isSquare(laid.trail)) return []
  const load: readonly Turn[] = Math.abs(laid.depth - across) > sameLength ? ['quarter+'] : []
  const firsts = makings(laid.trail, saw, round)
  if (isSquare(laid.lead))
    return firsts.map((making) => {
      const cut = endCut('only', laid, making, { turns: load, before: [], lay }, loading)
      return way([cut], [laid], loading)
    })
  const kept = beforeLead(laid, half)
  return firsts.flatMap((one) => {
    const first = endCut('first', kept, one, { turns: load, before: [], lay }, loading)
    return swaps.flatMap((turns) => {
      const after = turnedBy(laid, turns)
      return makings(after.trail, saw, round).map((two) => {
        const second = endCut('second', after, two, { turns, before: load, lay: [...lay, ...turns] }, loading)
        return way([first, second], [laid, after], loading)
      })
    })
  })
}

interface Turned {
  readonly turns: readonly Turn[]
  /** Turnings of the cut before. */
  readonly before: readonly Turn[]
  readonly lay: readonly Turn[]
}

function endCut(
  kind: EndCut['kind'],
  piece: Lying,
  { method, setting }: Making,
  { turns, before, lay }: Turned,
  { cornerRadius, unrounded }: Loading,
): EndCut {
  const { lead, trail } = piece
  const planned = stopAt(piece, setting, cornerRadius)
  return {
    kind,
    method,
    ...setting,
    planned,
    exact: planned + unrounded * cosDeg(setting.ramp),
    turns,
    lay,
    longSide: longSideOf(piece, setting.roll),
    faceDown: faceDownAfter([...before, ...turns]),
    parallel: !isSquare(lead) && Math.hypot(lead.p - trail.p, lead.q - trail.q) <= sameSlope,
    kept: piece,
  }
}

const faces: readonly (readonly [StickFace, Side])[] = [
  ['-z', 'down'],
  ['+z', 'up'],
  ['-y', 'fence'],
  ['+y', 'outward'],
]

export const sideOfFace = (face: StickFace): Side => faces.find(([each]) => each === face)![1]

const faceDownAfter = (turns: readonly Turn[]): StickFace =>
  faces.find(([, side]) => sideAfter(side, turns) === 'down')![0]

/** `pieces`: the finished piece as it lies at each of the cuts. */
function way(cuts: readonly EndCut[], pieces: readonly Lying[], { prefer }: Loading): Way {
  const sum = (count: (cut: EndCut) => number) => cuts.reduce((all, cut) => all + count(cut), 0)
  const [first, second] = cuts
  return {
    cuts,
    rank: [
      sum(({ method }) => costOf(method)),
      sum(oddAngles),
      Math.round(sum(({ roll }) => Math.abs(roll)) / sameAngle),
      // What is still square all round needs no turning.
      first!.roll === 0 ? 0 : 1,
      pieces.filter((piece, at) => pointOf(piece, cuts[at]!.roll) !== prefer).length,
      sum(({ turns }) => turns.length),
      pieces.filter(({ lead }) => lead.q > sameSlope).length,
      second && Math.abs(first!.swing) < Math.abs(second.swing) ? 1 : 0,
      second && !sameSetting(first!, second) ? 1 : 0,
    ],
  }
}

function compare(one: readonly number[], two: readonly number[]): number {
  const at = one.findIndex((value, place) => value !== two[place])
  return at < 0 ? 0 : one[at]! - two[at]!
}
