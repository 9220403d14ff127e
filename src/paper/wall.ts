import type { BenchCut, Part, Plan, SetUp } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { isShort, shortPiece, stackedOnly } from '../core/saw/caution.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'
import { figuresHigh } from './wall-figures.ts'
import { bothEnds, drawnOf, spread, underFigures } from './wall-spread.ts'
import { sentence, stripsThrough, type WallStrip } from './wall-strips.ts'

// The wall cut sheet: every set-up in the order of work, what to set, and a tick box for every cut.

/** What must be known before the first cut, or one set-up. */
export interface WallHead {
  /** Absent on what stands before the first set-up. */
  readonly setting?: {
    readonly number: number
    readonly setUp: SetUp
    /** The cuts that are drawn: the first of each kind, two at most. */
    readonly drawn: readonly BenchCut[]
  }
  readonly stage: string
  /** Sentences with the pictures. */
  readonly words: readonly string[]
}

const stageOf = (group: readonly BenchCut[], cuts: readonly BenchCut[]): string => {
  const cut = group[0]!
  const { kind } = cut.product
  if (kind === 'blank') return 'Cut to length'
  if (bothEnds(group)) return 'Both ends'
  if (kind === 'half') return 'First ends'
  if (cut.loaded === cut.stick) return cut.setUp.swing === 0 ? 'Cut to length' : 'From the stick'
  const parent = cuts.find((other) => other.product.id === cut.product.from)
  return parent?.product.kind === 'half' ? 'Second ends' : 'Mitered ends'
}

/** Consecutive cuts that share a set-up. */
export function setUpsInOrder(cuts: readonly BenchCut[]): BenchCut[][] {
  const groups: BenchCut[][] = []
  for (const cut of cuts) {
    const last = groups.at(-1)
    if (last && last[0]!.setUp.id === cut.setUp.id) last.push(cut)
    else groups.push([cut])
  }
  return groups
}

/** Which saw, where there are several; and how its scale reads, where a miter could be set by the wrong one. */
function sawWords({ saw: id, swing }: SetUp, { saws }: Shop): string {
  const saw = saws.find((one) => one.id === id)
  const scale = saw?.readsAtSquare === 90 && swing !== 0 ? 'scale reads 90° at square' : ''
  if (!saw || saws.length === 1) return scale && `The ${scale}`
  return `On ${saw.name}${scale && `, whose ${scale}`}`
}

const lengthOf = ({ length, mark = '' }: BenchCut['product'], parts: ReadonlyMap<string, Part>): Mm =>
  length ?? parts.get(mark)?.longPoint ?? Number.POSITIVE_INFINITY

/** What the first finished piece of this set-up is measured by. */
function firstPiece(group: readonly BenchCut[], parts: ReadonlyMap<string, Part>): string {
  const part = parts.get(group.find(({ product }) => product.kind === 'piece')?.product.mark ?? '')
  if (!part) return ''
  const { length, primary } = part.printed
  const along = part.shape === 'square' ? '' : primary === 'edge' ? ' along the edge' : ' over the long point'
  return `first piece check: ${part.mark} is ${length.text} ${length.unit}${along}`
}

/** Stands before the first set-up: saws with their blades, what counts as zero, what must never be done. */
export function startBlock(
  cuts: readonly BenchCut[],
  shop: Shop,
  page: PageSize,
): Block<WallHead, WallStrip> {
  const setUps = cuts.map(({ setUp }) => setUp)
  const saws = shop.saws.filter(({ id }) => setUps.some(({ saw }) => saw === id))
  const words = [
    ...saws.map(({ name, blades, blade, stopSide, readsAtSquare }) => {
      const on = blades.find(({ id }) => id === blade)
      const kerf = on ? `, ${on.name}, kerf ${say(on.kerf, shop.reading)}` : ''
      return `${name}${kerf}, stop on the ${stopSide}${readsAtSquare === 90 ? ', scale reads 90° at square' : ''}.`
    }),
    `Stop: from the teeth on its side, where they cross the fence${
      setUps.some(({ swing }) => swing !== 0) ? ', head swung' : ''
    }. Its plate touches the fence, reaches past the tube, stands higher than its corners are round.`,
    'Guard on, eyes and ears covered, steel clamped, no gloves near the blade.',
  ]
  const wide = bodyWide(page)
  const high = words.reduce((sum, text) => sum + linesOf(text, wide) * lineHigh, lineHigh + 6)
  return { head: { high, what: { stage: 'Before the first cut', words } }, strips: [] }
}

/** One block for each set-up, in the order of work. */
export function wallBlocks(
  plan: Plan,
  cuts: readonly BenchCut[],
  shop: Shop,
  page: PageSize,
): Block<WallHead, WallStrip>[] {
  const wide = bodyWide(page)
  const parts = new Map((plan.cutParts ?? plan.parts).map((part) => [part.mark, part]))
  const stripsOf = stripsThrough(plan, parts, shop, page)
  return setUpsInOrder(cuts).map((group, at): Block<WallHead, WallStrip> => {
    const { setUp } = group[0]!
    const drawn = drawnOf(group)
    const stage = stageOf(group, cuts)
    const { beside, below } = spread(stage, wordsOf(group, parts, shop), drawn, page)
    const words = below.map((text) => ({
      high: linesOf(text, wide) * lineHigh,
      what: { kind: 'words', text } as const,
    }))
    return {
      head: {
        high: 5 + figuresHigh(setUp, page) + underFigures(stage, beside, drawn, page),
        what: { setting: { number: at + 1, setUp, drawn }, stage, words: beside },
      },
      strips: [...words, ...stripsOf(group)],
      whole: true,
    }
  })
}

/** What is to be known of a set-up beside its figures, a sentence each. */
function wordsOf(group: readonly BenchCut[], parts: ReadonlyMap<string, Part>, shop: Shop): string[] {
  const { setUp } = group[0]!
  const { lean, longSide, turn, miter, bevelLean = '', roll = '', ramp = '', seam = '' } = setUp.printed
  const square = setUp.swing === 0
  const gangs = (shop.saws.find(({ id }) => id === setUp.saw)?.gang ?? 1) > 1
  return [
    sawWords(setUp, shop),
    miter.rise ? `Rise ${miter.rise}` : '',
    square ? '' : lean,
    bevelLean,
    roll,
    ramp,
    seam,
    longSide,
    // Nothing to turn: the picture shows it all.
    square && group.every(({ turns }) => turns.length === 0) ? '' : turn,
    bothEnds(group) ? 'box a is the first end, b the second' : '',
    setUp.gang ? 'what lies side by side is cut in one stroke: one box for all of it' : '',
    !square && gangs ? stackedOnly : '',
    firstPiece(group, parts),
    group.some(({ product, setUp: { section } }) =>
      isShort(lengthOf(product, parts), Math.max(section.width, section.height)),
    )
      ? shortPiece
      : '',
  ]
    .filter((text) => text !== '')
    .map(sentence)
}
