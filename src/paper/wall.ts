import type { NestSection, NestStick } from '../core/nest.ts'
import type { BenchCut, Part, Plan, SetUp } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { isShort, shortPiece, stackedOnly } from '../core/saw/caution.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { pictureHigh, pictureWide } from './bench-picture.tsx'
import { dropMarks } from './drop-marks.ts'
import type { Block } from './flow.ts'
import { pieceHigh } from './piece-picture.tsx'
import { bodyWide, lineHigh, linesOf, markFont, type PageSize, stopFont, textFont } from './size.ts'
import { stickHigh } from './stick-picture.tsx'

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

export type WallStrip =
  | {
      readonly kind: 'load'
      readonly text: string
      /** Drawn with its pieces when it is taken for the first time. */
      readonly stick?: NestStick
      readonly section?: NestSection
    }
  | { readonly kind: 'piece'; readonly part: Part }
  /** What does not stand beside the picture. */
  | { readonly kind: 'words'; readonly text: string }
  | {
      readonly kind: 'ticks'
      readonly from: string
      readonly mark: string
      /** Width of a box, mm. */
      readonly wide: Mm
      readonly numbers: readonly string[]
    }

/** A tick box with the number of its piece in it, and the gap beside it. */
export const boxWide = (labels: number): Mm => Math.max(13, labels * textFont * 0.62 + 3) + 2
export const boxHigh: Mm = 11
/** Room for the mark of a row, and for the stick that it is from. */
export const labelWide = (from: string): Mm => (from ? 58 : 24)

/** `either end to the stop` → `Either end to the stop.` */
export const sentence = (text: string) =>
  `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/[.]$/, '')}.`

/** A first and a second end are both drawn where nothing is seen from the side; else one cut is like the next. */
function drawnOf(group: readonly BenchCut[]): readonly BenchCut[] {
  if (thirdFigure(group[0]!.setUp)) return [group[0]!]
  const second = bothEnds(group) ? group.find(({ product }) => product.kind === 'piece') : undefined
  return second ? [group[0]!, second] : [group[0]!]
}

/** Pictures side by side over the words, or one picture with the words beside it. */
const picturesOf = (drawn: readonly BenchCut[]): number =>
  drawn.length + (thirdFigure(drawn[0]!.setUp) && drawn.length === 1 ? 1 : 0)

/** Room for the words of a set-up: beside its one picture, or under both. */
export const wordsWide = (drawn: readonly BenchCut[], page: PageSize): Mm =>
  picturesOf(drawn) === 1 ? bodyWide(page) - pictureWide - 4 : bodyWide(page)

/** Lines that stand beside one picture, or under two, before the others follow below at full width. */
const linesWith = (drawn: readonly BenchCut[]): number => (picturesOf(drawn) === 1 ? 5 : 3)
const linesBelow = 4

/** As many sentences as have room in so many lines, at least one; then the rest. */
function takeLines(words: readonly string[], first: string, most: number, wide: Mm): [string[], string[]] {
  let count = 0
  while (count < words.length && linesOf([first, ...words.slice(0, count + 1)].join(' '), wide) <= most)
    count += 1
  return [words.slice(0, count), words.slice(count)]
}

/** Words of a set-up: those with its pictures, and those below in paragraphs of a few lines, so that a page can turn. */
function spread(
  stage: string,
  words: readonly string[],
  drawn: readonly BenchCut[],
  page: PageSize,
): { readonly beside: readonly string[]; readonly below: readonly string[] } {
  const [beside, rest] = takeLines(words, `${stage}, continued.`, linesWith(drawn), wordsWide(drawn, page))
  const below: string[] = []
  for (let left = rest; left.length > 0; ) {
    const [taken, after] = takeLines(left, '', linesBelow, bodyWide(page))
    below.push((taken.length > 0 ? taken : left.slice(0, 1)).join(' '))
    left = taken.length > 0 ? after : left.slice(1)
  }
  return { beside, below }
}

/** Pictures and the words with them. */
function underFigures(
  stage: string,
  beside: readonly string[],
  drawn: readonly BenchCut[],
  page: PageSize,
): Mm {
  const lines = linesOf([`${stage}, continued.`, ...beside].join(' '), wordsWide(drawn, page))
  return picturesOf(drawn) === 1 ? Math.max(pictureHigh, lines * lineHigh) : pictureHigh + lines * lineHigh
}

/** One set-up serves both ends of its pieces. */
const bothEnds = (group: readonly BenchCut[]): boolean =>
  group.some(({ product }) => product.kind === 'half') &&
  group.some(({ product }) => product.kind === 'piece')

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

