import type { NestSection, NestStick, Slope } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { Product, Shown, Turn } from '../plan-shapes.ts'
import type { Problem, Result } from '../result.ts'
import { good } from '../result.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { quickest } from './figures.ts'
import { sideBySide } from './gang.ts'
import { type HeldCut, type Holding, shareOut, stickHoldings } from './hold.ts'
import { lacksSteel, notHeld, pastStop } from './refusals.ts'
import { atRest } from './setting.ts'
import type { PartVisits } from './stretch.ts'
import type { CleanUp, Cut, Visit } from './visit.ts'

/** A square cut that a stick must give. */
export interface Blank {
  readonly kind: 'blank' | 'square'
  readonly exact: Mm
  readonly stop: Shown
  readonly keep: Product
}

/** A stick with its square cuts. */
export interface Loaded {
  readonly stick: NestStick
  readonly blanks: readonly Blank[]
  /** What stays in the bar that is left. */
  readonly stays?: readonly Blank[]
}

/** The visits, and the blanks that no way of holding cuts, which stay in their bars. */
export interface SquareWork {
  readonly visits: readonly Visit[]
  /** The same cut part by part, in the order of the list: the naive order. */
  readonly partByPart: readonly PartVisits[]
  readonly left: readonly { readonly blank: Blank; readonly problem: Problem }[]
  /** The sticks with what is cut off them. */
  readonly sticks: readonly Loaded[]
  readonly bench: Bench
}

export interface Bench {
  readonly section: NestSection
  readonly saw: Saw
  readonly shop: Shop
}

/** Some of a stick's cuts, made in one visit. */
export interface Share {
  readonly of: Loaded
  readonly blanks: readonly Blank[]
}

export const longestFirst = (blanks: readonly Blank[]): readonly Blank[] =>
  [...blanks].sort((one, two) => two.stop.mm - one.stop.mm)

const shortestFirst = (blanks: readonly Blank[]): readonly Blank[] =>
  [...blanks].sort((one, two) => one.stop.mm - two.stop.mm)

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
  sticks.map((of, at) => ({ of, blanks: at % 2 ? shortestFirst(of.blanks) : longestFirst(of.blanks) }))

/** Each stop once, the longest first; a stick comes back for each of its stops. */
function stopByStop(sticks: readonly Loaded[]): readonly Share[] {
  const stops = [...new Set(sticks.flatMap(({ blanks }) => blanks.map(({ stop }) => stop.mm)))]
  return stops
    .sort((one, two) => two - one)
    .flatMap((mm) => sticks.map((of) => ({ of, blanks: of.blanks.filter(({ stop }) => stop.mm === mm) })))
    .filter(({ blanks }) => blanks.length > 0)
}

/** Part by part, in the order of the list; a stick comes back for each of its parts. */
function partByPart(sticks: readonly Loaded[], list: readonly string[]) {
  const own = sticks.flatMap(({ blanks }) => blanks.map(({ keep }) => keep.mark!))
  return [...new Set([...list, ...own])].flatMap((mark) =>
    sticks.flatMap((of) => {
      const blanks = of.blanks.filter(({ keep }) => keep.mark === mark)
      return blanks.length > 0 ? [{ mark, share: { of, blanks } }] : []
    }),
  )
}

/**
 * Each stick once, its first stop the one that stands from the stick before, its last one that most of those to come have
 * too; between them the longest first.
 */
function joined(sticks: readonly Loaded[]): readonly Share[] {
  const left = [...alikeTogether(sticks)]
  const shares: Share[] = []
  let stands: Mm | undefined
  while (left.length > 0) {
    const serves = left.filter((of) => stands !== undefined && stopsOf(of).includes(stands))
    const of = serves.reduce(
      (few, other) => (stopsOf(other).length < stopsOf(few).length ? other : few),
      serves[0] ?? left[0]!,
    )
    left.splice(left.indexOf(of), 1)
    const own = stopsOf(of)
    const first = own.find((stop) => stop === stands)
    const rest = own.filter((stop) => stop !== first)
    const wanted = (stop: Mm) => left.filter((other) => stopsOf(other).includes(stop)).length
    // The shortest among equals, so that the longest comes first.
    const last = rest.reduce<Mm | undefined>(
      (best, stop) => (best === undefined || wanted(stop) >= wanted(best) ? stop : best),
      undefined,
    )
    const order = [first, ...rest.filter((stop) => stop !== last), last].filter((stop) => stop !== undefined)
    shares.push({ of, blanks: order.flatMap((stop) => of.blanks.filter((blank) => blank.stop.mm === stop)) })
    stands = order.at(-1)
  }
  return shares
}

