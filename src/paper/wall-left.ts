import type { Part, Plan, Shown } from '../core/plan-shapes.ts'
import { layOutOf } from '../core/saw/lay-out.ts'
import type { Shop } from '../core/shop.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'
import type { WallHead } from './wall.ts'
import { boxHigh, boxWide, labelWide, sentence, type WallStrip } from './wall-strips.ts'

// The end of the wall cut sheet: what is left to the hand.

/** What no saw of the shop finishes: what hinders it, the ways out, how it is marked out, and a box for each piece. */
export function leftBlocks(plan: Plan, shop: Shop, page: PageSize): Block<WallHead, WallStrip>[] {
  const left = plan.run?.left ?? []
  if (left.length === 0) return []
  const wide = bodyWide(page)
  const parts = plan.cutParts ?? plan.parts
  const reasons = [...new Set(left.map(({ why }) => why))]
  const words = (text: string) => ({
    high: linesOf(sentence(text), wide) * lineHigh,
    what: { kind: 'words', text: sentence(text) } as const,
  })
  const hindered = reasons.flatMap((why) => {
    const [first] = left.filter((one) => one.why === why)
    return [why, ...(first?.ways ?? [])]
  })
  const marks = [...new Set(left.map(({ mark }) => mark))]
  const made = marks.flatMap((mark) => {
    const part = parts.find((one) => one.mark === mark)
    const numbers = left.filter((one) => one.mark === mark).map(({ piece }) => piece.slice(mark.length))
    const boxes = boxWide(Math.max(...numbers.map((number) => number.length)))
    const perRow = Math.max(1, Math.floor((wide - labelWide('')) / boxes))
    const rows = Array.from({ length: Math.ceil(numbers.length / perRow) }, (_, at) =>
      numbers.slice(at * perRow, (at + 1) * perRow),
    )
    return [
      ...(part ? [words(markOutWords(part, shop))] : []),
      ...rows.map((row) => ({
        high: boxHigh + 2,
        what: { kind: 'ticks', from: '', mark, wide: boxes - 2, numbers: row } as const,
      })),
    ]
  })
  return [
    {
      head: { high: lineHigh + 6, what: { stage: 'By hand: no saw here finishes these', words: [] } },
      strips: [...hindered.map(words), ...made],
    },
  ]
}

/** How a piece is marked out by hand, in one sentence. */
function markOutWords(part: Part, { reading }: Shop): string {
  const { lines, round, square } = layOutOf(part, reading)
  const first = lines[0]!
  const say = ({ text, unit }: Shown) => `${text} ${unit}`
  if (square) return `${part.mark}: ${say(first.length)} from a square end, square all round`
  const name = round ? 'line' : 'edge'
  const each = lines.map(
    ({ from, length }, at) => `${name} ${at + 1}, ${say(from)} from the end, then ${say(length)}`,
  )
  const how = round ? 'four lines a quarter turn apart' : 'the edges numbered round the tube'
  return `${part.mark}, ${how}, from a square end: ${each.join('; ')}`
}
