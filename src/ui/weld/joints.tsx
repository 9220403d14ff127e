import { useMemo, useState } from 'react'
import type { Plan, Seam } from '../../core/plan-shapes.ts'
import { Shapes } from '../drawing/shape.tsx'
import { backToFront } from '../drawing/shapes.ts'
import { fitIn, toScreen } from '../drawing/sheet.ts'
import { solidsOf } from '../drawing/solid.ts'
import { extentOf, fromAbove, fromFront, onPage, turned, type View } from '../drawing/view.ts'
import { useWidth } from '../drawing/width.ts'
import type { JointState } from './list.ts'

/** Plates are outlines alone: joints lie under them. */
const isPlate = ({ kind }: { readonly kind: string }) => kind === 'plate'

export interface NumberedJoint {
  readonly id: string
  readonly number: number
  readonly state: JointState
}

type Side = 'above' | 'front' | 'corner'

const views: Readonly<Record<Side, { readonly view: View; readonly label: string }>> = {
  above: { view: fromAbove, label: 'From above' },
  front: { view: fromFront, label: 'From the front' },
  corner: { view: turned(28, 32), label: 'From a corner' },
}

const stateWords: readonly JointState[] = ['to go', 'on now', 'tacked', 'welded']

/** The frame to scale with every joint numbered, and the seam of the step at hand on it. */
export function JointDrawing(props: {
  readonly plan: Plan
  readonly joints: readonly NumberedJoint[]
  readonly seam: Seam | undefined
  /** Side from which the step at hand is seen best. */
  readonly best: Side
}) {
  const [asked, setAsked] = useState<Side | null>(null)
  const [box, width] = useWidth<HTMLDivElement>(640)
  const side = asked ?? props.best
  return (
    <figure className="joint-drawing">
      <div ref={box}>
        <Drawing {...props} view={views[side].view} width={width} label={views[side].label} />
      </div>
      <figcaption>
        <fieldset className="view-keys">
          <legend className="heard">Seen from</legend>
          {(Object.keys(views) as Side[]).map((one) => (
            <button key={one} type="button" aria-pressed={one === side} onClick={() => setAsked(one)}>
              {views[one].label}
            </button>
          ))}
        </fieldset>
        <ul className="joint-legend">
          {stateWords.map((state) => (
            <li key={state}>
              <svg width="34" height="34" viewBox="-17 -17 34 34" aria-hidden="true">
                <Balloon state={state} />
              </svg>
              {state}
            </li>
          ))}
        </ul>
      </figcaption>
    </figure>
  )
}

function Drawing({
  plan,
  joints,
  seam,
  view,
  width,
  label,
}: {
  plan: Plan
  joints: readonly NumberedJoint[]
  seam: Seam | undefined
  view: View
  width: number
  label: string
}) {
  const seen = useMemo(() => backToFront(solidsOf(plan.frame), view, isPlate), [plan, view])
  if (seen.length === 0) return null
  const height = Math.round(Math.min(440, Math.max(260, width * 0.62)))
  const whole = extentOf(
    seen.flatMap(({ extent }) => [
      [extent.left, extent.bottom] as const,
      [extent.right, extent.top] as const,
    ]),
  )
  const place = fitIn(whole, { x: 34, y: 34, width: width - 68, height: height - 68 })
  const at = new Map(plan.frame.joints.map((joint) => [joint.id, toScreen(place, onPage(view, joint.at))]))
  const spots = spread(joints.map((joint) => ({ joint, at: at.get(joint.id) ?? ([0, 0] as const) })))
  const line = seam && [seam.from, seam.to].map((end) => toScreen(place, onPage(view, end)))
  const now = joints.find((joint) => joint.state === 'on now')
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`${label}: the frame with ${joints.length} numbered joints${now ? `, joint ${now.number} on now` : ''}`}
    >
      <Shapes seen={seen} place={place} open={isPlate} />
      {line?.[0] && line[1] && (
        <path className="seam-now" d={`M${line[0][0]} ${line[0][1]}L${line[1][0]} ${line[1][1]}`} />
      )}
      {spots.map(({ joint, at: [x, y], from }) => (
        <g key={joint.id}>
          {from && <path className="leader" d={`M${from[0]} ${from[1]}L${x} ${y}`} />}
          <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`} className="joint">
            <Balloon state={joint.state} />
            <text textAnchor="middle" y="6" className={joint.state.replace(' ', '-')}>
              {joint.number}
            </text>
          </g>
        </g>
      ))}
    </svg>
  )
}

/** A shape of its own for each state: circle, square on its point, half-filled circle, filled circle. */
function Balloon({ state }: { state: JointState }) {
  if (state === 'on now') return <path className="balloon on-now" d="M0 -17L17 0L0 17L-17 0Z" />
  return (
    <>
      <circle r="14" className={`balloon ${state.replace(' ', '-')}`} />
      {state === 'tacked' && <path className="half" d="M-14 0A14 14 0 0 0 14 0Z" />}
    </>
  )
}

interface Spot {
  readonly joint: NumberedJoint
  readonly at: readonly [number, number]
  /** Where the joint is, when its number had to stand beside it. */
  readonly from?: readonly [number, number]
}

/** Numbers that would cover each other are moved aside, with a line back to their joint. */
export function spread(spots: readonly Spot[]): readonly Spot[] {
  const placed: Spot[] = []
  const free = ([x, y]: readonly [number, number]) =>
    placed.every(({ at }) => Math.hypot(at[0] - x, at[1] - y) >= 33)
  for (const spot of spots) {
    if (free(spot.at)) {
      placed.push(spot)
      continue
    }
    const around = [1, 2, 3].flatMap((ring) =>
      Array.from({ length: 8 }, (_, turn) => {
        const angle = (turn * Math.PI) / 4
        return [spot.at[0] + 36 * ring * Math.cos(angle), spot.at[1] + 36 * ring * Math.sin(angle)] as const
      }),
    )
    const at = around.find(free) ?? spot.at
    placed.push({ ...spot, at, from: spot.at })
  }
  return placed
}
