// The least minutes of heads, stops and loads over every order in which the cuts of a run can be made, and those of the
// naive order. It takes from the run what is cut, from what, and how the saw stands for it; nothing of how an order is found.
import type { Run, SetUp } from '../../../src/core/plan-shapes.ts'
import type { Saw } from '../../../src/core/shop.ts'

/** A cut or a clean-up cut; of what lies side by side one stands for all. */
interface Act {
  /** What it keeps, and its mark; absent at a clean-up cut. */
  readonly keep?: string
  readonly mark?: string
  /** The stick that it comes off, or the blank or half that it is made of. */
  readonly from: string
  readonly offStick: boolean
  readonly saw: string
  readonly head: string
  /** Head, stop, and the side at the fence; absent at a clean-up cut. */
  readonly stands?: string
  readonly loads: number
}

type Angles = Pick<SetUp, 'swing' | 'tilt' | 'roll' | 'ramp'>
const headOf = ({ swing, tilt, roll, ramp }: Angles): string =>
  [swing, tilt, roll, ramp].map((angle) => (angle || 0).toFixed(6)).join(' ')
const atSquare = headOf({ swing: 0, tilt: 0, roll: 0, ramp: 0 })

function actsOf({ programs, setUps, products }: Run): readonly Act[] {
  const made = new Map(products.map((product) => [product.id, product]))
  const setOf = new Map(setUps.map((set) => [set.id, set]))
  const stickOf = (load: string) => {
    // What is left of a stick is the stick.
    let from = load
    for (let at = made.get(from); at?.kind === 'rest'; at = made.get(from)) from = at.from
    return from
  }
  return programs.flatMap(({ id, saw, load, steps, beside }): Act[] => {
    if (beside !== undefined) return []
    const gang = [load, ...programs.filter((other) => other.beside === id).map((other) => other.load)]
    const from = gang.map(stickOf).sort().join('+')
    const base = { from, offStick: !made.has(stickOf(load)), saw, loads: gang.length }
    const angles = { swing: 0, tilt: 0, roll: 0, ramp: 0 }
    return steps.flatMap((step, place): Act[] => {
      if ('head' in step) [angles.swing, angles.tilt] = step.head
      else if ('roll' in step) angles.roll = step.roll
      else if ('ramp' in step) angles.ramp = step.ramp
      else if ('trim' in step) {
        const next = steps.slice(place).find((each) => 'cut' in each)
        const head = headOf(angles)
        // At the angle of the cut that follows it takes nothing beside it.
        return next && headOf(setOf.get(next.setUp)!) === head ? [] : [{ ...base, head }]
      }
      if (!('cut' in step)) return []
      const set = setOf.get(step.setUp)!
      const head = headOf(set)
      const stands = `${head} ${set.stop.toFixed(4)} ${set.stopSide} ${set.longSide}`
      const { keep } = step.cut
      return [{ ...base, keep, mark: made.get(keep)!.mark!, head, stands }]
    })
  })
}

/** How many ways head and stop stand in this run. */
export const standingsOf = (run: Run): number =>
  new Set(actsOf(run).flatMap(({ saw, stands }) => (stands ? [`${saw} ${stands}`] : []))).size

export const actsIn = (run: Run): number => actsOf(run).length

/** Sticks that lie side by side in all their cuts, and with no others. */
export function wholeGangs(run: Run): boolean {
  const names = new Set(actsOf(run).flatMap(({ offStick, from }) => (offStick ? [from] : [])))
  const sticks = [...names].flatMap((name) => name.split('+'))
  return new Set(sticks).size === sticks.length
}

/** How a saw stands: its head, and the stop as it was set, if the head was not swung since. */
interface Stand {
  readonly head: string
  readonly stands: string
}
const begin: Stand = { head: atSquare, stands: '' }

/** Minutes of one act after another, and how the saw stands then. */
function after(stand: Stand, { head, stands, loads }: Act, inHand: boolean, { minutes }: Saw) {
  const swings = head !== stand.head
  const kept = swings ? '' : stand.stands
  const moved = stands !== undefined && stands !== kept
  return {
    stand: { head, stands: stands ?? kept },
    minutes: (inHand ? 0 : loads * minutes.load) + (swings ? minutes.head : 0) + (moved ? minutes.stop : 0),
  }
}

const handed = (last: Act | undefined, act: Act): boolean =>
  last !== undefined &&
  (act.offStick ? last.offStick && last.from === act.from : last.loads === 1 && last.keep === act.from)

/** `inOrder`: what comes off a stick does so in the order of the run. */
export function leastMinutes(run: Run, saws: readonly Saw[], inOrder: boolean): number {
  const acts = actsOf(run)
  const sawOf = new Map(saws.map((saw) => [saw.id, saw]))
  const waits = acts.map(({ from, offStick }, at) => {
    if (!offStick) return acts.findIndex(({ keep }) => keep === from)
    return inOrder ? acts.slice(0, at).findLastIndex((other) => other.offStick && other.from === from) : -1
  })
  const known = new Map<string, number>()

  function from(done: number, last: number, stood: ReadonlyMap<string, Stand>): number {
    if (done === (1 << acts.length) - 1) return 0
    const name = `${done} ${last} ${[...stood].map(([saw, { head, stands }]) => `${saw} ${head} ${stands}`).sort()}`
    const before = known.get(name)
    if (before !== undefined) return before
    let least = Number.POSITIVE_INFINITY
    for (const [at, act] of acts.entries()) {
      if (done & (1 << at)) continue
      const wait = waits[at]!
      if (wait >= 0 && !(done & (1 << wait))) continue
      const next = after(stood.get(act.saw) ?? begin, act, handed(acts[last], act), sawOf.get(act.saw)!)
      const rest = from(done | (1 << at), at, new Map(stood).set(act.saw, next.stand))
      least = Math.min(least, next.minutes + rest)
    }
    known.set(name, least)
    return least
  }
  return from(0, -1, new Map())
}

/**
 * Part by part in the order of the list, one workpiece at a time: of each stick what is of this part, or with `inOrder`
 * what of it comes next; then its first ends, then its second ones. Where something is left the list begins again.
 */
export function naiveMinutes(
  run: Run,
  saws: readonly Saw[],
  marks: readonly string[],
  inOrder: boolean,
): number {
  const acts = actsOf(run)
  const left = new Set(acts)
  const sawOf = new Map(saws.map((saw) => [saw.id, saw]))
  const order: Act[] = []
  const take = (act: Act) => {
    left.delete(act)
    order.push(act)
  }
  const sticks = [...new Set(acts.flatMap(({ offStick, from }) => (offStick ? [from] : [])))].sort()
  const markOf = (act: Act): string | undefined =>
    act.mark ?? acts.slice(acts.indexOf(act)).find(({ from, mark }) => from === act.from && mark)?.mark
  while (left.size > 0)
    for (const mark of marks) {
      for (const stick of sticks)
        for (const act of [...left].filter(({ offStick, from }) => offStick && from === stick)) {
          if (markOf(act) === mark) take(act)
          else if (inOrder) break
        }
      for (const _ of ['first', 'second'])
        for (const act of [...left])
          if (!act.offStick && act.mark === mark && order.some(({ keep }) => keep === act.from)) take(act)
    }
  const stood = new Map<string, Stand>()
  return order.reduce((sum, act, at) => {
    const next = after(stood.get(act.saw) ?? begin, act, handed(order[at - 1], act), sawOf.get(act.saw)!)
    stood.set(act.saw, next.stand)
    return sum + next.minutes
  }, 0)
}
