import type { NestSection, NestStick, Slope, StickEnd } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { StickFace, Turn } from '../plan-shapes.ts'
import { roundLength, showLength } from '../reading/show.ts'
import type { Problem, Result } from '../result.ts'
import { good } from '../result.ts'
import { isRound, turnOf } from '../section/section.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { boxOf } from './box.ts'
import { type Holding, stickHoldings } from './hold.ts'
import { shortestEdge, squareEnd, tipOf } from './lying.ts'
import { lacksSteel, notHeld, pastStop } from './refusals.ts'
import { atRest } from './setting.ts'
import { faceDownOf, faceInFrame } from './stick-options.ts'
import { type Act, best, type Chosen, type Stand } from './stick-order.ts'
import { type Bench, type Done, type Entry, type Laid, type OnStick, stickVisits } from './stick-visits.ts'
import type { Cut } from './visit.ts'

export interface LaidStick {
  readonly stick: NestStick
  readonly entries: readonly Entry[]
}

/** What the saws do with the sticks, and the entries that stay in their bars. */
export interface StickWork extends Laid {
  readonly left: readonly { readonly entry: Entry; readonly problem: Problem }[]
}

/**
 * Pieces cut from the stick in the order of the nest: one cut is the end of one piece and of the next, where they are
 * alike; else the stick's end is cleaned up to the next angle first. The stick is turned over, or the head is swung the
 * other way, whatever takes less time. The sticks come in the order that takes least time among some. Refused where the
 * stops as they are set use up the stick.
 */
export function stickCuts(
  section: NestSection,
  shop: Shop,
  sticks: readonly LaidStick[],
  seam: StickFace | undefined,
  marks: readonly string[],
): Result<StickWork> {
  const box = boxOf(section.section, shop)
  const round = isRound(section.section) ? ({ round: true } as const) : {}
  const bench: Bench = {
    section,
    saw: sawFor(shop, section.section),
    shop,
    box: { depth: box.big, height: box.small, ...round },
    ...(seam ? { seam } : {}),
  }
  const on: OnStick[] = []
  let stand: Stand = { setting: atRest, stop: undefined }
  for (const laid of sticks) {
    const made = doneOn(bench, laid, stand)
    if (!made.ok) return made
    on.push(made.value)
    stand = made.value.stand
  }
  return good({
    ...stickVisits(bench, on, marks),
    left: on.flatMap(({ left, problem }) => (problem ? left.map((entry) => ({ entry, problem })) : [])),
  })
}

const slopeOfEnd = (end: StickEnd): Slope => (typeof end === 'object' ? end : squareEnd)
const same = (a: Slope, b: Slope) => Math.abs(a.p - b.p) <= sameSlope && Math.abs(a.q - b.q) <= sameSlope
const kerfAlong = (kerf: Mm, { p, q }: Slope): Mm => kerf * Math.hypot(1, p, q)

/** Clean-up cuts and cuts of a stick in their order, with what each leaves in the stick on its shortest edge. */
function actsOf({ section, box }: Bench, { stick, entries }: LaidStick): readonly Act[] {
  const acts: Act[] = []
  const [front, tail] = stick.ends
  let x = stick.pieces[0]!.ends[0].x
  let end = slopeOfEnd(front)
  const shortest = (at: Mm, slope: Slope) => {
    const off = slopeOfEnd(tail)
    return at - tipOf({ p: slope.p - off.p, q: slope.q - off.q }, box)
  }
  for (const [at, entry] of entries.entries()) {
    const { lead, trail, mid } = entry.lying
    const mill = at === 0 && front === 'mill' && section.trim > 0
    if (mill || !same(end, lead)) {
      // The first cut of an end that was cut may run out of the steel; later ones need room for the blade.
      const loss = mill
        ? Math.max(section.trim, kerfAlong(section.kerf, lead))
        : at === 0
          ? 0
          : kerfAlong(section.kerf, lead)
      acts.push({
        kind: 'clean',
        slope: lead,
        loss,
        kept: 0,
        room: shortest(x, lead),
        left: shortest(x, lead),
      })
    }
    x -= mid
    const behind = x - kerfAlong(section.kerf, trail)
    acts.push({
      kind: 'cut',
      slope: trail,
      piece: entry.lying,
      ...(entry.keep.kind === 'blank' ? { flat: true } : {}),
      kept: shortestEdge(entry.lying),
      room: shortest(x, trail),
      left: Math.max(0, shortest(behind, trail)),
    })
    const next = entries[at + 1]
    if (next && !same(trail, next.lying.lead)) {
      const gap = tipOf({ p: trail.p - next.lying.lead.p, q: trail.q - next.lying.lead.q }, box)
      x = behind - gap - kerfAlong(section.kerf, next.lying.lead)
    } else x = behind
    end = trail
  }
  return acts
}