/** The stops of a stick, each once, the longest first. */
const stopsOf = ({ blanks }: Loaded): readonly Mm[] => [
  ...new Set(longestFirst(blanks).map(({ stop }) => stop.mm)),
]

/**
 * Square cuts of one section's sticks, in the order of work that takes least time among: stick by stick, to and fro,
 * joined where stops are alike, stop by stop, part by part, with the sticks as nested or with like ones together. All
 * ends are square, so any order along the stick uses the same steel. `marks` is the list of the parts. Left in the bar: what would need a stop past the saw's longest, what cannot be held. Refused:
 * a stick that the rounded stops would use up.
 */
export function squareCuts(
  section: NestSection,
  shop: Shop,
  sticks: readonly Loaded[],
  marks: readonly string[],
): Result<SquareWork> {
  const bench = { section, saw: sawFor(shop, section.section), shop }
  const left: SquareWork['left'][number][] = []
  let open = sticks.map((of) => reachable(bench, of, left))
  for (;;) {
    const candidates: (readonly Visit[])[] = []
    let stuck: Stuck | undefined
    const byParts = (of: readonly Loaded[]) => partByPart(of, marks).map(({ share }) => share)
    for (const order of [stickByStick, snake, joined, stopByStop, byParts])
      for (const laid of [open, alikeTogether(open)]) {
        const visits = visitsOf(bench, order(laid))
        if (visits.ok) candidates.push(visits.value)
        else stuck ??= visits
      }
    if (candidates.length > 0 || !stuck) {
      const visits = quickest(candidates.flatMap((each) => [each, sideBySide(each)]))
      return good({
        visits,
        partByPart: naively(bench, partByPart(open, marks), visits),
        left,
        sticks: open.filter(({ blanks }) => blanks.length > 0),
        bench,
      })
    }
    const { stays, problems } = stuck
    if (!stays) return { ok: false, problems }
    for (const blank of stays) left.push({ blank, problem: problems[0]! })
    open = open.map((of) => without(of, stays))
  }
}

/** The naive order; where it cannot be held so, all in the order that is known. */
function naively(
  bench: Bench,
  listed: ReturnType<typeof partByPart>,
  known: readonly Visit[],
): readonly PartVisits[] {
  const laid = byShare(
    bench,
    listed.map(({ share }) => share),
  )
  if (laid.ok) return listed.map(({ mark }, at) => ({ round: 0, mark, visits: laid.value[at]! }))
  return [{ round: 0, mark: listed[0]!.mark, visits: known }]
}

/** Why the cuts cannot be made, and the blanks without which they can; none where the steel does not do. */
interface Stuck {
  readonly ok: false
  readonly problems: readonly Problem[]
  readonly stays?: readonly Blank[]
}

const without = (of: Loaded, stays: readonly Blank[]): Loaded => {
  const own = of.blanks.filter((blank) => stays.includes(blank))
  if (own.length === 0) return of
  return {
    ...of,
    blanks: of.blanks.filter((blank) => !own.includes(blank)),
    stays: [...(of.stays ?? []), ...own],
  }
}

/** A stick without the blanks whose stop would stand too far. */
function reachable({ saw, shop }: Bench, of: Loaded, left: SquareWork['left'][number][]): Loaded {
  const far = of.blanks.filter(({ stop }) => stop.mm > saw.limits.longestStop + sameLength)
  for (const blank of far) {
    const refused = pastStop(blank.keep.mark ?? blank.keep.id, blank.stop.mm, saw, shop.reading)
    if (!refused.ok) left.push({ blank, problem: refused.problems[0]! })
  }
  return without(of, far)
}

/** How far a stick has been cut: visits made, blanks cut, and what is left of it, mm. */
interface Progress {
  readonly visits: number
  readonly cuts: number
  readonly room: Mm
  /** Where the stop stood in the visit before. */
  readonly stopSide?: 'left' | 'right'
}

/** A square cut of a stick; without a blank it is the clean-up cut, of which nothing is kept. */
interface SquareCut extends HeldCut {
  readonly blank?: Blank
}

function visitsOf(
  bench: Bench,
  shares: readonly Share[],
): { readonly ok: true; readonly value: readonly Visit[] } | Stuck {
  const laid = byShare(bench, shares)
  return laid.ok ? good(laid.value.flat()) : laid
}

