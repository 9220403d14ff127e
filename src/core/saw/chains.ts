import type { NestPiece, NestSection, PairedPiece } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { Part, Product } from '../plan-shapes.ts'
import { good, type Result } from '../result.ts'
import type { Shop } from '../shop.ts'
import { stepsNearest } from '../units.ts'
import { lengthInStick } from './blank-of.ts'
import { cutEnds } from './ends.ts'
import { halfKey } from './half.ts'
import { pieceHolding } from './hold.ts'
import { extentOf } from './lying.ts'
import type { Chain } from './miters.ts'
import { seamAtSplit } from './pairs.ts'
import { unknownPart } from './refusals.ts'
import { seamAt, seamsOf } from './seam-at-saw.ts'
import { shownStop } from './shown-stop.ts'
import { splitOf } from './split.ts'
import { isPinned } from './stick-demand.ts'
import type { EndCut } from './ways.ts'

// The cuts at the ends of one blank, one after the other: its miters, or the one cut that splits it into two pieces.

/** Plans the end cuts of one piece; equal pieces are planned once. */
export function planChain(section: NestSection, parts: readonly Part[], shop: Shop) {
  const planned = new Map<string, Result<readonly EndCut[]>>()
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const cutsFor = (piece: NestPiece): Result<readonly EndCut[]> => {
    const part = byKey.get(piece.key)
    return part ? cutEnds(part, lengthInStick(piece), section.section, shop) : unknownPart(piece)
  }
  return (piece: NestPiece): Result<Chain> => {
    if (piece.makes) return splitChain(piece, section, byKey, shop)
    const name = `${piece.key} ${stepsNearest(lengthInStick(piece))}`
    const cuts = planned.get(name) ?? cutsFor(piece)
    planned.set(name, cuts)
    return cuts.ok ? good(chainOf(piece, cuts.value, byKey.get(piece.key)!, section, shop)) : cuts
  }
}

/** The one cut that splits a paired blank. */
function splitChain(
  piece: NestPiece,
  { section, kerf }: NestSection,
  byKey: ReadonlyMap<string, Part>,
  shop: Shop,
): Result<Chain> {
  const [one, two] = piece.makes!
  const [first, second] = [byKey.get(one.key), byKey.get(two.key)]
  if (!first || !second) return unknownPart(piece)
  const cut = splitOf(first, second, section, shop, lengthInStick(piece))
  if (!cut.ok) return cut
  const saw = sawFor(shop, section)
  const { stopSide } = pieceHolding(saw)
  const numberOf = ({ piece: id, mark }: PairedPiece) => Number(id.slice(mark.length))
  const pinned = [first, second].some(isPinned)
  const [now] = pinned
    ? seamAtSplit(
        { part: first, number: numberOf(one) },
        { part: second, number: numberOf(two) },
        section,
        shop,
        stopSide,
      )
    : []
  const blank = piece.blank!
  const product = (of: PairedPiece, part: Part): Product => ({
    id: of.piece,
    from: blank,
    kind: 'piece',
    mark: of.mark,
    key: of.key,
    copy: of.copy,
    job: piece.job,
    makes: [of.piece],
    length: part.printed.longPoint.mm,
  })
  return good([
    {
      saw,
      section,
      kerf,
      load: blank,
      keep: product(one, first),
      cut: cut.value,
      handling: cut.value.turns.join(' '),
      stop: shownStop(cut.value.planned, shop),
      seam: now && { now, loaded: now },
      splits: product(two, second),
    },
  ])
}

function chainOf(
  piece: NestPiece,
  cuts: readonly EndCut[],
  part: Part,
  { section, kerf }: NestSection,
  shop: Shop,
): Chain {
  const saw = sawFor(shop, section)
  const { stopSide } = pieceHolding(saw)
  const seams = seamsOf(part, piece)
  const id = piece.piece
  const made = { mark: piece.mark, copy: piece.copy, job: piece.job, makes: [id] }
  const blank = piece.blank ?? id
  const half = `${id}.m`
  const handling = cuts.map(({ turns }) => turns.join(' ')).join(', ')
  return cuts.map((cut) => {
    const first = cut.kind === 'first'
    const keep: Product = first
      ? { ...made, id: half, from: blank, kind: 'half', key: halfKey(section, cut.kept, stopSide, shop) }
      : { ...made, id, from: cut.kind === 'second' ? half : blank, kind: 'piece', key: piece.key }
    const length = extentOf(cut.kept)
    return {
      saw,
      section,
      kerf,
      load: keep.from,
      keep: { ...keep, length },
      cut,
      handling,
      stop: shownStop(cut.planned, shop),
      seam: seamAt(cut, cuts[0]!, seams),
    }
  })
}
