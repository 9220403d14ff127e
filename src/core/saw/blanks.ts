import type { NestSection, NestStick, Slope } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { Product, Shown } from '../plan-shapes.ts'
import type { Result } from '../result.ts'
import { good } from '../result.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { quickest } from './figures.ts'
import { type Holding, holds, stickHoldings } from './hold.ts'
import { lacksSteel, notHeld, pastStop } from './refusals.ts'
import type { Cut, Visit } from './visit.ts'

/** A square cut that a stick must give. */
export interface Blank {
  readonly kind: 'blank' | 'square'
  readonly exact: Mm
  readonly stop: Shown
  readonly keep: Product
}

/** A stick with its square cuts, longest first. */
export interface Loaded {
  readonly stick: NestStick
  readonly blanks: readonly Blank[]
}

interface Bench {
  readonly section: NestSection
  readonly saw: Saw
  readonly shop: Shop
}

/** Some of a stick's cuts, made in one visit. */
interface Share {
  readonly of: Loaded
  readonly blanks: readonly Blank[]
}

const longestFirst = (blanks: readonly Blank[]): readonly Blank[] =>
  [...blanks].sort((one, two) => two.stop.mm - one.stop.mm)

/** Sticks with equal cuts follow each other, so that the stop stays. */
function alikeTogether(sticks: readonly Loaded[]): readonly Loaded[] {
  const stops = ({ blanks }: Loaded) => longestFirst(blanks).map(({ stop }) => stop.mm)
  const compare = (one: readonly number[], two: readonly number[]): number => {
    const at = one.findIndex((stop, place) => stop !== two[place])
    return at < 0 ? 0 : (two[at] ?? 0) - one[at]!
  }
  return [...sticks].sort((one, two) => compare(stops(one), stops(two)))
}

/** Each stick once, the longest stop first, so that the short drop is left at the end. */
const stickByStick = (sticks: readonly Loaded[]): readonly Share[] =>
  sticks.map((of) => ({ of, blanks: longestFirst(of.blanks) }))

/** Every other stick from the short end up: the stop that is set serves the next stick first. */
const snake = (sticks: readonly Loaded[]): readonly Share[] =>
  stickByStick(sticks).map(({ of, blanks }, at) => ({ of, blanks: at % 2 ? [...blanks].reverse() : blanks }))

/** Each stop once, the longest first; a stick comes back for each of its stops. */
function stopByStop(sticks: readonly Loaded[]): readonly Share[] {
  const stops = [...new Set(sticks.flatMap(({ blanks }) => blanks.map(({ stop }) => stop.mm)))]
  return stops
    .sort((one, two) => two - one)
    .flatMap((mm) => sticks.map((of) => ({ of, blanks: of.blanks.filter(({ stop }) => stop.mm === mm) })))
    .filter(({ blanks }) => blanks.length > 0)
}

/**
 * Square cuts of one section's sticks, in the order of work that takes least time among: stick by stick, to and fro,
 * stop by stop, each with the sticks as nested or with like ones together. All ends are square, so any order along the
 * stick uses the same steel. Refused: a stop past the saw's longest, a part too short to hold, a stick that the rounded
 * stops would use up.
 */
export function squareCuts(
  section: NestSection,
  shop: Shop,
  sticks: readonly Loaded[],
): Result<readonly Visit[]> {
  const bench = { section, saw: sawFor(shop, section.section), shop }
  const candidates: (readonly Visit[])[] = []
  let refused: Result<readonly Visit[]> | undefined
  for (const order of [stickByStick, snake, stopByStop])
    for (const laid of [sticks, alikeTogether(sticks)]) {
      const visits = visitsOf(bench, order(laid))
      if (visits.ok) candidates.push(visits.value)
      else refused ??= visits
    }
  return candidates.length > 0 || !refused ? good(quickest(candidates)) : refused
}

