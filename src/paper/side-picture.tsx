import type { ReactNode } from 'react'
import type { SetUp } from '../core/plan-shapes.ts'
import { isRound } from '../core/section/section.ts'
import { cosDeg, sinDeg, tanDeg } from '../core/units.ts'
import { pictureHigh, pictureWide } from './bench-picture.tsx'
import { points } from './scaled.ts'

// What the picture from above cannot show: the blade beveled, the tube turned in its cradle, one end on a wedge.

const table = 30
const degrees = (angle: number): string => `${+Math.abs(angle).toFixed(1)}°`

export function SidePicture({ setUp }: { readonly setUp: SetUp }) {
  if (setUp.roll !== 0) return <Cradle setUp={setUp} />
  return setUp.ramp !== 0 ? <Wedge setUp={setUp} /> : <Bevel setUp={setUp} />
}

function Frame({ says, children }: { readonly says: string; readonly children: ReactNode }) {
  return (
    <svg
      className="bench-drawn"
      role="img"
      aria-label={says}
      viewBox={`0 0 ${pictureWide} ${pictureHigh}`}
      style={{ width: `${pictureWide}mm`, height: `${pictureHigh}mm` }}
    >
      {children}
      <path className="bench-heavy" d={`M4 ${table}H${pictureWide - 4}`} />
      <text x={pictureWide - 4} y={table + 5.2} textAnchor="end">
        table
      </text>
      <text x={4} y={table + 5.2}>
        {says}
      </text>
    </svg>
  )
}

/** Seen along the fence from the stop: with the stop at the left the fence is on the left hand. */
function Cradle({ setUp: { section, roll, stopSide } }: { readonly setUp: SetUp }) {
  const left = stopSide === 'left'
  const scale = 18 / Math.max(section.width, section.height)
  const [w, h] = [section.width * scale, section.height * scale]
  const [c, s] = [Math.abs(cosDeg(roll)), Math.abs(sinDeg(roll))]
  const round = isRound(section)
  const [out, up] = round ? [w / 2, h / 2] : [(w * c + h * s) / 2, (w * s + h * c) / 2]
  const fence = left ? 18 : pictureWide - 18
  const x = left ? fence + out : fence - out
  return (
    <Frame says="seen from the stop">
      <path className="bench-heavy" d={`M${fence} ${table}V1`} />
      <text x={left ? fence - 1.5 : fence + 1.5} y={6} textAnchor={left ? 'end' : 'start'}>
        fence
      </text>
      <g
        transform={`translate(${x.toFixed(2)} ${(table - up).toFixed(2)}) rotate(${(left ? -roll : roll).toFixed(2)})`}
      >
        {round ? (
          <circle className="bench-steel" r={w / 2} />
        ) : (
          <rect className="bench-steel" x={-w / 2} y={-h / 2} width={w} height={h} />
        )}
        <path className="bench-thin" d={`M0 ${-h / 2}v5`} />
        <text y={-h / 2 + 9.5} textAnchor="middle">
          top
        </text>
      </g>
      <text
        className="bench-figure"
        x={left ? x + out + 3 : x - out - 3}
        y={table - 4}
        textAnchor={left ? 'start' : 'end'}
      >
        {degrees(roll)}
      </text>
    </Frame>
  )
}

/** Seen from where the person stands, facing the fence. */
function Wedge({ setUp: { ramp, stopSide } }: { readonly setUp: SetUp }) {
  const toStop = stopSide === 'left' ? -1 : 1
  // The raised end is away from the stop for a positive ramp.
  const raised = ramp > 0 ? -toStop : toStop
  const middle = pictureWide / 2
  const [half, thick] = [28, 9] as const
  const [low, high] = [middle - raised * half, middle + raised * half]
  const rise = Math.min(14, 2 * half * Math.abs(tanDeg(ramp)))
  const plate = middle + toStop * (half + 3)
  return (
    <Frame says="from where you stand">
      <path className="bench-wedge" d={`M${low} ${table}L${high} ${table - rise}V${table}Z`} />
      <polygon
        className="bench-steel"
        points={points([
          [low, table],
          [high, table - rise],
          [high, table - rise - thick],
          [low, table - thick],
        ])}
      />
      <rect className="bench-plate" x={plate - 1.5} y={8} width={3} height={table - 8} />
      <text x={plate} y={6} textAnchor="middle">
        stop
      </text>
      <text
        className="bench-figure"
        x={middle - raised * 12}
        y={table - thick - rise / 2 - 6}
        textAnchor="middle"
      >
        {degrees(ramp)}
      </text>
    </Frame>
  )
}

/** Seen from where the person stands: a positive bevel leans the top of the blade away from the stop. */
function Bevel({ setUp: { tilt, stopSide } }: { readonly setUp: SetUp }) {
  const toStop = stopSide === 'left' ? -1 : 1
  const foot = pictureWide / 2
  const at = (up: number) => foot - toStop * tanDeg(tilt) * up
  const thick = 14
  return (
    <Frame says="from where you stand">
      <polygon
        className="bench-steel"
        points={points([
          [foot, table],
          [at(thick), table - thick],
          [foot + toStop * 34, table - thick],
          [foot + toStop * 34, table],
        ])}
      />
      <path className="bench-scrap bench-rest" d={`M${foot} ${table}V3`} />
      <path className="bench-blade" d={`M${at(-2)} ${table + 2}L${at(27)} ${table - 27}`} />
      <text x={foot + toStop * 19} y={table - thick - 2} textAnchor="middle">
        to the stop
      </text>
      <text
        className="bench-figure"
        x={foot - toStop * 6}
        y={table - 8}
        textAnchor={toStop < 0 ? 'start' : 'end'}
      >
        {degrees(tilt)}
      </text>
    </Frame>
  )
}
