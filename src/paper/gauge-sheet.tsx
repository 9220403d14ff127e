import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { Bars, barsFoot, barsHigh } from './bars.tsx'
import { flow } from './flow.ts'
import { type Gauge, gaugesOf, triangleOf } from './gauge.ts'
import { numbered } from './page.tsx'
import { points } from './scaled.ts'
import { bodyHigh, bodyWide, lineHigh, linesOf, markFont, type PageSize } from './size.ts'

/** Half of the thickest line, so that none is cut off at the edge. */
const margin: Mm = 1

/** Words stand beside the triangle where there is room for them, else over it. */
const leastWords: Mm = 70

const wordsOf = ({ rise, uses }: Gauge): string[] => [`Rise ${rise}.`, ...uses]

function sizeOf(gauge: Gauge, shop: Shop, page: PageSize) {
  const { along, across, strip } = triangleOf(gauge.deg, shop.reading)
  const wide = along + strip + 2 * margin
  const high = across + 2 * margin
  const left = bodyWide(page) - wide - 6
  const beside = left >= leastWords
  const words = beside ? left : bodyWide(page)
  const said =
    markFont * 1.2 + wordsOf(gauge).reduce((sum, text) => sum + linesOf(text, words) * lineHigh, 0) + 2
  return {
    along,
    across,
    strip,
    wide,
    high,
    beside,
    words,
    total: (beside ? Math.max(high, said) : high + said) + 2,
  }
}

const howTo =
  'Cut out. Its edge on the fence, or on the side of the tube: the slanted edge lies along the blade, or along the cut end.'

/** A triangle at full size for each angle of the job. */
export function gaugeSheet(plan: Plan, cuts: readonly BenchCut[], shop: Shop, page: PageSize) {
  const gauges = gaugesOf(plan, cuts, shop)
  if (gauges.length === 0) return []
  const high = bodyHigh(page) - barsHigh
  const pages = flow(
    [
      { head: { high: linesOf(howTo, bodyWide(page)) * lineHigh + 3, what: howTo }, strips: [] },
      {
        head: { high: 0, what: '' },
        strips: gauges.map((gauge) => ({ high: sizeOf(gauge, shop, page).total, what: gauge })),
      },
    ],
    high,
  )
  return numbered({ page, job: plan.name, title: 'Angle gauges', foot: barsFoot }, pages, (on) => (
    <>
      <div style={{ height: `${high}mm` }}>
        {on.map(({ head, strips }) => (
          <article key={head}>
            {head && <p>{head}</p>}
            {strips.map((gauge) => (
              <Drawn key={gauge.deg} gauge={gauge} shop={shop} page={page} />
            ))}
          </article>
        ))}
      </div>
      <Bars />
    </>
  ))
}

function Drawn({
  gauge,
  shop,
  page,
}: {
  readonly gauge: Gauge
  readonly shop: Shop
  readonly page: PageSize
}) {
  const { along, across, strip, wide, high, beside, words, total } = sizeOf(gauge, shop, page)
  const foot = across
  return (
    <div className={beside ? 'gauge gauge-beside' : 'gauge'} style={{ height: `${total}mm` }}>
      <div style={{ width: `${words}mm` }}>
        <p className="wall-mark">{gauge.text}</p>
        {wordsOf(gauge).map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      <svg
        className="gauge-paper"
        role="img"
        aria-label={`Gauge of ${gauge.text} from square`}
        viewBox={`${-margin - strip} ${-margin} ${wide} ${high}`}
        style={{ width: `${wide}mm`, height: `${high}mm` }}
      >
        <polygon
          points={points([
            [-strip, 0],
            ...(strip > 0 ? ([[0, 0]] as const) : []),
            [along, foot],
            [-strip, foot],
          ])}
        />
        {strip > 0 && <path className="gauge-square" d={`M0 0V${foot}`} />}
        <text x={-strip + 2} y={foot - 2}>
          fence
        </text>
        <text x={-strip + 2} y={foot - 8}>
          {gauge.text}
        </text>
      </svg>
    </div>
  )
}
