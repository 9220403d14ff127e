import { buyList } from '../core/buy/list.ts'
import { buyRows } from '../core/buy/order-text.ts'
import type { NestSection, NestStick } from '../core/nest.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import { type Block, flow } from './flow.ts'
import { Heading, numbered, orderName } from './page.tsx'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// What to buy, and which part comes out of which stick.

type StockStrip = { readonly text: string } | { readonly stick: NestStick; readonly section: NestSection }

const barHigh = 14
const stickHigh = lineHigh + barHigh + 4

export function stockSheet(plan: Plan, shop: Shop, page: PageSize) {
  const wide = bodyWide(page)
  const line = (text: string) => ({ high: linesOf(text, wide) * lineHigh + 1, what: { text } })
  const list = buyList([plan], plan.nest, shop, { rack: [], opened: {} })
  const buy: Block<string, StockStrip> = {
    head: { high: lineHigh + 4, what: 'To buy' },
    strips: buyRows(list, shop).map(line),
  }
  const sections = (plan.nest?.sections ?? []).map((section): Block<string, StockStrip> => {
    const name = sectionName(section.section, shop.reading)
    return {
      head: { high: linesOf(name, wide, 'bold') * lineHigh + 4, what: name },
      strips: section.sticks.map((stick) => ({ high: stickHigh, what: { stick, section } })),
    }
  })
  const pages = flow([buy, ...sections], bodyHigh(page))
  const drop = shop.says === 'stick and drop' ? 'drop' : 'offcut'
  return numbered(
    {
      page,
      job: orderName(plan),
      title: shop.says === 'stick and drop' ? 'Sticks' : 'Lengths',
      foot: 'Kerf and clean-up cuts are counted in.',
    },
    pages,
    (on) =>
      on.map(({ head, again, strips }) => (
        <article key={head}>
          <Heading text={head} again={again} />
          {strips.map((strip) =>
            'text' in strip ? (
              <p key={strip.text}>{strip.text}</p>
            ) : (
              <Bar key={strip.stick.id} stick={strip.stick} wide={wide} shop={shop} drop={drop} />
            ),
          )}
        </article>
      )),
  )
}

/** Marks in the order in which they are cut, `A × 3, B × 1`. */
function contents(stick: NestStick): string {
  const runs: { mark: string; count: number }[] = []
  for (const { mark } of stick.pieces) {
    const last = runs.at(-1)
    if (last?.mark === mark) last.count += 1
    else runs.push({ mark, count: 1 })
  }
  return runs.map(({ mark, count }) => (count > 1 ? `${mark} × ${count}` : mark)).join(', ')
}

function Bar(props: {
  readonly stick: NestStick
  readonly wide: number
  readonly shop: Shop
  readonly drop: string
}) {
  const { stick, wide, shop } = props
  const scale = wide / stick.length
  const from = stick.from === 'rack' ? ', rack' : ''
  return (
    <div className="stock-stick" style={{ height: `${stickHigh}mm` }}>
      <p className="stock-label">
        {stick.id} {say(stick.length, shop.reading)}
        {from}: {contents(stick)}; {props.drop} {say(stick.drop, shop.reading)}
      </p>
      <svg
        role="img"
        aria-label={`${stick.id}: ${contents(stick)}`}
        viewBox={`0 0 ${wide} ${barHigh}`}
        style={{ width: `${wide}mm`, height: `${barHigh}mm` }}
      >
        <rect className="stock-bar" x={0.2} y={0.2} width={wide - 0.4} height={barHigh - 0.4} />
        {stick.pieces.map(({ piece, mark, ends }) => {
          // The leading end lies at the left.
          const start = (stick.length - ends[0].x) * scale
          const long = (ends[0].x - ends[1].x) * scale
          return (
            <g key={piece}>
              <rect className="stock-piece" x={start} y={0.2} width={long} height={barHigh - 0.4} />
              {long > 8 && (
                <text className="stock-mark" x={start + long / 2} y={barHigh / 2 + 2.6}>
                  {mark}
                </text>
              )}
            </g>
          )
        })}
      </svg>
    </div>
  )
}