function visitsOf(bench: Bench, shares: readonly Share[]): Result<readonly Visit[]> {
  const rooms = new Map<string, Mm>()
  const counts = new Map<string, number>()
  const done = new Map<string, number>()
  const visits: Visit[] = []
  for (const share of shares) {
    const { stick, blanks } = share.of
    const count = (counts.get(stick.id) ?? 0) + 1
    const cutSoFar = (done.get(stick.id) ?? 0) + share.blanks.length
    const last = cutSoFar === blanks.length
    const made = visitOf(bench, share, {
      room: rooms.get(stick.id) ?? roomIn(stick, bench.section),
      count,
      last,
    })
    if (!made.ok) return made
    visits.push(made.value.visit)
    rooms.set(stick.id, made.value.room)
    counts.set(stick.id, count)
    done.set(stick.id, cutSoFar)
  }
  return good(visits)
}

/** From the first piece's leading end to the tail's short side, mm. Along the center line the tail is at 0. */
function roomIn({ pieces, ends: [, tail] }: NestStick, { section }: NestSection): Mm {
  const start = Math.max(...pieces.map(({ ends: [lead] }) => lead.x))
  if (!isSlope(tail)) return start
  return start - (Math.abs(tail.p) * section.width + Math.abs(tail.q) * section.height) / 2
}

const isSlope = (end: NestStick['ends'][number]): end is Slope => typeof end === 'object'

/** What a stick's leading end needs before its first piece: the clean-up cut of a mill end, squaring of a slanted one. */
function trimOf({ ends: [lead] }: NestStick, { trim }: NestSection): Mm | undefined {
  if (isSlope(lead)) return 0
  return lead === 'mill' && trim > 0 ? trim : undefined
}

function visitOf(
  { section, saw, shop }: Bench,
  { of: { stick }, blanks }: Share,
  { room, count, last }: { readonly room: Mm; readonly count: number; readonly last: boolean },
): Result<{ readonly visit: Visit; readonly room: Mm }> {
  const lefts: Mm[] = []
  let left = room
  for (const { stop, keep } of blanks) {
    if (stop.mm > saw.limits.longestStop + sameLength)
      return pastStop(keep.mark ?? keep.id, stop.mm, saw, shop.reading)
    if (left - stop.mm < -sameLength) return lacksSteel(keep.id, stick.id, stop.mm - left, shop.reading)
    left -= stop.mm + section.kerf
    lefts.push(Math.max(0, left))
  }
  const usedUp = last && left <= sameLength
  const heldCuts = blanks.map(({ stop }, at) => ({ kept: stop.mm, left: lefts[at]! }))
  const holding = stickHoldings(saw).find((way) => holds(saw, way, heldCuts))
  if (!holding) return cannotHold(saw, shop, blanks, heldCuts)
  const load = loadOf(stick, count)
  const cuts = blanks.map((blank, at): Cut => {
    const rest = usedUp && at === blanks.length - 1 ? 'scrap' : 'on'
    const keep = { ...blank.keep, from: load }
    return { ...blank, keep, swing: 0, longSide: 'fence', faceDown: '-z', parallel: false, turns: [], rest }
  })
  const id = `${stick.id}.${count}`
  const kind = last ? ('drop' as const) : ('rest' as const)
  const kept = !last || stick.drop >= shop.leastDrop
  const product: Product = { id, from: load, kind, length: last ? stick.drop : left }
  const trim = count === 1 ? trimOf(stick, section) : undefined
  const visit: Visit = {
    ...holding,
    saw,
    section: section.section,
    kerf: section.kerf,
    load,
    ...(trim === undefined ? {} : { trim }),
    cuts,
    ...(usedUp ? {} : { leaves: kept ? product : 'scrap' }),
  }
  return good({ visit, room: left })
}

/** The stick itself, or what the visit before left of it. */
const loadOf = ({ id }: NestStick, count: number): string => (count === 1 ? id : `${id}.${count - 1}`)

function cannotHold(
  saw: Saw,
  shop: Shop,
  blanks: readonly Blank[],
  cuts: readonly { readonly kept: Mm; readonly left: Mm }[],
): Result<never> {
  const usual: Holding = stickHoldings(saw)[0]!
  const at = cuts.findIndex((cut) => !holds(saw, usual, [cut]))
  const cut = cuts[at]!
  return notHeld(blanks[at]!.keep.id, usual.hold === 'stop' ? cut.kept : cut.left, saw, shop.reading)
}
