import type { Plan } from '../core/plan-shapes.ts'
import { say, showLength } from '../core/reading/show.ts'
import type { Shop } from '../core/shop.ts'
import { tapOf } from '../core/thread.ts'
import type { Mm } from '../core/units.ts'
import { Bars, barsFoot, barsHigh } from './bars.tsx'
import { type Block, flow } from './flow.ts'
import { Heading, numbered, orderName } from './page.tsx'
import { type LaidPlate, laidPlates } from './plate.ts'
import { points } from './scaled.ts'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// Plates: at full size where they fit on the paper, else drawn small; always with every corner and hole as x and y.

type PlateStrip =
  | { readonly kind: 'drawing'; readonly plate: LaidPlate; readonly scale: number }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'pair'; readonly texts: readonly string[] }

/** Half of the thickest line, so that none is cut off at the edge. */
const margin: Mm = 1
/** Greatest height of a drawing that is not at full size. */
const smallHigh: Mm = 90

const titleOf = ({ mark, name, count, thickness }: LaidPlate, shop: Shop): string =>
  `${mark} ${name}${count > 1 ? ` × ${count}` : ''}, ${say(thickness, shop.reading)} thick`

/** Full size where the whole plate fits under its title, else as large as it fits small. */
export function scaleOf(
  { width, height }: LaidPlate,
  room: { readonly wide: Mm; readonly high: Mm },
): number {
  const [most, tall] = [room.wide - 2 * margin, room.high - 2 * margin]
  return width <= most && height <= tall ? 1 : Math.min(most / width, smallHigh / height)
}

/** Corners, holes and slots from the left edge and the lower one, then what tells that the outline is true. */
export function marksOf(
  plate: LaidPlate,
  shop: Shop,
): { readonly points: string[]; readonly checks: string[] } {
  const text = (mm: Mm) => showLength(mm, shop.reading).text
  const at = ([x, y]: readonly [Mm, Mm]) => `${text(x)}, ${text(y)}`
  return {
    points: [
      ...(plate.circle ? [`middle:  ${at(plate.circle.at)}`] : []),
      ...plate.corners.map((corner, k) => `${k + 1}:  ${at(corner)}`),
      ...plate.holes.map((hole, k) => `h${k + 1}:  ${at(hole.at)}`),
      ...plate.slots.flatMap(({ ends: [one, two] }, k) => [`s${k + 1}:  ${at(one)}`, `to  ${at(two)}`]),
    ],
    checks: plate.diagonals.map(
      ({ from, to, length }) => `${from + 1} to ${to + 1}:  ${say(length, shop.reading)}`,
    ),
  }
}

const holesText = ({ holes, slots, thread }: LaidPlate, shop: Shop): string => {
  const sizes = [...new Set(holes.map(({ diameter }) => say(diameter, shop.reading)))]
  const wide = [...new Set(slots.map(({ width }) => say(width, shop.reading)))]
  return [
    ...(holes.length === 0
      ? []
      : [
          thread
            ? `Holes drilled ${tapOf(thread).drillName}, tapped ${thread}.`
            : `Holes ⌀ ${sizes.join(', ')}.`,
        ]),
    ...(slots.length === 0 ? [] : [`Slots ${wide.join(', ')} wide, between the middles of their ends.`]),
  ].join(' ')
}

const pairs = (texts: readonly string[]): readonly string[][] =>
  Array.from({ length: Math.ceil(texts.length / 2) }, (_, at) => texts.slice(2 * at, 2 * at + 2))

export function plateBlocks(plan: Plan, shop: Shop, page: PageSize): Block<string, PlateStrip>[] {
  const wide = bodyWide(page)
  const high = bodyHigh(page) - barsHigh
  const { unit } = showLength(0, shop.reading)
  return laidPlates(plan, (mm) => say(mm, shop.reading)).map((plate) => {
    const title = titleOf(plate, shop)
    const head = { high: linesOf(title, wide, 'bold') * lineHigh + 4, what: title }
    const text = (words: string) => ({
      high: linesOf(words, wide) * lineHigh,
      what: { kind: 'text', text: words } as const,
    })
    const rows = (texts: readonly string[]) =>
      pairs(texts).map((two) => ({ high: lineHigh, what: { kind: 'pair', texts: two } as const }))
    const scale = scaleOf(plate, { wide, high: high - head.high - 2 * lineHigh - 2 })
    const size = plate.circle
      ? `⌀ ${say(2 * plate.circle.radius, shop.reading)}`
      : `${say(plate.width, shop.reading)} × ${say(plate.height, shop.reading)} over all`
    const { points: marks, checks } = marksOf(plate, shop)
    return {
      head,
      strips: [
        text(`${size}. ${scale === 1 ? 'Drawn at full size.' : 'Drawn small: mark it out.'}`),
        ...(plate.scribed
          ? [text(`Cut it last. ${plate.scribed} The numbers are those of the drawing.`)]
          : []),
        {
          high: plate.height * scale + 2 * margin + 2,
          what: { kind: 'drawing', plate, scale },
        },
        ...(plate.holes.length + plate.slots.length > 0 ? [text(holesText(plate, shop))] : []),
        ...(marks.length > 0
          ? [text(`From the left edge, from the lower edge, ${unit}:`), ...rows(marks)]
          : []),
        ...(checks.length > 0 ? [text('Check, corner to corner:'), ...rows(checks)] : []),
      ],
      whole: true,
    }
  })
}