/** Cuts by the stroke that makes them, in the order of work. */
function strokesIn(group: readonly BenchCut[]): readonly (readonly BenchCut[])[] {
  const strokes: BenchCut[][] = []
  for (const cut of group) {
    const last = strokes.at(-1)
    if (last && cut.stroke?.includes(last[0]!.product.id)) last.push(cut)
    else strokes.push([cut])
  }
  return strokes
}

/** Pieces left to the hand that stay in the bar which is left of a stick, by the stick. */
function waitingIn({ run }: Plan): ReadonlyMap<string, readonly string[]> {
  const left = new Set((run?.left ?? []).map(({ piece }) => piece))
  const loaded = new Set((run?.programs ?? []).map(({ load }) => load))
  return new Map(
    (run?.products ?? []).flatMap(({ id, kind, makes = [] }) => {
      const own = makes.filter((piece) => left.has(piece))
      return kind === 'rest' && !loaded.has(id) && own.length > 0 ? [[id.split('.')[0]!, own] as const] : []
    }),
  )
}

/** What is set beside miter and stop for a compound end: as great as they are, on a line of its own. */
export function thirdFigure({
  tilt,
  roll,
  ramp,
  printed,
}: SetUp): { label: string; text: string } | undefined {
  const degrees = (angle: number) => `${+Math.abs(angle).toFixed(1)}°`
  if (tilt !== 0) return { label: 'Bevel', text: printed.bevel?.text ?? degrees(tilt) }
  if (roll !== 0) return { label: 'Turned', text: degrees(roll) }
  return ramp === 0 ? undefined : { label: 'Wedge', text: degrees(ramp) }
}

/** Width of a great figure at the broadest that system faces set it. */
const greatWide = (text: string): Mm =>
  [...text].reduce((sum, sign) => sum + stopFont * (/\d/.test(sign) ? 0.7 : 0.5), 0)

const unitWide = (unit: string): Mm => 2 + textFont * 0.7 * unit.length

/** Left of the great figures: the number of the set-up, and the gaps. */
const besideFigures: Mm = 34

/** Whether miter and stop stand on one line with their fractions behind the whole number. */
export const inLine = ({ printed: { miter, stop } }: SetUp, page: PageSize): boolean =>
  besideFigures + greatWide(miter.text) + greatWide(stop.text) + unitWide(stop.unit) <= bodyWide(page)

