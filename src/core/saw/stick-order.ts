import type { Slope } from '../nest.ts'
import type { Turn } from '../plan-shapes.ts'
import { roundLength } from '../reading/show.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { Holding } from './hold.ts'
import { isSquare, type Lying } from './lying.ts'
import { costOf, type Method } from './method.ts'
import { type Setting, sameSetting } from './setting.ts'
import { inFrame, rollTurns, type StickLie, stickOptions } from './stick-options.ts'
import { longSideOf, pointOf, stopAt } from './stop.ts'

/** A clean-up cut or a cut of a piece, in the order of the stick. */
export interface Act {
  readonly kind: 'clean' | 'cut'
  readonly slope: Slope
  readonly loss?: Mm
  /** As it lies in the stick. */
  readonly piece?: Lying
  /** A blank: it lies on its wide side when it comes off, as the cuts at its ends reckon with. */
  readonly flat?: true
  readonly kept: Mm
  /** Shortest edge between the cut and the stick's other end, mm, before the blade and behind it. */
  readonly room: Mm
  readonly left: Mm
}

/** How the saw stands. */
export interface Stand {
  readonly setting: Setting
  readonly stop: Mm | undefined
  readonly longSide?: 'fence' | 'outward' | undefined
}

export interface Around {
  readonly saw: Saw
  readonly shop: Shop
  readonly way: Holding
  readonly box: Pick<Lying, 'depth' | 'height' | 'round'>
  readonly cornerRadius: Mm
}

/** How one act is done. */
export interface Chosen {
  readonly act: Act
  readonly lie: StickLie
  readonly turns: readonly Turn[]
  readonly method: Method
  readonly setting: Setting
  /** Of a cut: the stop for the printed length, and as it is set. */
  readonly planned?: Mm
  readonly stop?: Mm
  readonly longSide?: 'fence' | 'outward'
  readonly parallel?: boolean
}

interface Node {
  readonly chosen?: Chosen
  readonly before?: Node
  readonly cost: number
  readonly roll: number
  readonly stand: Stand
}

/** Less than any minutes of a shop: what decides between ways that take equally long. */
const slight = 1e-6

/** A point away from the fence may slip past the stop: not to have it there is worth so many minutes at each cut. */
const pointOutward = 0.1

/**
 * The acts done one after the other in the fewest minutes: for each, how the stick lies and where the head stands. Exact:
 * what is still to come depends only on how stick, head and stop stand. Among equals the usual side at the fence. Ends
 * early before the first act that cannot be done, because the stop would stand too far or in the blade.
 */
export function best(acts: readonly Act[], around: Around, from: Stand, roll: number): readonly Chosen[] {
  let nodes: readonly Node[] = [{ cost: 0, roll, stand: from }]
  for (const act of acts) {
    const next = new Map<string, Node>()
    const choices = choicesOf(act, around)
    for (const node of nodes)
      for (const choice of choices) {
        const to = after(node, choice, around.saw)
        const name = JSON.stringify([to.roll, to.stand])
        const known = next.get(name)
        if (!known || to.cost < known.cost) next.set(name, to)
      }
    if (next.size === 0) break
    nodes = [...next.values()]
  }
  let at: Node | undefined = nodes.reduce((least, other) => (other.cost < least.cost ? other : least))
  const chosen: Chosen[] = []
  for (; at?.chosen; at = at.before) chosen.unshift(at.chosen)
  return chosen
}

type Choice = Omit<Chosen, 'turns'> & { readonly odds: number }

function choicesOf(act: Act, { saw, shop, way, box, cornerRadius }: Around): readonly Choice[] {
  return stickOptions(act.slope, box, saw, way).flatMap(({ lie, making }): Choice[] => {
    if (act.flat && lie.roll % 2 === 1) return []
    const base = {
      act,
      lie,
      method: making.method,
      setting: making.setting,
      odds: costOf(making.method) * 100 * slight,
    }
    if (!act.piece) return [base]
    const piece = inFrame(act.piece, lie)
    const planned = stopAt(piece, making.setting, cornerRadius)
    const stop = roundLength(planned, shop.reading)
    if (stop <= sameLength || stop > saw.limits.longestStop + sameLength) return []
    const { lead, trail } = piece
    return [
      {
        ...base,
        planned,
        stop,
        longSide: longSideOf(piece),
        parallel: !isSquare(lead) && Math.hypot(lead.p - trail.p, lead.q - trail.q) <= sameSlope,
        odds: base.odds + (pointOf(piece) === shop.longSide || isSquare(trail) ? 0 : pointOutward),
      },
    ]
  })
}

function after(node: Node, { odds, ...choice }: Choice, { minutes }: Saw): Node {
  const turns = rollTurns(node.roll, choice.lie.roll)
  const moves = !sameSetting(choice.setting, node.stand.setting)
  const kept = moves ? undefined : node.stand.stop
  // Another side at the fence is another set-up, tried anew.
  const stops =
    choice.stop !== undefined &&
    (kept === undefined ||
      choice.longSide !== node.stand.longSide ||
      Math.abs(kept - choice.stop) > sameLength)
  return {
    chosen: { ...choice, turns },
    before: node,
    cost:
      node.cost +
      (turns.length > 0 ? minutes.turn : 0) +
      (moves ? minutes.head : 0) +
      (stops ? minutes.stop : 0) +
      odds +
      slight * turns.length,
    roll: choice.lie.roll,
    stand: {
      setting: choice.setting,
      stop: choice.stop ?? kept,
      longSide: choice.longSide ?? (moves ? undefined : node.stand.longSide),
    },
  }
}
