import { dot, type Vec3 } from '../geometry/vec3.ts'
import type { EndPlane } from '../nest.ts'
import { type Deg, type Mm, toRad } from '../units.ts'
import { reach, type Solid } from './solid.ts'

/** What is set at the saw, degrees: absolute, 0 at the start of every program. */
export interface Setting {
  readonly swing: Deg
  readonly tilt: Deg
  readonly roll: Deg
  readonly ramp: Deg
}

export const atRest: Setting = { swing: 0, tilt: 0, roll: 0, ramp: 0 }

/**
 * Normal of the blade plane in the saw's frame, toward the stop: swung by `swing` about z, then tilted about its own
 * trace on the table. On the table it is the line x = −y · tan(swing).
 */
function bladeNormal({ swing, tilt }: Setting): Vec3 {
  const [a, t] = [toRad(swing), toRad(tilt)]
  return [Math.cos(a) * Math.cos(t), Math.sin(a) * Math.cos(t), Math.sin(t)]
}

/** Rows of the rotation from the workpiece as it lies to the saw's frame: roll about +x, then ramp about +y. */
function rotation({ roll, ramp }: Setting): readonly [Vec3, Vec3, Vec3] {
  const [r, b] = [toRad(roll), toRad(ramp)]
  return [
    [Math.cos(b), Math.sin(b) * Math.sin(r), Math.sin(b) * Math.cos(r)],
    [0, Math.cos(r), -Math.sin(r)],
    [-Math.sin(b), Math.cos(b) * Math.sin(r), Math.cos(b) * Math.cos(r)],
  ]
}

/** Slopes of the blade plane in the workpiece's own lying frame. */
function bladeSlope(setting: Setting) {
  const rows = rotation(setting)
  const n = bladeNormal(setting)
  const own = [0, 1, 2].map((k) => n[0] * rows[0][k]! + n[1] * rows[1][k]! + n[2] * rows[2][k]!)
  return { scale: own[0]!, p: -own[1]! / own[0]!, q: -own[2]! / own[0]! }
}

/**
 * The plane that bounds the kept part, after the workpiece was pushed to a stop plate at `stop` along the fence: the
 * part's greatest x touches the plate, its section touches fence and table, the blade's keep side goes through zero.
 */
export function cutAt(solid: Solid, setting: Setting, stop: Mm): EndPlane {
  const [xRow, yRow, zRow] = rotation(setting)
  const { lead } = solid
  // x of the leading face in the saw's frame, over the section: slopes there take the rotation's share too.
  const greatest =
    xRow[0] * lead.x + reach(solid, { p: xRow[0] * lead.p + xRow[1], q: xRow[0] * lead.q + xRow[2] })
  const half = (row: Vec3) => reach(solid, { p: row[1], q: row[2] })
  const at: Vec3 = [stop - greatest, half(yRow), half(zRow)]
  const { scale, p, q } = bladeSlope(setting)
  return { x: -dot(bladeNormal(setting), at) / scale, p, q }
}

/** The clean-up cut: exactly `loss`, kerf included, goes on the edge of the leading end that loses least. */
export function trimAt(solid: Solid, setting: Setting, loss: Mm): EndPlane {
  const { p, q } = bladeSlope(setting)
  // The new plane touches the old one, in the corner where it stands farthest ahead, and is then set back.
  const apart = [-1, 1].flatMap((y) =>
    [-1, 1].map((z) => ((p - solid.lead.p) * y * solid.across) / 2 + ((q - solid.lead.q) * z * solid.up) / 2),
  )
  return { x: solid.lead.x - Math.max(...apart) - loss, p, q }
}

/** How far the other side of the kerf lies behind the cut along x. */
export const kerfBehind = (kerf: Mm, { p, q }: EndPlane): Mm => kerf * Math.hypot(1, p, q)