/** Height of the great figures; an inch fraction that does not fit on the line stands two figures high. */
export const figuresHigh = (setUp: SetUp, page: PageSize): Mm => {
  const { stop, miter } = setUp.printed
  const stacked = !inLine(setUp, page) && `${stop.text}${miter.text}`.includes('/')
  const pair = stacked ? stopFont * 2.2 : stopFont * 1.2
  return lineHigh + pair + (thirdFigure(setUp) ? lineHigh + stopFont * 1.2 : 0)
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

export function wallBlocks(
  plan: Plan,
  cuts: readonly BenchCut[],
  shop: Shop,
  page: PageSize,
): Block<WallHead, WallStrip>[] {
  const wide = bodyWide(page)
  const sectionOf = new Map(
    (plan.nest?.sections ?? []).flatMap((section) =>
      section.sticks.map((stick) => [stick.id, { stick, section }] as const),
    ),
  )
  const partOf = new Map((plan.cutParts ?? plan.parts).map((part) => [part.mark, part]))
  const marks = dropMarks(plan)
  const waiting = waitingIn(plan)
  // Through all set-ups: a stick stays on the saw until it is unloaded, and is not whole when it comes back.
  let loaded = ''
  const begun = new Set<string>()
  return setUpsInOrder(cuts).map((group, at): Block<WallHead, WallStrip> => {
    const { setUp } = group[0]!
    const { lean, longSide, turn, miter, bevelLean = '', roll = '', ramp = '', seam = '' } = setUp.printed
    const ends = bothEnds(group) ? 'box a is the first end, b the second' : ''
    const words = [
      sawWords(setUp, shop),
      miter.rise ? `Rise ${miter.rise}` : '',
      setUp.swing === 0 ? '' : lean,
      bevelLean,
      roll,
      ramp,
      seam,
      longSide,
      // Nothing to turn: the picture shows it all.
      setUp.swing === 0 && group.every(({ turns }) => turns.length === 0) ? '' : turn,
      ends,
      setUp.gang ? 'what lies side by side is cut in one stroke: one box for all of it' : '',
      setUp.swing !== 0 && (shop.saws.find(({ id }) => id === setUp.saw)?.gang ?? 1) > 1 ? stackedOnly : '',
      firstPiece(group, partOf),
      group.some(({ product, setUp: { section } }) =>
        isShort(lengthOf(product, partOf), Math.max(section.width, section.height)),
      )
        ? shortPiece
        : '',
    ]
      .filter((text) => text !== '')
      .map(sentence)
    const drawn = drawnOf(group)
    const stage = stageOf(group, cuts)
    const { beside, below } = spread(stage, words, drawn, page)
    const head: WallHead = { setting: { number: at + 1, setUp, drawn }, stage, words: beside }
    const headHigh = 5 + figuresHigh(setUp, page) + underFigures(stage, beside, drawn, page)
    const strips: { high: Mm; what: WallStrip }[] = below.map((text) => ({
      high: linesOf(text, wide) * lineHigh,
      what: { kind: 'words', text },
    }))
    const end = (cut: BenchCut) => (bothEnds(group) ? (cut.product.kind === 'half' ? 'a' : 'b') : '')
    const labelOf = (cut: BenchCut) =>
      (cut.product.makes?.[0] ?? cut.product.id).slice((cut.product.mark ?? '').length) + end(cut)
    const strokes = strokesIn(group)
    const labelsOf = (stroke: readonly BenchCut[]) => stroke.map(labelOf).join(', ')
    const boxes = boxWide(Math.max(...strokes.map((stroke) => labelsOf(stroke).length)))
    const perRow = (from: string) => Math.max(1, Math.floor((wide - labelWide(from)) / boxes))
    const severalMarks = new Set(group.map(({ product }) => product.mark)).size > 1
    const pictured = new Set<string>()
    let onSaw = loaded
    let row: { from: string; mark: string; wide: Mm; numbers: string[] } | undefined
    const note = (text: string, of?: { stick: NestStick; section: NestSection }) => {
      strips.push({
        high: linesOf(text, wide, 'bold') * lineHigh + (of ? stickHigh + 2 : 0),
        what: { kind: 'load', text, ...of },
      })
      row = undefined
    }
    const close = () => {
      row = undefined
    }
    for (const stroke of strokes) {
      const cut = stroke[0]!
      const whole = cut.loaded === cut.stick
      const sticks = stroke.map((one) => one.stick)
      const names = sticks.join(', ')
      const stick = sectionOf.get(cut.stick)?.stick
      if (whole && onSaw === names) note(`${names} ${sticks.length > 1 ? 'stay' : 'stays'} on the saw.`)
      else if (whole && loaded !== names) {
        const clean = cut.trimFirst ? `; clean up ${say(cut.trimFirst, shop.reading)}` : ''
        if (sticks.length > 1) note(`Side by side, ends flush${clean}:`)
        for (const id of sticks) {
          const known = sectionOf.get(id)
          const rack = known?.stick.from === 'rack' ? ', from the rack' : ''
          const fresh = !begun.has(id)
          const long = known ? `, ${say(known.stick.length, shop.reading)}` : ''
          const which = fresh ? `${id}${long}${rack}` : `what is left of ${id}`
          note(`Load ${which}${sticks.length > 1 ? '' : clean}.`, fresh ? known : undefined)
        }
      }
      if (cut.trim) {
        const { miter, lean, bevel } = cut.trim
        note(sentence(`clean up at ${miter.text}${bevel ? `, bevel ${bevel.text}` : ''}: ${lean}`))
      }
      if (cut.splits) note('The same cut makes this one too: only tick it.')
      if (whole) {
        loaded = names
        for (const id of sticks) begun.add(id)
      }
      onSaw = ''
      const mark = cut.product.mark ?? ''
      const from = whole ? names : ''
      const number = labelsOf(stroke)
      const part = partOf.get(mark)
      if (severalMarks && part && !pictured.has(mark)) {
        strips.push({ high: pieceHigh, what: { kind: 'piece', part } })
        pictured.add(mark)
        row = undefined
      }
      if (!row || row.mark !== mark || row.from !== from || row.numbers.length >= perRow(from)) {
        row = { from, mark, wide: boxes - 2, numbers: [] }
        strips.push({ high: boxHigh + 2, what: { kind: 'ticks', ...row } })
      }
      row.numbers.push(number)
      if (whole && cut.unload !== undefined) {
        close()
        if (cut.unload === 'scrap' || !stick) note(`What is left of ${names} is scrap.`)
        else
          for (const id of sticks)
            note(
              waiting.has(id)
                ? `What is left of ${id} stays for ${waiting.get(id)!.join(', ')}, by hand.`
                : `${sticks.length > 1 ? `${id}: keep` : 'Keep'} ${say(sectionOf.get(id)!.stick.drop, shop.reading)}; paint ${marks.get(id) ?? id} on it.`,
            )
        loaded = ''
      }
    }
    return { head: { high: headHigh, what: head }, strips, whole: true }
  })
}

export { markFont, textFont }
