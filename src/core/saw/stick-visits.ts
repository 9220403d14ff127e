import type { NestSection, NestStick } from '../nest.ts'
import type { Product, StickFace } from '../plan-shapes.ts'
import type { Problem } from '../result.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { quickest } from './figures.ts'
import type { Holding } from './hold.ts'
import type { Lying } from './lying.ts'
import { sameSetting } from './setting.ts'
import type { Lot, PartVisits, Stretch } from './stretch.ts'
import type { CleanUp, Cut, Visit } from './visit.ts'

/** A section on its saw. */
export interface Bench {
  readonly section: NestSection
  readonly saw: Saw
  readonly shop: Shop
  readonly box: Pick<Lying, 'depth' | 'height' | 'round'>
  /** Face of the sticks with their weld seam, where a piece pins it. */
  readonly seam?: StickFace
}

/** One entry of a stick: what leaves it, as it lies there, its printed length in it. */
export interface Entry {
  readonly lying: Lying
  /** Unrounded length beyond the printed one, mm. */
  readonly beyond: Mm
  readonly keep: Product
  readonly pinned: boolean
}

/** A cut, or a clean-up cut, as it is made whenever its turn comes. */
export interface Done {
  readonly way: Holding
  readonly cut?: Cut
  readonly cleanUp?: CleanUp
}

/** What is done to a stick, in its order, and the entries that stay in the bar with the reason. */
export interface OnStick {
  readonly stick: NestStick
  readonly done: readonly Done[]
  readonly left: readonly Entry[]
  readonly problem?: Problem
}

/** An order of work, and what a better one is looked for in. */
export interface Laid {
  readonly visits: readonly Visit[]
  /** Part by part in the order of the list, as far as the order along the sticks lets it: the naive order. */
  readonly partByPart: readonly PartVisits[]
  readonly lot: Lot
}

// Sticks whose order along their length is fixed, put in an order among themselves: one may go away and come back.

/** So many acts of a stick, from where it stands. */
interface Share {
  readonly stick: number
  readonly acts: number
}

/**
 * The quickest of some orders of the sticks, the naive one, and the lot for the search of the best order of all. `marks`
 * is the list of the parts in its order.
 */
export function stickVisits(bench: Bench, sticks: readonly OnStick[], marks: readonly string[]): Laid {
  const of = sticks.map((on) => stretchesOf(on, bench.saw))
  const lay = (shares: readonly Share[]) => laid(bench, sticks, shares)
  const listed = byList(sticks, marks)
  const orders = [inTurn(sticks), goingOn(of), byStanding(of), listed.map(({ share }) => share)]
  const naive = lay(listed.map(({ share }) => share))
  const lot: Lot = {
    sticks: of.map((stretches) => ({ stretches, inOrder: true, beside: 1 })),
    lay: (shares) =>
      lay(
        shares.map(({ stick, stretches }) => ({
          stick,
          acts: actsIn(stretches.map((at) => of[stick]![at]!)),
        })),
      ),
  }
  return {
    visits: quickest(orders.map((order) => lay(order).flat())),
    partByPart: listed.map(({ round, mark }, at): PartVisits => ({ round, mark, visits: naive[at]! })),
    lot,
  }
}

interface ActStretch extends Stretch {
  readonly acts: number
}

const actsIn = (stretches: readonly ActStretch[]): number =>
  stretches.reduce((sum, { acts }) => sum + acts, 0)

/** The acts of a stick by how the saw stands for them. A clean-up cut goes with what has its angle. */
function stretchesOf({ done }: OnStick, saw: Saw): readonly ActStretch[] {
  const stretches: ActStretch[] = []
  for (const [at, { way, cut, cleanUp }] of done.entries()) {
    const setting = cut ?? cleanUp!.setting
    const last = stretches.at(-1)
    const held = at > 0 && done[at - 1]!.way === way
    const goesOn =
      last &&
      held &&
      sameSetting(last.setting, setting) &&
      (!cut ||
        last.mm === undefined ||
        (Math.abs(last.mm - cut.stop.mm) <= sameLength && last.longSide === cut.longSide))
    const before = goesOn ? last : undefined
    if (before) stretches.pop()
    const mm = cut?.stop.mm ?? before?.mm
    stretches.push({
      saw,
      stopSide: way.stopSide,
      setting,
      longSide: before?.mm === undefined ? (cut?.longSide ?? 'fence') : before.longSide,
      keeps: [...(before?.keeps ?? []), ...(cut ? [cut.keep.id] : [])],
      acts: (before?.acts ?? 0) + 1,
      ...(mm === undefined ? {} : { mm }),
      ...((before ? before.anew : at > 0 && !held) ? { anew: true } : {}),
    })
  }
  return stretches
}

/** The sticks as they are nested, each once. */
const inTurn = (sticks: readonly OnStick[]): readonly Share[] =>
  sticks.map(({ done }, stick) => ({ stick, acts: done.length }))

const stands = (one: Stretch, two: Stretch | undefined): boolean =>
  two !== undefined &&
  sameSetting(one.setting, two.setting) &&
  one.stopSide === two.stopSide &&
  one.longSide === two.longSide &&
  one.mm !== undefined &&
  two.mm !== undefined &&
  Math.abs(one.mm - two.mm) <= sameLength

