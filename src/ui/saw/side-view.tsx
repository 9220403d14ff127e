import type { ReactNode } from 'react'
import type { SetUp } from '../../core/plan-shapes.ts'
import { isRound } from '../../core/section/section.ts'
import type { Deg } from '../../core/units.ts'
import { cosDeg, sinDeg, tanDeg } from '../../core/units.ts'
import { degrees } from './say.ts'

/** What the picture from above cannot show: the blade beveled, the tube turned in its cradle, one end on a wedge. */
export function SideView({ setUp }: { setUp: SetUp }) {
  if (setUp.roll !== 0) return <Cradle setUp={setUp} />
  if (setUp.ramp !== 0) return <Wedge setUp={setUp} />
  return setUp.tilt === 0 ? null : <Bevel setUp={setUp} />
}

const [wide, high, table] = [420, 190, 160]

function Sheet({ says, children }: { says: string; children: ReactNode }) {
  return (
    <div className="saw-picture side-view">
      <svg width={wide} height={high} viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={says}>
        {children}
        <path d={`M20 ${table}H${wide - 20}`} className="heavy" />
        <text x={wide - 20} y={table + 22} textAnchor="end" className="dim">
          table
        </text>
      </svg>
    </div>
  )
}

/**
 * From the stop, along the fence. With the stop at the left the fence is on this picture's left hand, at the right on its
 * right; the tube leans toward or away from it as it does on the saw.
 */
function Cradle({ setUp: { section, roll, stopSide, printed } }: { setUp: SetUp }) {
  const left = stopSide === 'left'
  const scale = 92 / Math.max(section.width, section.height)
  const [w, h] = [section.width * scale, section.height * scale]
  const reach = (one: Deg) => (w * Math.abs(cosDeg(one)) + h * Math.abs(sinDeg(one))) / 2
  const round = isRound(section)
  const [out, up] = round
    ? [w / 2, h / 2]
    : [reach(roll), (w * Math.abs(sinDeg(roll)) + h * Math.abs(cosDeg(roll))) / 2]
  const fence = left ? 90 : wide - 90
  const x = left ? fence + out : fence - out
  const y = table - up
  const turn = left ? -roll : roll
  return (
    <Sheet says={`Seen from the stop: ${printed.roll ?? ''}`}>
      <path d={`M${fence} ${table}V24`} className="heavy" />
      <text x={left ? fence - 10 : fence + 10} y="40" textAnchor={left ? 'end' : 'start'} className="dim">
        fence
      </text>
      <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(2)})`}>
        {round ? (
          <circle r={w / 2} className="steel" />
        ) : (
          <rect x={-w / 2} y={-h / 2} width={w} height={h} className="steel" />
        )}
        <path d={`M0 ${-h / 2}V${-h / 2 - 20}`} className="thin" />
        <text y={-h / 2 + 24} textAnchor="middle">
          top
        </text>
      </g>
      <text
        x={left ? x + out + 24 : x - out - 24}
        y={table - 30}
        textAnchor={left ? 'start' : 'end'}
        className="measure"
      >
        turned {degrees(roll)}
      </text>
    </Sheet>
  )
}

/** From where the person stands, facing the fence. */
function Wedge({ setUp: { ramp, stopSide, printed } }: { setUp: SetUp }) {
  const toStop = stopSide === 'left' ? -1 : 1
  const half = 150
  // The raised end: away from the stop for a positive ramp.
  const raised = ramp > 0 ? -toStop : toStop
  const low = wide / 2 - raised * half
  const high = wide / 2 + raised * half
  const rise = Math.min(70, 2 * half * Math.abs(tanDeg(ramp)))
  const thick = 44
  const plate = wide / 2 + toStop * (half + 14)
  return (
    <Sheet says={`From where you stand: ${printed.ramp ?? ''}`}>
      <path d={`M${low} ${table}L${high} ${table - rise}V${table}Z`} className="wedge" />
      <polygon
        points={`${low},${table} ${high},${table - rise} ${high},${table - rise - thick} ${low},${table - thick}`}
        className="steel"
      />
      <rect x={plate - 8} y={40} width="16" height={table - 40} className="plate" />
      <text x={plate} y={32} textAnchor="middle">
        stop
      </text>
      <text x={wide / 2 + raised * 90} y={table + 22} textAnchor="middle" className="measure">
        wedge {degrees(ramp)}
      </text>
    </Sheet>
  )
}

/** From where the person stands, facing the fence: a positive bevel leans the top of the blade away from the stop. */
function Bevel({ setUp: { tilt, stopSide, printed } }: { setUp: SetUp }) {
  const toStop = stopSide === 'left' ? -1 : 1
  const foot = wide / 2
  const lean = -toStop * tanDeg(tilt)
  const at = (up: number) => foot + lean * up
  const stick = 70
  return (
    <Sheet says={`From where you stand: bevel ${printed.bevel?.text ?? ''}, ${printed.bevelLean ?? ''}`}>
      <polygon
        points={`${foot},${table} ${at(stick)},${table - stick} ${foot + toStop * 150},${table - stick} ${foot + toStop * 150},${table}`}
        className="steel"
      />
      <path d={`M${foot} ${table}V20`} className="thin dashed" />
      <path d={`M${at(-10)} ${table + 10}L${at(130)} ${table - 130}`} className="blade" strokeWidth="5" />
      <text x={foot + toStop * 90} y={table - stick - 10} textAnchor="middle" className="dim">
        to the stop
      </text>
      <text
        x={foot - toStop * 30}
        y={table - 30}
        textAnchor={toStop < 0 ? 'start' : 'end'}
        className="measure"
      >
        bevel {printed.bevel?.text}
      </text>
    </Sheet>
  )
}
