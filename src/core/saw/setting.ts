import type { Slope } from '../nest.ts'
import { sameAngle } from '../tolerance.ts'
import { type Deg, toDeg, toRad } from '../units.ts'

/**
 * How head and blade are set, degrees. Swing: the blade plane leaves the fence as x = −y·tan(swing); negative: its end
 * away from the fence leans toward the stop. Tilt: about the swung blade's own trace on the table.
 */
export interface Setting {
  readonly swing: Deg
  readonly tilt: Deg
}

/** An angle that floating point moved off a whole number of grains is put back, so that equal miters compare equal. */
const grains = Math.round(1 / sameAngle)
const settled = (angle: Deg): Deg => Math.round(angle * grains) / grains || 0

/**
 * Setting for the trailing end x = p·y + q·z of the piece that lies between blade and stop. From the plane's normal
 * with n_x > 0, here (1, −p, −q) unscaled: swing = atan2(n_y, n_x), tilt = asin(n_z).
 */
export function settingOf({ p, q }: Slope): Setting {
  return {
    swing: settled(toDeg(Math.atan(-p))),
    tilt: settled(toDeg(Math.asin(-q / Math.hypot(1, p, q)))),
  }
}

/** Slopes that a setting cuts: the way back. */
export function slopeOf({ swing, tilt }: Setting): Slope {
  const p = -Math.tan(toRad(swing))
  const q = -Math.tan(toRad(tilt)) / Math.cos(toRad(swing))
  return { p: p || 0, q: q || 0 }
}
