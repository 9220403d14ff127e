import type { StickFace, Turn } from '../plan-shapes.ts'
import type { Saw } from '../shop.ts'
import { sameAngle, sameLength, sameSlope } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm } from '../units.ts'
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
  /** Whether the head swings that far, as the stop stands. */
  readonly within: (swing: Deg) => boolean
  readonly cornerRadius: Mm
  /** Unrounded length of the part beyond the printed one, mm. */
  readonly unrounded: Mm
  /** Half of the allowance: what the first end leaves for the second. */
  readonly half: Mm
  /** Size off the fence of the blank as it comes off the stick. */
  readonly across: Mm
  readonly prefer: 'fence' | 'outward'
}

/** A way to cut both ends of a part; its cuts are worked out when they are asked for. */
export interface Way {
  readonly cuts: () => readonly EndCut[]
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

/** Which of the eight a lay becomes by each swap: found once on a piece that no turning brings onto itself. */
const afterSwap: readonly (readonly number[])[] = (() => {
  const odd: Lying = { lead: { p: 1, q: 2 }, trail: { p: 3, q: 4 }, mid: 100, depth: 2, height: 1 }
  const names = lays.map((turns) => JSON.stringify(turnedBy(odd, turns)))
  return lays.map((lay) =>
    swaps.map((swap) => names.indexOf(JSON.stringify(turnedBy(odd, [...lay, ...swap])))),
  )
})()

/** The piece in one of its lays, with every way to make the end that is then at the blade. */
interface Laid {
  readonly piece: Lying
  readonly load: readonly Turn[]
  readonly ends: readonly Graded[]
}

/** One way to make an end, with what it is judged by. */
interface Graded {
  readonly making: Making
  readonly cost: number
  readonly odd: number
  readonly rolled: number
  readonly away: number
  readonly high: number
}

/** A way before it is ranked. */
interface Pairing {
  readonly cost: number
  readonly way: () => Way
}

/**
 * Every way to cut both ends of a part, the best first: how it lies, how each end is made, what is turned between. One is
 * asked for, seldom a second: dearer methods are not ranked before all cheaper ones were refused.
 */
export function* waysOf(target: Lying, loading: Loading): Generator<Way> {
  const pairings = pairingsOf(target, loading)
  const costs = [...new Set(pairings.map(({ cost }) => cost))].sort((one, two) => one - two)
  for (const cost of costs)
    yield* bestFirst(pairings.filter((each) => each.cost === cost).map(({ way }) => way()))
}

function pairingsOf(target: Lying, loading: Loading): readonly Pairing[] {
  const laid = lays.map((lay) => laidBy(target, lay, loading))
  const found: Pairing[] = []
  for (const [at, one] of laid.entries()) {
    if (isSquare(one.piece.trail)) continue
    const swapping = isSquare(one.piece.lead) ? [] : swaps
    if (swapping.length === 0)
      for (const end of one.ends) found.push({ cost: end.cost, way: () => onlyWay(one, at, end, loading) })
    for (const [which, swap] of swapping.entries()) {
      const next = laid[afterSwap[at]![which]!]!
      for (const first of one.ends)
        for (const second of next.ends)
          found.push({
            cost: first.cost + second.cost,
            way: () => bothWay(one, at, first, next, swap, second, loading),
          })
    }
  }
  return found
}

function* bestFirst(ways: readonly Way[]): Generator<Way> {
  const left = new Set(ways)
  while (left.size > 0) {
    let best: Way | undefined
    for (const way of left) if (!best || compare(way.rank, best.rank) < 0) best = way
    left.delete(best!)
    yield best!
  }
}

function laidBy(target: Lying, lay: readonly Turn[], { saw, round, within, across, prefer }: Loading): Laid {
  const piece = turnedBy(target, lay)
  const graded = (making: Making): Graded => ({
    making,
    cost: costOf(making.method),
    odd: oddAngles(making.setting),
    rolled: Math.round(Math.abs(making.setting.roll) / sameAngle),
    away: pointOf(piece, making.setting.roll) === prefer ? 0 : 1,
    high: piece.lead.q > sameSlope ? 1 : 0,
  })
  return {
    piece,
    load: Math.abs(piece.depth - across) > sameLength ? ['quarter+'] : [],
    ends: makings(piece.trail, saw, round)
      .filter(({ setting }) => within(setting.swing))
      .map(graded),
  }
}

function onlyWay({ piece, load }: Laid, at: number, end: Graded, loading: Loading): Way {
  const turned: Turned = { turns: load, before: [], lay: lays[at]! }
  return {
    cuts: () => [endCut('only', piece, end.making, turned, loading)],
    rank: rankOf([end], load.length),
  }
}

function bothWay(
  { piece, load }: Laid,
  at: number,
  first: Graded,
  { piece: after }: Laid,
  swap: readonly Turn[],
  second: Graded,
  loading: Loading,
): Way {
  const lay = lays[at]!
  return {
    cuts: () => [
      endCut(
        'first',
        beforeLead(piece, loading.half),
        first.making,
        { turns: load, before: [], lay },
        loading,
      ),
      endCut('second', after, second.making, { turns: swap, before: load, lay: [...lay, ...swap] }, loading),
    ],
    rank: rankOf([first, second], load.length + swap.length),
  }
}

function rankOf(ends: readonly Graded[], turns: number): readonly number[] {
  const sum = (count: (end: Graded) => number) => ends.reduce((all, end) => all + count(end), 0)
  const [first, second] = ends.map(({ making }) => making.setting)
  return [
    sum(({ odd }) => odd),
    sum(({ rolled }) => rolled),
    // What is still square all round needs no turning.
    first!.roll === 0 ? 0 : 1,
    sum(({ away }) => away),
    turns,
    sum(({ high }) => high),
    second && Math.abs(first!.swing) < Math.abs(second.swing) ? 1 : 0,
    second && !sameSetting(first!, second) ? 1 : 0,
  ]
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

function compare(one: readonly number[], two: readonly number[]): number {
  for (let at = 0; at < one.length; at++) if (one[at] !== two[at]) return one[at]! - two[at]!
  return 0
}