export function plateSheet(plan: Plan, shop: Shop, page: PageSize) {
  const high = bodyHigh(page) - barsHigh
  const pages = flow(plateBlocks(plan, shop, page), high)
  return numbered({ page, job: orderName(plan), title: 'Plates', foot: barsFoot }, pages, (blocks) => (
    <>
      <div style={{ height: `${high}mm` }}>
        {blocks.map(({ head, again, strips }) => (
          <article key={head}>
            <Heading text={head} again={again} />
            {strips.map((strip, row) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
              <Row key={row} strip={strip} />
            ))}
          </article>
        ))}
      </div>
      <Bars />
    </>
  ))
}

function Row({ strip }: { readonly strip: PlateStrip }) {
  if (strip.kind === 'text') return <p>{strip.text}</p>
  if (strip.kind === 'drawing') return <Drawn plate={strip.plate} scale={strip.scale} />
  return (
    <div className="plate-pair">
      {strip.texts.map((text) => (
        <span key={text}>{text}</span>
      ))}
    </div>
  )
}

/** The outline with its corners numbered, holes and slots with their centers; y grows upward, from the lower edge. */
function Drawn({ plate, scale }: { readonly plate: LaidPlate; readonly scale: number }) {
  const { outline, corners, holes, slots, circle } = plate
  const [wide, high] = [plate.width * scale, plate.height * scale]
  const at = ([x, y]: readonly [Mm, Mm]) => [x * scale, high - y * scale] as const
  const middle = [wide / 2, high / 2] as const
  return (
    <svg
      className="plate-paper"
      role="img"
      aria-label={`${plate.mark}, ${scale === 1 ? 'full size' : 'small'}`}
      viewBox={`${-margin} ${-margin} ${wide + 2 * margin} ${high + 2 * margin}`}
      style={{ width: `${wide + 2 * margin}mm`, height: `${high + 2 * margin}mm` }}
    >
      {scale !== 1 && !circle && <rect className="plate-sheet" width={wide} height={high} />}
      <polygon points={points(outline.map(at))} />
      {corners.map((corner, k) => {
        const [x, y] = at(corner)
        const [dx, dy] = [middle[0] - x, middle[1] - y]
        const long = Math.hypot(dx, dy)
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: corners are their numbers
          <text key={k} x={x + (dx / long) * 6} y={y + (dy / long) * 6 + 1.5}>
            {k + 1}
          </text>
        )
      })}
      {slots.map(({ ends, width }, k) => {
        const [[x, y], [u, v]] = [at(ends[0]), at(ends[1])]
        const long = Math.hypot(u - x, v - y) || 1
        const [dx, dy] = [((u - x) / long) * (width / 2) * scale, ((v - y) / long) * (width / 2) * scale]
        const r = (width / 2) * scale
        return (
          <g key={`${x} ${y} ${u} ${v}`}>
            <path
              className="plate-cross"
              d={`M${x - dy} ${y + dx}L${u - dy} ${v + dx}A${r} ${r} 0 0 0 ${u + dy} ${v - dx}L${x + dy} ${y - dx}A${r} ${r} 0 0 0 ${x - dy} ${y + dx}Z`}
            />
            <text x={(x + u) / 2} y={Math.min(y, v) - r - 1}>
              s{k + 1}
            </text>
          </g>
        )
      })}
      {holes.map(({ at: center, diameter }, k) => {
        const [u, v] = at(center)
        const r = (diameter / 2) * scale
        return (
          <g key={`${u} ${v}`}>
            <circle cx={u} cy={v} r={r} />
            <path
              className="plate-cross"
              d={`M${u - r - 2} ${v}h${2 * r + 4}M${u} ${v - r - 2}v${2 * r + 4}`}
            />
            <text x={u + r + 4.5} y={v - 1.5}>
              h{k + 1}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