/** Each stick once, the next one that begins as the saw stands, else with the head that is set. */
function goingOn(of: readonly (readonly ActStretch[])[]): readonly Share[] {
  const left = of.map((_, stick) => stick)
  const shares: Share[] = []
  let now: Stretch | undefined
  while (left.length > 0) {
    const begins = (stick: number) => of[stick]![0]
    const next =
      left.find((stick) => begins(stick) && stands(begins(stick)!, now)) ??
      left.find((stick) => now && begins(stick) && sameSetting(begins(stick)!.setting, now.setting)) ??
      left[0]!
    left.splice(left.indexOf(next), 1)
    shares.push({ stick: next, acts: actsIn(of[next]!) })
    now = of[next]!.at(-1) ?? now
  }
  return shares
}

/** One head and stop after the other: each takes all that the sticks have for it; next is the one that has most. */
function byStanding(of: readonly (readonly ActStretch[])[]): readonly Share[] {
  const at = of.map(() => 0)
  const shares: Share[] = []
  const next = (stick: number) => of[stick]![at[stick]!]
  for (;;) {
    const open = at.flatMap((_, stick) => next(stick) ?? [])
    if (open.length === 0) return shares
    const many = (one: Stretch) => open.filter((other) => stands(other, one)).length
    const now = open.reduce((most, other) => (many(other) > many(most) ? other : most))
    for (const stick of at.keys()) {
      const one = next(stick)
      if (!one || (one !== now && !stands(one, now))) continue
      shares.push({ stick, acts: one.acts })
      at[stick]! += 1
    }
  }
}

/**
 * Part by part in the order of the list: of each stick what comes next of this part. What lies behind another part waits
 * until the list is gone through again.
 */
function byList(sticks: readonly OnStick[], marks: readonly string[]) {
  const at = sticks.map(() => 0)
  const found: { readonly round: number; readonly mark: string; readonly share: Share }[] = []
  const own = sticks.flatMap(({ done }) => done.flatMap(({ cut }) => cut?.keep.mark ?? []))
  const list = [...new Set([...marks, ...own])]
  const markOf = (done: readonly Done[], from: number) =>
    done.slice(from).find(({ cut }) => cut)?.cut?.keep.mark
  for (let round = 0; sticks.some(({ done }, stick) => at[stick]! < done.length); round++)
    for (const mark of list)
      for (const [stick, { done }] of sticks.entries()) {
        const from = at[stick]!
        let to = from
        // A clean-up cut that nothing follows goes with the part before it.
        while (to < done.length && (markOf(done, to) ?? mark) === mark) to += 1
        if (to === from) continue
        at[stick] = to
        found.push({ round, mark, share: { stick, acts: to - from } })
      }
  return found
}

/** The visits of each share. */
function laid(
  { saw, section, shop }: Bench,
  sticks: readonly OnStick[],
  shares: readonly Share[],
): readonly (readonly Visit[])[] {
  const acts = sticks.map(() => 0)
  const made = sticks.map(() => 0)
  return shares.map(({ stick, acts: many }) => {
    const on = sticks[stick]!
    const own = on.done.slice(acts[stick]!, acts[stick]! + many)
    acts[stick]! += many
    const all = acts[stick] === on.done.length
    const held = heldAlike(own)
    return held.map((done, place): Visit => {
      const load = made[stick] === 0 ? on.stick.id : `${on.stick.id}.${made[stick]}`
      made[stick]! += 1
      const leaves = leaving(
        on,
        `${on.stick.id}.${made[stick]}`,
        load,
        all && place === held.length - 1,
        shop,
      )
      const { cuts, cleanUpLast } = cutsIn(done, load)
      return {
        ...done[0]!.way,
        saw,
        section: section.section,
        kerf: section.kerf,
        load,
        cuts,
        ...(cleanUpLast ? { cleanUpLast } : {}),
        ...(cuts.at(-1)?.rest === 'scrap' ? {} : { leaves }),
      }
    })
  })
}

/** Rows of acts that are held in one way. */
function heldAlike(acts: readonly Done[]): readonly (readonly Done[])[] {
  const rows: Done[][] = []
  for (const done of acts) {
    const last = rows.at(-1)
    if (last && last[0]!.way === done.way) last.push(done)
    else rows.push([done])
  }
  return rows
}

/** Cuts of one visit, each with the clean-up cut before it. */
function cutsIn(acts: readonly Done[], load: string): Pick<Visit, 'cuts' | 'cleanUpLast'> {
  const cuts: Cut[] = []
  let open: CleanUp | undefined
  for (const { cut, cleanUp } of acts) {
    open = cleanUp ?? open
    if (!cut) continue
    cuts.push({ ...cut, keep: { ...cut.keep, from: load }, ...(open ? { cleanUp: open } : {}) })
    open = undefined
  }
  return { cuts, ...(open ? { cleanUpLast: open } : {}) }
}

/** What is taken off the saw after a visit. */
function leaving(
  { stick, left }: OnStick,
  id: string,
  from: string,
  last: boolean,
  shop: Shop,
): Product | 'scrap' {
  if (!last) return { id, from, kind: 'rest' }
  if (left.length > 0)
    return { id, from, kind: 'rest', makes: left.flatMap(({ keep }) => keep.makes ?? [keep.id]) }
  return stick.drop >= shop.leastDrop - sameLength ? { id, from, kind: 'drop', length: stick.drop } : 'scrap'
}
