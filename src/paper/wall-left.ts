import type { Part, Plan } from '../core/plan-shapes.ts'
import { layOutOf } from '../core/saw/lay-out.ts'
import type { Shop } from '../core/shop.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'
import { sentence, type WallHead, type WallStrip } from './wall.ts'

// The end of the wall cut sheet: what is left to the hand.

/** What no saw of the shop finishes, by what hinders it, with the ways out; none where the saws do it all. */
export function leftBlocks(plan: Plan, shop: Shop, page: PageSize): Block<WallHead, WallStrip>[] {
  const left = plan.run?.left ?? []
  if (left.length === 0) return []
  const wide = bodyWide(page)
  const reasons = [...new Set(left.map(({ why }) => why))]
  const texts = reasons.flatMap((why) => {
    const same = left.filter((one) => one.why === why)
    return [`${same.map(({ piece }) => piece).join(', ')}: ${why}`, ...(same[0]?.ways ?? [])]
  })
  const parts = plan.cutParts ?? plan.parts
  for (const mark of new Set(left.map((one) => one.mark))) {
    const part = parts.find((one) => one.mark === mark)
    if (part) texts.push(markOutWords(part, shop))
  }
  return [
    {
      head: { high: lineHigh + 6, what: { stage: 'Not finished by a saw here', words: [] } },
      strips: texts.map((text) => ({
        high: linesOf(sentence(text), wide) * lineHigh,
        what: { kind: 'words', text: sentence(text) },
      })),
    },
  ]
}

/** How a piece is marked out by hand, in one sentence. */
function markOutWords(part: Part, { reading }: Shop): string {
  const { lines, round, square } = layOutOf(part, reading)
  const first = lines[0]!
  if (square)
    return `${part.mark}: ${first.length.text} ${first.length.unit} from a square end, square all round`
  const each = lines.map(
    ({ from, length }, at) =>
      `${at + 1}: ${from.text} in, ${length.text} ${length.unit} along${at < 3 ? ';' : ''}`,
  )
  const names = round ? 'on four lines a quarter turn apart' : 'on the edges, round the tube'
  return `${part.mark} from a square end, ${names}: ${each.join(' ')}`
}
