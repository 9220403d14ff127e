import { axisX } from '../../core/geometry/pose.ts'
import { dot, scale } from '../../core/geometry/vec3.ts'
import type { Plan, WeldStep } from '../../core/plan-shapes.ts'
import { parseAngle } from '../../core/reading/parse.ts'
import { showAngle } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { toDeg } from '../../core/units.ts'
import { AngleField, MmField } from '../fields/length-field.tsx'

/** The angle between the two members of a joint as planned, degrees; undefined where fewer than two meet. */
export function plannedAngle({ frame }: Plan, joint: string | undefined): number | undefined {
  const at = frame.joints.find(({ id }) => id === joint)
  const ways = (at?.members ?? []).flatMap((id, k) => {
    const of = frame.members.find((one) => one.id === id)
    return of ? [scale(axisX(of.pose), at!.ends[k] === 'B' ? -1 : 1)] : []
  })
  if (ways.length !== 2) return undefined
  return toDeg(Math.acos(Math.max(-1, Math.min(1, dot(ways[0]!, ways[1]!)))))
}

/** Finer than a square tells, an angle is as planned. */
const told = 0.1

const sayOff = (off: number): string =>
  Math.abs(off) < told
    ? 'as planned.'
    : `${+Math.abs(off).toFixed(1)}° too ${off > 0 ? 'wide: close it' : 'narrow: open it'} before the next tack.`

/** What was measured at a check, kept with the copy: an angle at a joint, a length else. May be left out. */
export function CheckValue(props: {
  readonly step: WeldStep
  readonly plan: Plan
  readonly shop: Shop
  readonly measured: (of: string) => number | undefined
  readonly onGauge: (of: string, value: number | undefined) => void
}) {
  const { step, plan, shop, measured, onGauge } = props
  const angle = plannedAngle(plan, step.joint)
  if (angle !== undefined) {
    const of = `angle:${step.id}`
    const got = measured(of)
    return (
      <AngleField
        label="Angle measured"
        optional
        value={got}
        hint={`Planned ${showAngle(angle, shop.reading).text}${got === undefined ? '' : `: ${sayOff(got - angle)}`}`}
        onChange={(text) => {
          const typed = parseAngle(text)
          if (text.trim() === '') onGauge(of, undefined)
          else if (typed.ok) onGauge(of, typed.value)
        }}
      />
    )
  }
  const of = `length:${step.id}`
  return (
    <MmField
      label="Most that it is out, measured"
      optional
      value={measured(of)}
      reading={shop.reading}
      hint="Diagonals and heights in full: at Fit-up."
      onChange={(mm) => onGauge(of, mm)}
    />
  )
}
