import type { Slope } from '../nest.ts'
import { sameAngle } from '../tolerance.ts'
import { type Deg, toDeg } from '../units.ts'

/**
 * How head and blade are set, degrees. Swing: the blade plane leaves the fence as x = −y·tan(swing); negative: its end
 * away from the fence leans toward the stop. Tilt: about the swung blade's own trace on the table; positive: the top of
 * the blade leans away from the stop.
 */
export interface Blade {
  readonly swing: Deg
  readonly tilt: Deg
}

/**
 * Blade and workpiece. Roll: the stick is turned right-hand about +x, so a positive one brings its top toward the fence.
 * Ramp, after it: right-hand about +y, so a positive one raises the end away from the stop.
 */
export interface Setting extends Blade {
  readonly roll: Deg
  readonly ramp: Deg
}

/** Head at square, piece flat: how every program begins. */
export const atRest: Setting = { swing: 0, tilt: 0, roll: 0, ramp: 0 }

/** An angle that floating point moved off a whole number of grains is put back, so that equal miters compare equal. */
const grains = Math.round(1 / sameAngle)
const settled = (angle: Deg): Deg => Math.round(angle * grains) / grains || 0
const degrees = (angle: number): Deg => settled(toDeg(angle))

/**
 * Setting for the trailing end x = p·y + q·z of the piece that lies between blade and stop. From the plane's normal
 * with n_x > 0, here (1, −p, −q) unscaled: swing = atan2(n_y, n_x), tilt = asin(n_z).
 */
export const settingOf = ({ p, q }: Slope): Blade => ({
  swing: degrees(Math.atan(-p)),
  tilt: degrees(Math.asin(-q / Math.hypot(1, p, q))),
})

/**
 * The same end from a cradle: with ρ = atan2(n_z, n_y) the stick turns by −ρ, or by 180° less when that is nearer to
 * lying flat, until n_z is gone; then one swing of acos(n_x).
 */
export const cradleOf = ({ p, q }: Slope): Setting => ({
  swing: degrees(Math.atan(-(p < 0 ? -1 : 1) * Math.hypot(p, q))),
  tilt: 0,
  roll: degrees(p === 0 ? (q > 0 ? -Math.PI : Math.PI) / 2 : -Math.atan(q / p)),
  ramp: 0,
})

/** The same end with one end of the piece raised on a wedge: ramp = atan(n_z/n_x), then swing = asin(n_y). */
export const rampOf = ({ p, q }: Slope): Setting => ({
  swing: degrees(Math.asin(-p / Math.hypot(1, p, q))),
  tilt: 0,
  roll: 0,
  ramp: degrees(Math.atan(-q)),
})

export const sameSetting = (one: Setting, two: Setting): boolean =>
  Math.abs(one.swing - two.swing) <= sameAngle &&
  Math.abs(one.tilt - two.tilt) <= sameAngle &&
  Math.abs(one.roll - two.roll) <= sameAngle &&
  Math.abs(one.ramp - two.ramp) <= sameAngle
