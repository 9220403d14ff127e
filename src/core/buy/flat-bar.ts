import type { RackPiece } from '../facts.ts'
import { carriedOf, kerfOf, sawFor, stockFor } from '../parts/demand.ts'
import { roundLength } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import { type Section, sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { PlateCut } from './plate-cuts.ts'

/** Flat bar that caps and other rectangular plates are sawn from. */
export interface FlatBarLine {
  readonly section: Section
  readonly cuts: readonly {
    readonly mark: string
    readonly name: string
    readonly count: number
    readonly length: Mm
  }[]
  /** One piece of bar that holds them all: kerfs, the clean-up cut and what the vise holds are counted. */
  readonly needed: Mm
  /** A piece on the rack that is long enough. */
  readonly onRack?: RackPiece
  /** What to buy where none lies there: whole bars of a length; absent `bars`: a piece of the length needed. */
  readonly bars?: { readonly count: number; readonly length: Mm; readonly price?: number }
  /** Kilograms of what is bought. */
  readonly mass: number
}

/** What is sawn from flat bar, and what is left for sheet and plate. */
export interface FromBar {
  readonly lines: readonly FlatBarLine[]
  readonly rest: readonly PlateCut[]
}

/**
 * Rectangular caps come out of flat bar of their thickness and lesser side (or the other, where the shop carries that);
 * other rectangular plates only where the shop carries such a bar.
 */
export function fromBar(cuts: readonly PlateCut[], shop: Shop, rack: readonly RackPiece[]): FromBar {
  const groups = new Map<
    string,
    { readonly section: Section; readonly of: { cut: PlateCut; length: Mm }[] }
  >()
  const rest: PlateCut[] = []
  for (const cut of cuts) {
    const bar = barFor(cut, shop)
    if (!bar) {
      rest.push(cut)
      continue
    }
    const key = sectionKey(bar.section)
    const group = groups.get(key)
    if (group) group.of.push({ cut, length: bar.length })
    else groups.set(key, { section: bar.section, of: [{ cut, length: bar.length }] })
  }
  return { lines: [...groups.values()].map(({ section, of }) => lineOf(section, of, shop, rack)), rest }
}

const flatBar = (width: Mm, height: Mm): Section => ({
  kind: 'flat-bar',
  width,
  height,
  wall: 0,
  cornerRadius: 0,
})

function barFor({ rectangle, cap, long, short, thickness }: PlateCut, shop: Shop) {
  if (!rectangle || thickness > short + sameLength) return undefined
  const ways = [
    { section: flatBar(short, thickness), length: long },
    { section: flatBar(long, thickness), length: short },
  ]
  const carried = ways.find(({ section }) => carriedOf(shop, section) !== undefined)
  return carried ?? (cap ? ways[0] : undefined)
}

function lineOf(
  section: Section,
  of: readonly { readonly cut: PlateCut; readonly length: Mm }[],
  shop: Shop,
  rack: readonly RackPiece[],
): FlatBarLine {
  const saw = sawFor(shop, section)
  const kerf = kerfOf(saw)
  const cuts = of.map(({ cut, length }) => ({
    mark: cut.mark,
    name: cut.name,
    count: cut.count,
    length: roundLength(length, shop.reading),
  }))
  const lengths = cuts.flatMap(({ count, length }) => Array.from({ length: count }, () => length))
  const ends = saw.cleanUp + Math.max(saw.cleanUp, saw.leastToHold > 0 ? saw.leastToHold + kerf : 0)
  const needed = lengths.reduce((sum, length) => sum + length, 0) + kerf * (lengths.length - 1) + ends
  const key = sectionKey(section)
  const onRack = rack
    .filter((piece) => sectionKey(piece.section) === key && piece.length >= needed - sameLength)
    .sort((one, two) => one.length - two.length)[0]
  const kilograms = (length: Mm) => (massPerLength(section) * length) / 1000
  const line = { section, cuts, needed, mass: kilograms(onRack ? 0 : needed) }
  if (onRack) return { ...line, onRack }
  const offered = stockFor(shop, section, 0, [])
  const longest = Math.max(...offered.map(({ length }) => length))
  const carried = carriedOf(shop, section)?.stock.length
  if (!carried && needed <= longest + sameLength) return line
  const choices = offered.flatMap(({ length, price, count: most = Infinity }) => {
    const count = barsOf(lengths, length - ends, kerf)
    if (count === undefined || count > most) return []
    return [{ count, length, ...(price === undefined ? {} : { price }) }]
  })
  const cost = (bars: (typeof choices)[number]) => bars.count * (bars.price ?? bars.length)
  const best = choices.reduce<(typeof choices)[number] | undefined>(
    (least, one) => (least === undefined || cost(one) < cost(least) ? one : least),
    undefined,
  )
  return best ? { ...line, bars: best, mass: kilograms(best.count * best.length) } : line
}

/** Bars that the lengths take, longest first into the first bar with room; undefined where one is longer than a bar. */
function barsOf(lengths: readonly Mm[], room: Mm, kerf: Mm): number | undefined {
  const left: Mm[] = []
  for (const length of [...lengths].sort((one, two) => two - one)) {
    if (length > room + sameLength) return undefined
    const at = left.findIndex((free) => free >= length - sameLength)
    if (at < 0) left.push(room - length - kerf)
    else left[at]! -= length + kerf
  }
  return left.length
}