/** Acts of one visit: as many as this way of holding does. */
interface Share {
  readonly way: Holding
  readonly acts: readonly Act[]
}

/** Ways to hold act after act, each as far as it goes, the one that goes farthest first; stops short where none does. */
function sharesOf(saw: Saw, acts: readonly Act[]): readonly Share[] {
  const shares: Share[] = []
  const holds = ({ hold }: Holding, { kind, kept, left }: Act) =>
    hold === 'stick'
      ? left >= saw.leastToHold - sameLength
      : kind === 'cut' && kept >= saw.leastToHold - sameLength
  for (let at = 0; at < acts.length; ) {
    const next = stickHoldings(saw)
      .map((way) => {
        const fails = acts.slice(at).findIndex((act) => !holds(way, act))
        return { way, acts: fails < 0 ? acts.slice(at) : acts.slice(at, at + fails) }
      })
      .reduce((most, other) => (other.acts.length > most.acts.length ? other : most))
    if (next.acts.length === 0) break
    shares.push(next)
    at += next.acts.length
  }
  return shares
}

/** What is done to a stick, act by act; `stand`: how the saw stands after it. */
function doneOn(bench: Bench, laid: LaidStick, from: Stand): Result<OnStick & { readonly stand: Stand }> {
  const { saw, shop } = bench
  const { stick, entries } = laid
  const done: Done[] = []
  let problem: Problem | undefined
  let stand = from
  let cut = 0
  let roll = 0
  let before: Holding | undefined
  // What the stops as they are set use of the stick more than the nest reckons with, mm.
  let over = 0
  const acts = actsOf(bench, laid)
  for (const { way, acts: own } of sharesOf(saw, acts)) {
    const across = before !== undefined && before.stopSide !== way.stopSide
    const start = across ? (4 - roll) % 4 : before ? roll : 0
    const chosen = best(own, { saw, shop, way, box: bench.box, cornerRadius: cornerOf(bench) }, stand, start)
    if (chosen.length === 0) break
    for (const [at, each] of chosen.entries()) {
      const turns: readonly Turn[] = across && at === 0 ? ['end', ...each.turns] : each.turns
      const { act, setting } = each
      if (act.kind === 'clean') {
        done.push({ way, cleanUp: { loss: act.loss!, setting, turns } })
        continue
      }
      const entry = entries[cut]!
      over += each.stop! - each.planned!
      const room = act.room - over
      if (room < -sameLength) return lacksSteel(entry.keep.id, stick.id, -room, shop.reading)
      const usedUp = cut === entries.length - 1 && act.left - over <= sameLength
      done.push({
        way,
        cut: { ...cutOf(bench, entry, each), turns, rest: usedUp ? 'scrap' : 'on' },
      })
      cut += 1
    }
    const final = chosen.at(-1)!
    stand = { setting: final.setting, stop: final.stop, longSide: final.longSide }
    roll = final.lie.roll
    before = way
    if (chosen.length < own.length) break
  }
  if (done.length < acts.length) problem = whyNot(bench, entries[cut]!, acts[done.length]!)
  return good({ stick, done, left: entries.slice(cut), ...(problem ? { problem } : {}), stand })
}

const cornerOf = ({ section, box }: Bench): Mm =>
  turnOf(box.round ? { ...section.section, width: box.depth } : section.section)

function cutOf(
  { shop, seam }: Bench,
  { keep, beyond, pinned }: Entry,
  { setting, lie, planned, stop, longSide, parallel, method }: Chosen,
): Omit<Cut, 'turns' | 'rest'> {
  const { mm, text, unit } = showLength(stop!, shop.reading)
  const now = seam && pinned ? faceInFrame(seam, lie) : undefined
  return {
    kind: 'stick',
    method,
    ...setting,
    exact: planned! + beyond,
    stop: { mm, text, unit },
    longSide: longSide!,
    faceDown: faceDownOf(lie),
    ...(now ? { seam: { now, loaded: now } } : {}),
    parallel: parallel!,
    handling: '',
    keep,
  }
}

function whyNot({ saw, shop }: Bench, { keep, lying }: Entry, { kept, left }: Act): Problem {
  const label = keep.mark ?? keep.id
  const length = roundLength(lying.mid + tipOf(lying.lead, lying) + tipOf(lying.trail, lying), shop.reading)
  const refused =
    length > saw.limits.longestStop
      ? pastStop(label, length, saw, shop.reading)
      : notHeld(label, stickHoldings(saw)[0]!.hold === 'stick' ? left : kept, saw, shop.reading)
  return refused.ok ? { code: 'not-cut', text: label } : refused.problems[0]!
}
