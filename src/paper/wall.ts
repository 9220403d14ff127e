import type { BenchCut, Plan, SetUp } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, markFont, type PageSize, stopFont, textFont } from './size.ts'

// The wall cut sheet: every set-up in the order of work, what to set, and a tick box for every cut.

export interface WallHead {
  readonly number: number
  readonly setUp: SetUp
  readonly stage: string
  /** Sentences under the figures. */
  readonly words: readonly string[]
}

export type WallStrip =
  | { readonly kind: 'load'; readonly text: string }
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
export const boxHigh: Mm = 13
export const labelWide: Mm = 58

/** `either end to the stop` → `Either end to the stop.` */
const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/[.]$/, '')}.`

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
  if (cut.loaded === cut.stick) return 'Cut to length'
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

/** Height of the great figures; an inch fraction stands two figures high. */
export const figuresHigh = (setUp: SetUp): Mm => {
  const { stop, miter } = setUp.printed
  const pair = stop.text.includes('/') || miter.text.includes('/') ? stopFont * 2.2 : stopFont * 1.2
  return 2 * lineHigh + pair + (thirdFigure(setUp) ? lineHigh + stopFont * 1.2 : 0)
}

/** Which saw, where there are several; and how its scale reads, where a miter could be set by the wrong one. */
function sawWords({ saw: id, swing }: SetUp, { saws }: Shop): string {
  const saw = saws.find((one) => one.id === id)
  const scale = saw?.readsAtSquare === 90 && swing !== 0 ? 'scale reads 90° at square' : ''
  if (!saw || saws.length === 1) return scale && `The ${scale}`
  return `On ${saw.name}${scale && `, whose ${scale}`}`
}

export function wallBlocks(
  plan: Plan,
  cuts: readonly BenchCut[],
  shop: Shop,
  page: PageSize,
): Block<WallHead, WallStrip>[] {
  const wide = bodyWide(page)
  const lengths = new Map(
    (plan.nest?.sections ?? []).flatMap(({ sticks }) => sticks.map((stick) => [stick.id, stick] as const)),
  )
  const stickWord = shop.says === 'stick and drop' ? 'stick' : 'length'
  // Through all set-ups: a stick stays on the saw until it is unloaded, and is not whole when it comes back.
  let loaded = ''
  const begun = new Set<string>()
  return setUpsInOrder(cuts).map((group, at): Block<WallHead, WallStrip> => {
    const { setUp } = group[0]!
    const { lean, longSide, turn, miter, bevelLean = '', roll = '', ramp = '', seam = '' } = setUp.printed
    const ends = bothEnds(group) ? 'a: first end, b: second end' : ''
    const words = [
      sawWords(setUp, shop),
      miter.rise ? `Rise ${miter.rise}` : '',
      setUp.swing === 0 ? '' : lean,
      bevelLean,
      roll,
      ramp,
      seam,
      longSide,
      turn,
      ends,
    ]
      .filter((text) => text !== '')
      .map(sentence)
    const head: WallHead = { number: at + 1, setUp, stage: stageOf(group, cuts), words }
    const headHigh =
      5 + figuresHigh(setUp) + words.reduce((sum, text) => sum + linesOf(text, wide) * lineHigh, 0)
    const strips: { high: Mm; what: WallStrip }[] = []
    const end = (cut: BenchCut) => (bothEnds(group) ? (cut.product.kind === 'half' ? 'a' : 'b') : '')
    const labelOf = (cut: BenchCut) =>
      (cut.product.makes?.[0] ?? cut.product.id).slice((cut.product.mark ?? '').length) + end(cut)
    const boxes = boxWide(Math.max(...group.map((cut) => labelOf(cut).length)))
    const perRow = Math.max(1, Math.floor((wide - labelWide) / boxes))
    let onSaw = loaded
    let row: { from: string; mark: string; wide: Mm; numbers: string[] } | undefined
    const note = (text: string) => {
      strips.push({ high: linesOf(text, wide, 'bold') * lineHigh, what: { kind: 'load', text } })
      row = undefined
    }
    const close = () => {
      row = undefined
    }
    for (const cut of group) {
      const whole = cut.loaded === cut.stick
      const stick = lengths.get(cut.stick)
      if (whole && onSaw === cut.stick)
        note(`${sentence(stickWord).slice(0, -1)} ${cut.stick} stays on the saw.`)
      else if (whole && loaded !== cut.stick) {
        const rack = stick?.from === 'rack' ? ', from the rack' : ''
        const clean = cut.trimFirst ? `; clean-up cut ${say(cut.trimFirst, shop.reading)}` : ''
        const which = begun.has(cut.stick)
          ? `what is left of ${stickWord} ${cut.stick}`
          : `${stickWord} ${cut.stick}${stick ? `, ${say(stick.length, shop.reading)}` : ''}${rack}`
        note(`Load ${which}${clean}.`)
      }
      if (whole) {
        loaded = cut.stick
        begun.add(cut.stick)
      }
      onSaw = ''
      const mark = cut.product.mark ?? ''
      const from = whole ? cut.stick : ''
      const number = labelOf(cut)
      if (!row || row.mark !== mark || row.from !== from || row.numbers.length >= perRow) {
        row = { from, mark, wide: boxes - 2, numbers: [] }
        strips.push({ high: boxHigh + 2, what: { kind: 'ticks', ...row } })
      }
      row.numbers.push(number)
      if (whole && cut.unload !== undefined) {
        close()
        note(
          cut.unload === 'scrap' || !stick
            ? `Unload ${cut.stick}: what is left is scrap.`
            : `Unload ${cut.stick}: keep ${say(stick.drop, shop.reading)}, write it on the end.`,
        )
        loaded = ''
      }
    }
    return { head: { high: headHigh, what: head }, strips }
  })
}

export { markFont, textFont }
