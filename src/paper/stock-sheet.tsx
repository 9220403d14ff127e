import { buyList } from '../core/buy/list.ts'
import { buyRows } from '../core/buy/order-text.ts'
import type { NestSection, NestStick } from '../core/nest.ts'
import { keptTogether } from '../core/parts/one-stick.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import { type Block, flow } from './flow.ts'
import { Heading, numbered, orderName } from './page.tsx'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// What to buy, and which part comes out of which stick.

type StockStrip = { readonly text: string } | { readonly stick: NestStick; readonly label: string }

const barHigh = 14

/** `beside`: the jobs that are bought along; all that they need is on the list. */
export function stockSheet(plan: Plan, shop: Shop, page: PageSize, beside: readonly Plan[] = []) {
  const wide = bodyWide(page)
  const line = (text: string) => ({ high: linesOf(text, wide) * lineHigh + 1, what: { text } })
  const list = buyList([plan, ...beside], plan.nest, shop, { rack: [], opened: {} })
  const buy: Block<string, StockStrip> = {
    head: { high: lineHigh + 4, what: 'To buy' },
    strips: buyRows(list, shop).map(line),
  }
  const sections = (plan.nest?.sections ?? []).map((section): Block<string, StockStrip> => {
    const name = sectionName(section.section, shop.reading)
    return {
      head: { high: linesOf(name, wide, 'bold') * lineHigh + 4, what: name },
      strips: section.sticks.map((stick) => {
        const label = stickText(stick, section, shop)
        return { high: barHigh + 4 + linesOf(label, wide) * lineHigh, what: { stick, label } }
      }),
    }
  })
  const pages = flow([buy, ...sections], bodyHigh(page))
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
              <Bar key={strip.stick.id} stick={strip.stick} label={strip.label} wide={wide} />
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

/** `S2 6000 mm, rack: A × 3, B; drop 450 mm; from one stick: A`. */
function stickText(stick: NestStick, section: NestSection, { reading, says }: Shop): string {
  const [one, drop] = says === 'stick and drop' ? ['stick', 'drop'] : ['length', 'offcut']
  const from = stick.from === 'rack' ? ', rack' : ''
  const together = keptTogether(section, stick)
  return `${stick.id} ${say(stick.length, reading)}${from}: ${contents(stick)}; ${drop} ${say(stick.drop, reading)}${together && `; from one ${one}: ${together}`}`
}

function Bar({
  stick,
  label,
  wide,
}: {
  readonly stick: NestStick
  readonly label: string
  readonly wide: number
}) {
  const scale = wide / stick.length
  return (
    <div className="stock-stick" style={{ height: `${barHigh + 4 + linesOf(label, wide) * lineHigh}mm` }}>
      <p className="stock-label">{label}</p>
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
