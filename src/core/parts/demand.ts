import { deliveredStock } from '../buy/halves.ts'
import type { Made } from '../facts.ts'
import type {
  CuttingWay,
  NestPart,
  NestProblem,
  PairedPiece,
  Slope,
  StickEnd,
  StockLength,
  Turning,
} from '../nest.ts'
import type { Part } from '../plan-shapes.ts'
import { readingStep } from '../reading/show.ts'
import { type Section, sectionKey } from '../section/section.ts'
import type { CarriedSection, Saw, Shop } from '../shop.ts'
import { wholeSlack } from '../tolerance.ts'
import type { Mm } from '../units.ts'

const square: Slope = { p: 0, q: 0 }
const everyTurn: readonly Turning[] = ['none', 'over', 'end', 'flip']

/** How the shop carries this section, if it does. */
export const carriedOf = (shop: Shop, section: Section): CarriedSection | undefined =>
  shop.sections.find((carried) => sectionKey(carried.section) === sectionKey(section))

/** The saw that usually cuts this section. */
export function sawFor(shop: Shop, section: Section): Saw {
  const usual = carriedOf(shop, section)?.saw
  return shop.saws.find((saw) => saw.id === usual) ?? shop.saws[0]!
}

export const kerfOf = (saw: Saw): Mm => saw.blades.find((blade) => blade.id === saw.blade)?.kerf ?? 0

/**
 * Length of the square blank that a part is mitered from: its greatest extent, with the allowance for its miters, up to
 * the next length that the stop can be set to, so that nest and saw use the same steel. Parallel ends reach as far past
 * their edge as this delivery is wide.
 */
export function blankLength(part: Part, shop: Shop): Mm {
  const { primary, length } = part.printed
  if (part.shape === 'square') return length.mm
  const past = primary === 'edge' ? part.longPoint - part.edges[0] : 0
  const mitered = part.angleFromSquare.filter((angle) => angle > 0).length
  const wanted = length.mm + past * swelling(part.section, shop) + (shop.blankAllowance * mitered) / 2
  const step = readingStep(shop.reading)
  return Math.ceil(wanted / step - wholeSlack) * step
}

/** How much greater than nominal this delivery is, at least 1: the greater of its two measures. */
function swelling(section: Section, shop: Shop): number {
  const carried = carriedOf(shop, section)
  if (!carried?.measured) return 1
  const { measured, section: nominal } = carried
  return Math.max(1, measured.width / nominal.width, measured.height / nominal.height)
}

/** What one part asks of the nest, square first: a blank with square ends, any way round. */
export function nestPart(part: Part, job: string, quantity: number, shop: Shop): NestPart {
  return {
    job,
    mark: part.mark,
    key: part.key,
    mid: blankLength(part, shop),
    ends: [square, square],
    turns: everyTurn,
    count: part.count * quantity,
    perCopy: part.count,
    ...(part.shape === 'square' ? { finished: true as const } : {}),
  }
}

/** A piece on the rack that may be cut from. */
export interface OnRack {
  readonly id: string
  readonly section: Section
  readonly length: Mm
  readonly ends: readonly [StickEnd, StickEnd]
}

/** What can be cut from: the lengths that are bought, and what lies on the rack in this section. */
export function stockFor(shop: Shop, section: Section, cleanUp: Mm, rack: readonly OnRack[]): StockLength[] {
  const carried = carriedOf(shop, section)
  const mill: StickEnd = cleanUp > 0 ? 'mill' : 'cut'
  const bought = carried?.stock.length
    ? deliveredStock(carried)
    : shop.usualLengths.map((length) => ({ length }))
  const key = sectionKey(section)
  return [
    ...bought.map((each): StockLength => ({ ...each, ends: [mill, mill] })),
    ...rack
      .filter((piece) => sectionKey(piece.section) === key)
      .map(({ id, length, ends }): StockLength => ({ length, ends, price: 0, count: 1, rack: id })),
  ]
}

