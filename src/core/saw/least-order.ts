import type { Saw } from '../shop.ts'

// The order of work that takes the fewest minutes of all: heads, stops and loads, every possible order looked at.

/**
 * How head and stop stand at a cut. `head` is a number of its own for each saw and angle. At a clean-up cut by itself only
 * the head is set.
 */
export interface Standing {
  readonly saw: number
  readonly head: number
  readonly cleanUp?: true
}

/** Cuts of one stick at one stop. */
export interface Segment {
  readonly stick: number
  /** Sticks of one kind are alike in all their segments. */
  readonly kind: string
  readonly standing: number
  /** Distance of the stop, mm. */
  readonly mm: number
  /** How many workpieces are loaded for it: sticks that lie side by side. */
  readonly loads: number
  /** Segment of the same stick that must be cut before. */
  readonly after?: number
  /** Held in another way than the one before: the stick is loaded anew. */
  readonly anew?: boolean
  /** Of each blank that it gives and that is cut further, its kind; and the kinds of which one may be in hand then. */
  readonly gives: readonly number[]
  readonly inHand: readonly number[]
}

export interface Tasks {
  readonly minutes: readonly Pick<Saw['minutes'], 'head' | 'stop' | 'load'>[]
  /** The head that each saw begins with. */
  readonly begins: readonly number[]
  readonly standings: readonly Standing[]
  readonly segments: readonly Segment[]
  /** By kind of blank, how head and stop stand at its one or two ends in their order. */
  readonly ends: readonly (readonly number[])[]
}

/** The next thing to do; `carried`: what it is done to is in hand from the cut before. */
export type Move =
  | { readonly segment: number; readonly carried: boolean }
  | { readonly blank: number; readonly end: number; readonly carried: boolean }

interface State {
  readonly cut: number
  readonly first: readonly number[]
  readonly second: readonly number[]
  /** By saw: the standing, or −1 before anything is set. */
  readonly stands: readonly number[]
  /** The segment just cut, a kind of blank as −2 − kind whose first end was just cut, or −1. */
  readonly hand: number
}

interface Node {
  readonly state: State
  readonly spent: number
  readonly least: number
  readonly move?: Move
  readonly before?: Node
}

const slight = 1e-9
/** Minutes that decide between orders that take equally long: off one stick the longest first, the short drop is left. */
const shorterFirst = 1e-6
const mostSegments = 30
const mostOfOne = 100

/**
 * The moves in an order that takes less than `below` minutes, the least of all; undefined where there is none, or where
 * it was not found within so many `steps`.
 */
export function leastOrder(tasks: Tasks, below: number, steps: number): readonly Move[] | undefined {
  const { segments, ends } = tasks
  const counts = ends.map((_, kind) => segments.reduce((sum, { gives }) => sum + count(gives, kind), 0))
  if (segments.length > mostSegments || counts.some((many) => many > mostOfOne)) return undefined
  const bound = boundOf(tasks, counts)
  const none = ends.map(() => 0)
  const begin: State = { cut: 0, first: none, second: none, stands: tasks.begins.map(() => -1), hand: -1 }
  const known = new Map<string, number>([[nameOf(begin), 0]])
  const open = new Heap()
  open.push({ state: begin, spent: 0, least: bound(begin) })
  for (let left = steps; left > 0; left--) {
    const node = open.pop()
    if (!node || node.least >= below - slight) return undefined
    if (node.spent > known.get(nameOf(node.state))! + slight) continue
    const moves = movesFrom(tasks, counts, node.state)
    if (moves.length === 0) return rowOf(node)
    for (const { move, state, minutes } of moves) {
      const spent = node.spent + minutes
      const name = nameOf(state)
      const before = known.get(name)
      if (before !== undefined && before <= spent + slight) continue
      const least = spent + bound(state)
      if (least >= below - slight) continue
      known.set(name, spent)
      open.push({ state, spent, least, move, before: node })
    }
  }
  return undefined
}

const count = (list: readonly number[], one: number): number => list.filter((each) => each === one).length

const nameOf = ({ cut, first, second, stands, hand }: State): string =>
  `${cut} ${first} ${second} ${stands} ${hand}`

function rowOf(last: Node): readonly Move[] {
  const moves: Move[] = []
  for (let at: Node | undefined = last; at?.move; at = at.before) moves.unshift(at.move)
  return moves
}

const isCut = ({ cut }: State, segment: number): boolean => (cut & (1 << segment)) !== 0

