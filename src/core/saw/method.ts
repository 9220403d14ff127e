import type { Slope } from '../nest.ts'
import type { Saw } from '../shop.ts'
import { sameAngle, sameSlope, typedAngle } from '../tolerance.ts'
import type { Deg } from '../units.ts'
import { isPlain } from './lying.ts'
import { cradleOf, rampOf, type Setting, settingOf } from './setting.ts'

/** How a saw makes an end: in the order in which it is preferred. */
export type Method = 'swing' | 'bevel' | 'cradle' | 'ramp'

export interface Making {
  readonly method: Method
  readonly setting: Setting
}

const order: readonly Method[] = ['swing', 'bevel', 'cradle', 'ramp']

/** 0 for the best: nothing but the swing. */
export const costOf = (method: Method): number => order.indexOf(method)

/** Steeper than this a piece stands on its end rather than lies on a wedge, and no vise holds it. Common practice. */
const steepestRamp: Deg = 45

/**
 * Every way in which this saw can make the trailing end of a piece as it lies; none where another face must lie down
 * first, or where the saw has no way. A round tube is turned about its axis by any angle, which needs no block.
 */
export function makings(end: Slope, saw: Saw, round: boolean): readonly Making[] {
  const upright = { roll: 0, ramp: 0 }
  if (isPlain(end))
    return [{ method: 'swing', setting: { swing: settingOf(end).swing, tilt: 0, ...upright } }]
  if (round) return [{ method: 'cradle', setting: cradleOf(end) }]
  if (!isCompound(end)) return []
  const bevel: Making = { method: 'bevel', setting: { ...settingOf(end), ...upright } }
  const cradle: Making = { method: 'cradle', setting: cradleOf(end) }
  const ramp: Making = { method: 'ramp', setting: rampOf(end) }
  return [
    ...(Math.abs(bevel.setting.tilt) <= saw.limits.bevel + sameAngle ? [bevel] : []),
    ...(saw.cradle === false ? [] : [cradle]),
    ...(saw.ramp !== false && Math.abs(ramp.setting.ramp) <= steepestRamp ? [ramp] : []),
  ]
}

/** An end that is no plain miter on any face. */
export const isCompound = ({ p, q }: Slope): boolean => Math.abs(p) > sameSlope && Math.abs(q) > sameSlope

/** How many of the angles that are set stand on no half degree: of two lays, one shows the splay that was typed. */
export function oddAngles({ swing, tilt, roll, ramp }: Setting): number {
  const halves = [swing, tilt, roll, ramp].map((angle) => Math.abs(angle) * 2)
  return halves.filter((half) => Math.abs(half - Math.round(half)) > typedAngle).length
}
