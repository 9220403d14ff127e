import { Fragment } from 'react'
import type { Point } from '../core/geometry/polygon.ts'
import type { Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { TablePlan } from '../ui/drawing/table-plan.tsx'
import { type FitStrip, fitBlocks, loopHigh, tableHigh } from './fit.ts'
import { flow } from './flow.ts'
import { Heading, numbered } from './page.tsx'
import { points } from './scaled.ts'
import { bodyHigh, bodyWide, type PageSize } from './size.ts'

const foot = 'Two boxes: at both ends. They must read the same.'

/** The fit-up sheet: one for each copy of the order. */
export function fitSheet(plan: Plan, shop: Shop, page: PageSize) {
  const pages = flow(fitBlocks(plan, shop, page), bodyHigh(page))
  return numbered({ page, job: plan.name, title: 'Fit-up', foot }, pages, (blocks) =>
    blocks.map(({ head, again, strips }, block) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: blocks never move
      <article key={block}>
        <Heading text={head} again={again} />
        {strips.map((strip, row) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
          <Fragment key={row}>
            <Row strip={strip} wide={bodyWide(page)} />
          </Fragment>
        ))}
      </article>
    )),
  )
}

function Row({ strip, wide }: { readonly strip: FitStrip; readonly wide: number }) {
  if (strip.kind === 'text') return <p className="fit-line">{strip.text}</p>
  if (strip.kind === 'pair')
    return (
      <div className="plate-pair">
        {strip.texts.map((text) => (
          <span key={text}>{text}</span>
        ))}
      </div>
    )
  if (strip.kind === 'corners') return <Corners corners={strip.corners} wide={wide} />
  if (strip.kind === 'table')
    return (
      <div className="paper-table" style={{ height: `${tableHigh + 2}mm` }}>
        <TablePlan
          layout={strip.layout}
          clear={strip.clear}
          wide={wide}
          high={tableHigh}
          size={6}
          label="The table from above: edges, lines and blocks"
          onPaper
        />
      </div>
    )
  return (
    <div className="fit-measure">
      <span>{strip.label}</span>
      <b>{strip.must}</b>
      {Array.from({ length: strip.boxes }, (_, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: boxes never move
        <span key={at} className="fit-box" />
      ))}
    </div>
  )
}

/** The loop from its corners, numbered as on the screen. */
function Corners({ corners, wide }: { readonly corners: readonly Point[]; readonly wide: number }) {
  const xs = corners.map(([x]) => x)
  const ys = corners.map(([, y]) => y)
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const room = 9
  const scale = Math.min((wide - 2 * room) / (right - left), (loopHigh - 2 * room) / (high - low))
  const at = ([x, y]: Point): Point => [
    wide / 2 + (x - (left + right) / 2) * scale,
    loopHigh / 2 - (y - (low + high) / 2) * scale,
  ]
  return (
    <svg
      className="fit-corners"
      viewBox={`0 0 ${wide} ${loopHigh}`}
      style={{ width: `${wide}mm`, height: `${loopHigh}mm` }}
      role="img"
      aria-label={`${corners.length} corners, numbered`}
    >
      <polygon points={points(corners.map(at))} />
      {corners.map((corner, k) => {
        const [x, y] = at(corner)
        const [dx, dy] = [x - wide / 2, y - loopHigh / 2]
        const far = Math.hypot(dx, dy) || 1
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: corners are their numbers
          <text key={k} x={x + (dx / far) * 5.5} y={y + (dy / far) * 5.5 + 2.3} textAnchor="middle">
            {k + 1}
          </text>
        )
      })}
    </svg>
  )
}