/** Parts of one section, in their order, with the section as it lies in its sticks: the greater side across. */
export interface OfSection {
  readonly section: Section
  readonly parts: readonly Part[]
}

/** The parts by their sections, in the order of the parts. */
export function bySection(parts: readonly Part[]): readonly OfSection[] {
  const found = new Map<string, Part[]>()
  for (const part of parts) {
    const key = sectionKey(part.section)
    found.set(key, [...(found.get(key) ?? []), part])
  }
  return [...found.values()].map((of) => {
    const given = of[0]!.section
    const turned = given.height > given.width
    return { section: turned ? { ...given, width: given.height, height: given.width } : given, parts: of }
  })
}

/** The problem of one section; `rack` is what lies there now. */
export function problemOf(
  section: Section,
  way: CuttingWay,
  parts: readonly NestPart[],
  shop: Shop,
  rack: readonly OnRack[],
): NestProblem {
  const saw = sawFor(shop, section)
  return {
    section,
    way,
    kerf: kerfOf(saw),
    trim: saw.cleanUp,
    grip: saw.leastToHold,
    parts,
    stock: stockFor(shop, section, saw.cleanUp, rack),
    keep: shop.leastDrop,
  }
}

/** The longest square-ended piece that any of this stock gives, mm; 0 where there is none. */
export function longestPiece({ stock, trim, grip, kerf }: NestProblem): Mm {
  const clean = (end: StickEnd) => (end === 'mill' && trim > 0 ? Math.max(trim, kerf) : 0)
  const usable = stock.map(
    ({ length, ends }) => length - clean(ends[0]) - Math.max(clean(ends[1]), grip > 0 ? grip + kerf : 0),
  )
  return Math.max(0, ...usable)
}

/**
 * What is still to be cut: the demand without the pieces that were finished under other nests than `nest`. Blanks
 * and halves do not count here; they fill their places in the run.
 */
export function openDemand(
  demand: readonly NestProblem[],
  made: readonly Made[],
  job: string,
  nest: string | undefined,
): NestProblem[] {
  const finished = new Map<string, number>()
  for (const piece of made)
    if (
      piece.job === job &&
      piece.stage === 'piece' &&
      !piece.used &&
      (nest === undefined || piece.nest !== nest)
    )
      finished.set(piece.key, (finished.get(piece.key) ?? 0) + 1)
  return demand
    .map((problem) => ({
      ...problem,
      parts: problem.parts.flatMap((part) =>
        part.makes ? openPairs(part, finished) : openPart(part, finished.get(part.key) ?? 0),
      ),
    }))
    .filter((problem) => problem.parts.length > 0)
}

/** A part without the pieces that are done: those with the lowest numbers. */
function openPart(part: NestPart, finished: number): NestPart[] {
  const { first = 1, count } = part
  const done = Math.max(0, Math.min(count, finished - (first - 1)))
  if (done === 0) return [part]
  return done === count ? [] : [{ ...part, count: count - done, first: first + done }]
}

/** Pairs of which both halves are open; a half whose other one is done gets a blank of its own. */
function openPairs(part: NestPart, finished: ReadonlyMap<string, number>): NestPart[] {
  const isOpen = ({ piece, mark, key }: PairedPiece) =>
    Number(piece.slice(mark.length)) > (finished.get(key) ?? 0)
  const makes = part.makes!.filter((pair) => pair.every(isOpen))
  const alone = part.makes!.filter((pair) => !pair.every(isOpen)).flatMap((pair) => pair.filter(isOpen))
  return [
    ...(makes.length > 0 ? [{ ...part, count: makes.length, perCopy: makes.length, makes }] : []),
    ...alone.map(
      ({ piece, mark, key, perCopy, mid }): NestPart => ({
        job: part.job,
        mark,
        key,
        mid,
        ends: part.ends,
        turns: part.turns,
        count: 1,
        perCopy,
        first: Number(piece.slice(mark.length)),
        ...(part.same === undefined ? {} : { same: part.same }),
      }),
    ),
  ]
}