/** Everything that can be done next. A stick is not begun before one of its kind that stands before it in the list. */
function movesFrom(tasks: Tasks, counts: readonly number[], state: State) {
  const { segments, ends, standings, minutes, begins } = tasks
  const found: { move: Move; state: State; minutes: number }[] = []
  const add = (
    move: Move,
    standing: number,
    next: Pick<State, 'cut' | 'first' | 'second' | 'hand'>,
    odds = 0,
    loads = 1,
  ) => {
    const { saw, head, cleanUp } = standings[standing]!
    const stood = state.stands[saw]!
    const per = minutes[saw]!
    const swung = (stood < 0 ? begins[saw] : standings[stood]!.head) === head ? 0 : per.head
    const moved = cleanUp || stood === standing ? 0 : per.stop
    // A clean-up cut at the head that is set leaves the stop as it stands.
    const now = cleanUp && swung === 0 ? stood : standing
    const stands = state.stands.map((each, at) => (at === saw ? now : each))
    const load = move.carried ? 0 : per.load * loads
    found.push({ move, state: { ...next, stands }, minutes: moved + swung + load + odds })
  }
  const begun = new Set(segments.flatMap(({ stick }, at) => (isCut(state, at) ? [stick] : [])))
  const waiting = new Map<string, number>()
  for (const { stick, kind } of segments)
    if (!begun.has(stick)) waiting.set(kind, Math.min(stick, waiting.get(kind) ?? stick))
  for (const [at, segment] of segments.entries()) {
    const { stick, kind, standing, mm, after, anew, gives, loads } = segment
    if (isCut(state, at) || (!begun.has(stick) && waiting.get(kind) !== stick)) continue
    if (after !== undefined && !isCut(state, after)) continue
    const cut = state.cut | (1 << at)
    // Worth remembering only while there is something to go on with.
    const goesOn =
      gives.length > 0 || segments.some((other, place) => other.stick === stick && (cut & (1 << place)) === 0)
    const carried = !anew && state.hand >= 0 && segments[state.hand]!.stick === stick
    const odds = carried && segments[state.hand]!.mm < mm ? shorterFirst : 0
    add({ segment: at, carried }, standing, { ...state, cut, hand: goesOn ? at : -1 }, odds, loads)
  }
  for (const [kind, [one, two]] of ends.entries()) {
    const there = segments.reduce(
      (sum, { gives }, at) => sum + (isCut(state, at) ? count(gives, kind) : 0),
      0,
    )
    if (there > state.first[kind]!) {
      const carried = state.hand >= 0 && segments[state.hand]!.inHand.includes(kind)
      const first = state.first.map((many, at) => (at === kind ? many + 1 : many))
      const second = two === undefined ? first : state.second
      add({ blank: kind, end: 0, carried }, one!, {
        ...state,
        first,
        second: two === undefined ? state.second.map((many, at) => (at === kind ? many + 1 : many)) : second,
        hand: two === undefined ? -1 : -2 - kind,
      })
    }
    if (two !== undefined && state.first[kind]! > state.second[kind]! && counts[kind]! > 0)
      add({ blank: kind, end: 1, carried: state.hand === -2 - kind }, two, {
        ...state,
        second: state.second.map((many, at) => (at === kind ? many + 1 : many)),
        hand: -1,
      })
  }
  return found
}

/**
 * Minutes that are still to come at the least. Each task is a load, but what is carried from the cut before. A carry needs
 * a move of the stop of its own. After a blank is carried to its miter, head and stop come back for the next one; a half
 * carried to its second stop needs the first stop set again for the next, unless seconds of one are firsts of another.
 */
