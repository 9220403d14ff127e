// The least minutes of heads, stops and loads over every order in which the cuts of a run can be made. It takes from the
// run what is cut, from what, and how the saw stands for it; nothing of how an order is found.
import type { Run, SetUp } from '../../../src/core/plan-shapes.ts'
import type { Saw } from '../../../src/core/shop.ts'

interface Piece {
  readonly keep: string
  /** The stick that it comes off, or the blank or half that it is made of. */
  readonly from: string
  readonly offStick: boolean
  readonly stands: string
  readonly saw: string
  readonly head: string
}

const headOf = ({ swing, tilt, roll, ramp }: SetUp): string =>
  [swing, tilt, roll, ramp].map((angle) => angle.toFixed(6)).join(' ')

function piecesOf({ programs, setUps, products }: Run): readonly Piece[] {
  const made = new Map(products.map((product) => [product.id, product]))
  const setOf = new Map(setUps.map((set) => [set.id, set]))
  return programs.flatMap(({ load, steps }) => {
    // What is left of a stick is the stick.
    let from = load
    for (let at = made.get(from); at?.kind === 'rest'; at = made.get(from)) from = at.from
    return steps.flatMap((step): Piece[] => {
      if (!('cut' in step)) return []
      const set = setOf.get(step.setUp)!
      const head = headOf(set)
      const stands = `${set.saw} ${head} ${set.stop.toFixed(4)} ${set.stopSide}`
      return [{ keep: step.cut.keep, from, offStick: !made.has(from), stands, saw: set.saw, head }]
    })
  })
}

/** How many ways head and stop stand in this run. */
export const standingsOf = (run: Run): number => new Set(piecesOf(run).map(({ stands }) => stands)).size

export function leastMinutes(run: Run, saws: readonly Saw[]): number {
  const pieces = piecesOf(run)
  const per = new Map(saws.map(({ id, minutes }) => [id, minutes]))
  const waits = pieces.map(({ from }) => pieces.findIndex(({ keep }) => keep === from))
  const known = new Map<string, number>()
  const atSquare = [0, 0, 0, 0].map((angle) => angle.toFixed(6)).join(' ')

  /** Least minutes from here on: `stood` is the last cut made on each saw. */
  function from(done: number, last: number, stood: ReadonlyMap<string, number>): number {
    if (done === (1 << pieces.length) - 1) return 0
    const name = `${done} ${last} ${[...stood.values()].map((at) => pieces[at]!.stands).join()}`
    const before = known.get(name)
    if (before !== undefined) return before
    let least = Number.POSITIVE_INFINITY
    for (const [at, piece] of pieces.entries()) {
      if (done & (1 << at)) continue
      const wait = waits[at]!
      if (wait >= 0 && !(done & (1 << wait))) continue
      const minutes = per.get(piece.saw)!
      const was = stood.get(piece.saw)
      const head = was === undefined ? atSquare : pieces[was]!.head
      const inHand =
        last >= 0 &&
        (piece.offStick
          ? pieces[last]!.offStick && pieces[last]!.from === piece.from
          : pieces[last]!.keep === piece.from)
      const cost =
        (inHand ? 0 : minutes.load) +
        (head === piece.head ? 0 : minutes.head) +
        (was !== undefined && pieces[was]!.stands === piece.stands ? 0 : minutes.stop)
      least = Math.min(least, cost + from(done | (1 << at), at, new Map(stood).set(piece.saw, at)))
    }
    known.set(name, least)
    return least
  }
  return from(0, -1, new Map())
}