export function byShare(
  bench: Bench,
  shares: readonly Share[],
): { readonly ok: true; readonly value: readonly (readonly Visit[])[] } | Stuck {
  const progress = new Map<string, Progress>()
  const laid: (readonly Visit[])[] = []
  for (const { of, blanks } of shares) {
    const visits: Visit[] = []
    let now = progress.get(of.stick.id) ?? { visits: 0, cuts: 0, room: roomIn(of.stick, bench.section) }
    const trim = now.visits === 0 ? trimOf(of.stick, bench.section) : undefined
    const cuts = cutsOf(bench, of, blanks, now.room, trim !== undefined)
    if (!cuts.ok) return cuts
    let open = cuts.value
    for (const { way, count } of shareOut(bench.saw, open)) {
      const made = open.slice(0, count)
      open = open.slice(count)
      const after: Progress = {
        visits: now.visits + 1,
        cuts: now.cuts + made.filter(({ blank }) => blank).length,
        room: made.at(-1)!.left,
      }
      // What was cut with the stop across lies with its cut end away from this stop.
      const across = now.stopSide !== undefined && now.stopSide !== way.stopSide
      visits.push(visitOf(bench, of, made, way, trim, after, across ? ['end'] : []))
      now = { ...after, stopSide: way.stopSide }
    }
    if (open.length > 0) return cannotHold(bench, open[0]!, of)
    progress.set(of.stick.id, now)
    laid.push(visits)
  }
  return good(laid)
}

/** The cuts of one share with what each keeps and leaves; refused where the steel does not do. */
function cutsOf(
  { section, shop }: Bench,
  { stick }: Loaded,
  blanks: readonly Blank[],
  room: Mm,
  trimmed: boolean,
): Result<readonly SquareCut[]> {
  const cuts: SquareCut[] = trimmed ? [{ kept: 0, left: room }] : []
  let left = room
  for (const blank of blanks) {
    const { stop, keep } = blank
    if (left - stop.mm < -sameLength) return lacksSteel(keep.id, stick.id, stop.mm - left, shop.reading)
    left = Math.max(0, left - stop.mm - section.kerf)
    cuts.push({ blank, kept: stop.mm, left })
  }
  return good(cuts)
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
  { stick, blanks, stays = [] }: Loaded,
  made: readonly SquareCut[],
  way: Holding,
  trim: Mm | undefined,
  after: Progress,
  turns: readonly Turn[],
): Visit {
  // The stick itself, or what the visit before left of it.
  const load = after.visits === 1 ? stick.id : `${stick.id}.${after.visits - 1}`
  const last = after.cuts === blanks.length
  const usedUp = last && after.room <= sameLength && stays.length === 0
  const cleanUp: CleanUp | undefined =
    trim !== undefined && after.visits === 1 ? { loss: trim, setting: atRest, turns: [] } : undefined
  const first = made.find(({ blank }) => blank)
  const cuts = made.flatMap(({ blank }, at): Cut[] => {
    if (!blank) return []
    const rest = usedUp && at === made.length - 1 ? 'scrap' : 'on'
    const keep = { ...blank.keep, from: load }
    return [
      {
        ...blank,
        keep,
        method: 'swing',
        swing: 0,
        tilt: 0,
        roll: 0,
        ramp: 0,
        longSide: 'fence',
        faceDown: '-z',
        parallel: false,
        handling: '',
        turns: at === 0 ? turns : [],
        ...(cleanUp && blank === first?.blank ? { cleanUp } : {}),
        rest,
      },
    ]
  })
  const product: Product = {
    id: `${stick.id}.${after.visits}`,
    from: load,
    kind: last && stays.length === 0 ? 'drop' : 'rest',
    length: last && stays.length === 0 ? stick.drop : after.room,
    ...(last && stays.length > 0 ? { makes: stays.flatMap(({ keep }) => keep.makes ?? [keep.id]) } : {}),
  }
  const worthKeeping = !last || stays.length > 0 || stick.drop >= shop.leastDrop - sameLength
  return {
    ...way,
    saw,
    section: section.section,
    kerf: section.kerf,
    load,
    cuts,
    ...(cleanUp && cuts.length === 0 ? { cleanUpLast: cleanUp } : {}),
    ...(usedUp ? {} : { leaves: worthKeeping ? product : 'scrap' }),
  }
}

/** What cannot be held stays in the bar; where it is the clean-up cut, all that was to come after it. */
function cannotHold({ saw, shop }: Bench, { blank, kept, left }: SquareCut, { blanks }: Loaded): Stuck {
  const label = blank?.keep.mark ?? 'the clean-up cut'
  const held = stickHoldings(saw)[0]!.hold === 'stop' ? kept : left
  const refused = notHeld(label, held, saw, shop.reading)
  return { ok: false, problems: refused.ok ? [] : refused.problems, stays: blank ? [blank] : blanks }
}