function boundOf({ minutes, begins, standings, segments, ends }: Tasks, counts: readonly number[]) {
  const known = new Map<string, number>()
  const firstsAt = new Set(ends.map(([one]) => one))
  const apart = !ends.some(([, two]) => two !== undefined && firstsAt.has(two))
  const isCleanUp = (at: number) => standings[segments[at]!.standing]!.cleanUp === true
  return (state: State): number => {
    let sum = 0
    for (const [saw, per] of minutes.entries()) {
      const here = (standing: number) => standings[standing]!.saw === saw
      const stands = state.stands[saw]!
      const head = stands < 0 ? begins[saw]! : standings[stands]!.head
      const open = new Set<number>()
      const heads = new Set<number>()
      const opens = (standing: number) => {
        const { head: at, cleanUp } = standings[standing]!
        heads.add(at)
        if (!cleanUp) open.add(standing)
      }
      let loads = 0
      let most = 1
      let [sticks, halves, blanks] = [0, 0, 0]
      const ofStick = new Map<number, { many: number; carried: number; loaded: boolean }>()
      for (const [at, segment] of segments.entries()) {
        const { stick, standing, after, anew } = segment
        if (isCut(state, at) || !here(standing)) continue
        opens(standing)
        const of = ofStick.get(stick) ?? { many: 0, carried: 0, loaded: true }
        // What comes in hand to a clean-up cut of its own, or from it, moves the stop once or never: not counted.
        if (after !== undefined && (isCleanUp(at) || isCleanUp(after))) {
          if (of.many === 0) ofStick.set(stick, { ...of, loaded: false })
          continue
        }
        loads += segment.loads
        most = Math.max(most, segment.loads)
        ofStick.set(stick, { ...of, many: of.many + 1, carried: of.carried + (anew ? 0 : 1) })
      }
      const inHand = state.hand >= 0 ? segments[state.hand]!.stick : -1
      for (const [stick, { many, carried, loaded }] of ofStick)
        sticks += Math.min(carried, Math.max(0, many - (loaded && stick !== inHand ? 1 : 0)))
      for (const [kind, [one, two]] of ends.entries()) {
        const firsts = counts[kind]! - state.first[kind]!
        if (firsts > 0 && here(one!)) {
          opens(one!)
          loads += firsts
          const uncut = segments.reduce(
            (sum, { gives }, at) => sum + (isCut(state, at) && at !== state.hand ? 0 : count(gives, kind)),
            0,
          )
          blanks += Math.min(firsts, uncut)
        }
        const seconds = two === undefined ? 0 : counts[kind]! - state.second[kind]!
        if (seconds > 0 && here(two!)) {
          opens(two!)
          loads += seconds
          halves += firsts + (state.hand === -2 - kind ? 1 : 0)
        }
      }
      open.delete(stands)
      heads.delete(head)
      // One workpiece is in hand after a cut: no more blanks are carried than there are segments to cut them in.
      const giving = segments.filter(
        (segment, at) =>
          here(segment.standing) && segment.inHand.length > 0 && (!isCut(state, at) || at === state.hand),
      ).length
      blanks = Math.min(blanks, giving)
      const name = [saw, open.size, heads.size, sticks, halves, blanks, most].join(' ')
      let rest = known.get(name)
      if (rest === undefined) {
        rest = leastMoves(per, open.size, heads.size, { sticks, halves, blanks, apart, most })
        known.set(name, rest)
      }
      sum += loads * per.load + rest
    }
    return sum
  }
}

/** The most that can be carried from one cut to the next; `apart`: no second end stands as a first one does. */
interface Carries {
  readonly sticks: number
  readonly halves: number
  readonly blanks: number
  readonly apart: boolean
  /** Workpieces of a stick at the most. */
  readonly most: number
}

/** Least minutes of moves, less the loads saved, over all numbers of carries. */
function leastMoves(
  { head, stop, load }: Tasks['minutes'][number],
  stops: number,
  heads: number,
  { sticks, halves, blanks, apart, most }: Carries,
): number {
  let least = Number.POSITIVE_INFINITY
  for (let half = 0; half <= halves; half++)
    for (let blank = 0; blank <= blanks; blank++) {
      const others = half + Math.max(blank, apart ? half - 1 : 0) + Math.max(0, blank - 1)
      for (const stick of [0, Math.min(sticks, Math.max(0, stops - others)), sticks]) {
        const moves = Math.max(stops, stick + others)
        const swings = Math.max(heads, 2 * blank - 1)
        least = Math.min(least, moves * stop + swings * head - (half + blank + stick * most) * load)
      }
    }
  return least
}

/** Nodes, the least first; among equals the one that has spent most. */
class Heap {
  private readonly nodes: Node[] = []

  push(node: Node): void {
    const { nodes } = this
    let at = nodes.push(node) - 1
    while (at > 0) {
      const up = (at - 1) >> 1
      if (!before(node, nodes[up]!)) break
      nodes[at] = nodes[up]!
      at = up
    }
    nodes[at] = node
  }

  pop(): Node | undefined {
    const { nodes } = this
    const first = nodes[0]
    const last = nodes.pop()
    if (!first || !last || nodes.length === 0) return first
    let at = 0
    for (;;) {
      let down = 2 * at + 1
      if (down >= nodes.length) break
      if (down + 1 < nodes.length && before(nodes[down + 1]!, nodes[down]!)) down += 1
      if (!before(nodes[down]!, last)) break
      nodes[at] = nodes[down]!
      at = down
    }
    nodes[at] = last
    return first
  }
}

const before = (one: Node, two: Node): boolean =>
  one.least < two.least - slight || (one.least <= two.least + slight && one.spent > two.spent)
