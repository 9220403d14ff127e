import { landingLines } from '../core/parts/landing-lines.ts'
import type { Part, Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { sectionName } from '../core/section/name.ts'
import { sectionKey } from '../core/section/section.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { EndsPicture } from '../ui/drawing/ends.tsx'
import { type Block, flow } from './flow.ts'
import { Figure, Heading, numbered, orderName } from './page.tsx'
import { bodyHigh, bodyWide, lineHigh, linesOf, markFont, type PageSize } from './size.ts'

// The parts list with the layout marks: what each piece must be, and where it lands.

type PartsStrip = { readonly part: Part } | { readonly text: string }

/** Columns of a row, mm: mark, how many, and ends; the length has what is left. As in paper.css. */
const [markWide, countWide, endsWide] = [18, 38, 62] as const
/** The figure, or the picture with the angles below it. */
const figureHigh = markFont * 1.2

const endsText = ({ shape, saddles }: Part): string =>
  saddles ? `${shape}, ${saddles === 'at both ends' ? 'saddles' : 'saddle'}` : shape

function lengthText({ longPoint, printed }: Part, shop: Shop): string {
  return printed.primary === 'edge' ? `edge, extent ${say(longPoint, shop.reading)}` : 'long point'
}

/** As high as its words: names are given by people, and some ends take a second line. */
function partHigh(part: Part, shop: Shop, wide: Mm): Mm {
  const lengthWide = wide - markWide - countWide - endsWide
  const left = linesOf(lengthText(part, shop), lengthWide) + linesOf(part.name, lengthWide)
  return figureHigh + Math.max(left, 1 + linesOf(endsText(part), endsWide)) * lineHigh + 3
}

const foot = 'Landings: both edges from the end named.'

function landingText(plan: Plan): string[] {
  return landingLines(plan).map(({ on, by, landing, face }) => {
    const { near, far } = landing.printed
    return `On ${on}, ${face}, from end ${landing.from}: ${near.text} to ${far.text} ${far.unit}. X: ${by}`
  })
}

/** Plates that share a mark are one line, with how many there are. */
function plateText(plan: Plan): string[] {
  const marks = [...new Set(plan.plates.map(({ mark }) => mark))]
  return marks.map((mark) => {
    const same = plan.plates.filter((plate) => plate.mark === mark)
    const { name, text } = same[0]!
    const many = same.length * plan.quantity
    return `${mark} ${name}${many > 1 ? ` × ${many}` : ''}: ${text}`
  })
}

export function partsSheet(plan: Plan, shop: Shop, page: PageSize) {
  const wide = bodyWide(page)
  const sections = new Map<string, Part[]>()
  for (const part of plan.parts) {
    const key = sectionKey(part.section)
    sections.set(key, [...(sections.get(key) ?? []), part])
  }
  const line = (text: string) => ({ high: linesOf(text, wide) * lineHigh + 2, what: { text } })
  const head = (text: string) => ({ high: linesOf(text, wide, 'bold') * lineHigh + 4, what: text })
  const blocks: Block<string, PartsStrip>[] = [...sections.values()].map((parts) => ({
    head: head(sectionName(parts[0]!.section, shop.reading)),
    strips: parts.map((part) => ({ high: partHigh(part, shop, wide), what: { part } })),
  }))
  if (plan.plates.length > 0)
    blocks.push({
      head: head('Plates'),
      strips: plateText(plan).map(line),
    })
  const landings = landingText(plan)
  if (landings.length > 0) blocks.push({ head: head('Layout marks'), strips: landings.map(line) })
  const built = plan.sizes.map(
    ({ name, asked, printed }) =>
      `${name}: ${asked ? 'asked ' : ''}${printed.exact.text} ${printed.exact.unit}, built ${printed.built.text} ${printed.built.unit}`,
  )
  if (built.length > 0) blocks.push({ head: head('Sizes'), strips: built.map(line) })
  const pages = flow(blocks, bodyHigh(page))
  return numbered({ page, job: orderName(plan), title: 'Parts', foot }, pages, (on) =>
    on.map(({ head: text, again, strips }, block) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: blocks never move
      <article key={block}>
        <Heading text={text} again={again} />
        {strips.map((strip, row) =>
          'part' in strip ? (
            <PartRow
              key={strip.part.mark}
              part={strip.part}
              quantity={plan.quantity}
              shop={shop}
              wide={wide}
            />
          ) : (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
            <p className="parts-line" key={row}>
              {strip.text}
            </p>
          ),
        )}
      </article>
    )),
  )
}

function PartRow({
  part,
  quantity,
  shop,
  wide,
}: {
  readonly part: Part
  readonly quantity: number
  readonly shop: Shop
  readonly wide: Mm
}) {
  const { printed } = part
  const count = quantity > 1 ? `${part.count} × ${quantity}` : `${part.count}`
  return (
    <div className="parts-row" style={{ height: `${partHigh(part, shop, wide)}mm` }}>
      <span className="wall-mark">{part.mark}</span>
      <span className="parts-count">{count}</span>
      <span className="parts-length">
        <span className="parts-figure">
          <Figure text={printed.length.text} unit={printed.length.unit} />
        </span>
        <span>{lengthText(part, shop)}</span>
        <span>{part.name}</span>
      </span>
      <span className="parts-ends">
        <EndsPicture slopes={part.slopes} />
        <span>{printed.angles.map(({ text }) => text).join(' · ')}</span>
        <span>{endsText(part)}</span>
      </span>
    </div>
  )
}
