import type { Part, Plan } from '../core/plan-shapes.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { type Block, flow } from './flow.ts'
import { mm, numbered, orderName } from './page.tsx'
import { PiecePicture, pieceHigh } from './piece-picture.tsx'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'
import { boxHigh, boxWide } from './wall-strips.ts'

// The cut list: every piece of the order with a box to tick, copy by copy, under a true picture of its part.

/** A row of boxes of one copy; a copy with many pieces takes several. */
export interface ListRow {
  readonly label: string
  readonly wide: Mm
  readonly numbers: readonly string[]
}

export interface ListHead {
  readonly part: Part
  readonly text: string
}

const labelWide: Mm = 40
const markWide: Mm = 30

const textOf = (part: Part, { quantity, parts }: Plan, shop: Shop): string => {
  const { name, count, section, printed, shape } = part
  const all = count * quantity
  const many = `${all} ${all === 1 ? 'piece' : 'pieces'}${quantity > 1 ? `, ${count} for each copy` : ''}`
  const along = shape === 'square' ? '' : `${printed.primary} `
  return `${name}, ${sectionName(section, shop.reading)}, ${along}${printed.length.text} ${printed.length.unit}: ${many}.${oneStickText(part, parts, shop)}`
}

/** ` From one stick, together with B.` where a person wants it so. */
function oneStickText({ mark, oneStick }: Part, parts: readonly Part[], { says }: Shop): string {
  if (oneStick === undefined) return ''
  const stick = says === 'stick and drop' ? 'stick' : 'length'
  const beside = parts.filter((other) => other.oneStick === oneStick && other.mark !== mark)
  const names = beside.map((other) => other.mark).join(' and ')
  return ` From one ${stick}${names && `, together with ${names}`}.`
}

/** Piece k of a mark belongs to copy 1 + (k − 1) / count, as in the nest. */
function rowsOf({ count }: Part, { quantity }: Plan, wide: Mm): ListRow[] {
  const box = boxWide(String(count * quantity).length)
  const left = quantity > 1 ? labelWide : 0
  const perRow = Math.max(1, Math.floor((wide - left) / box))
  return Array.from({ length: quantity }, (_, copy) => {
    const numbers = Array.from({ length: count }, (_, k) => String(copy * count + k + 1))
    return Array.from({ length: Math.ceil(count / perRow) }, (_, row) => ({
      label: quantity > 1 && row === 0 ? `Copy ${copy + 1}` : '',
      wide: box - 2,
      numbers: numbers.slice(row * perRow, (row + 1) * perRow),
    }))
  }).flat()
}

export function listBlocks(plan: Plan, shop: Shop, page: PageSize): Block<ListHead, ListRow>[] {
  const wide = bodyWide(page)
  return plan.parts.map((part) => {
    const text = textOf(part, plan, shop)
    return {
      head: { high: pieceHigh + linesOf(text, wide) * lineHigh + 4, what: { part, text } },
      strips: rowsOf(part, plan, wide).map((row) => ({ high: boxHigh + 2, what: row })),
      whole: true,
    }
  })
}

export function listSheet(plan: Plan, shop: Shop, page: PageSize) {
  const pages = flow(listBlocks(plan, shop, page), bodyHigh(page))
  const indent = plan.quantity > 1 ? labelWide : 0
  return numbered(
    { page, job: orderName(plan), title: 'Cut list', foot: 'Tick a piece when it is cut and measured.' },
    pages,
    (blocks) =>
      blocks.map(({ head: { part, text }, again, strips }) => (
        <article className="wall-block" key={part.mark}>
          <div className="wall-row">
            <span className="wall-mark" style={{ width: mm(markWide) }}>
              {part.mark}
            </span>
            <PiecePicture part={part} />
          </div>
          <p className="list-text">
            {text}
            {again ? ' Continued.' : ''}
          </p>
          {strips.map(({ label, wide, numbers }) => (
            <div className="wall-row" key={numbers[0]} style={{ height: mm(boxHigh + 2) }}>
              {indent > 0 && <span style={{ width: mm(indent - 2) }}>{label}</span>}
              {numbers.map((number) => (
                <span key={number} className="wall-tick" style={{ width: mm(wide), height: mm(boxHigh) }}>
                  {number}
                </span>
              ))}
            </div>
          ))}
        </article>
      )),
  )
}
