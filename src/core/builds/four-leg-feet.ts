import { cap } from '../frame/cap.ts'
import { flat } from '../frame/flat.ts'
import type { Hardware, Joint, Member, Plate, Warning } from '../frame/frame.ts'
import { faceAway, faceNormal, faces } from '../frame/member.ts'
import type { Polygon } from '../geometry/polygon.ts'
import { axisX, axisY, axisZ, dirToWorld, origin } from '../geometry/pose.ts'
import { add, dot, norm, scale, sub } from '../geometry/vec3.ts'
import { tapOf } from '../thread.ts'
import { samePoint } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { type Footing, levelerText, levelerWarnings } from './leveler.ts'

// The lower ends of the legs: flat to the floor, with or without a cap, with or without a leveler under it.

export interface Feet {
  readonly legs: readonly Member[]
  readonly plates: readonly Plate[]
  readonly joints: readonly Joint[]
  readonly hardware: readonly Hardware[]
  readonly warnings: readonly Warning[]
}

/** Legs cut and capped at end A; the finished foot ends at the leveler's setting above the floor. */
export function feetOf(
  values: Values,
  context: BuildContext,
  laid: readonly Member[],
  footing: Footing,
): Feet {
  const { setting, capThickness, thread, drill } = footing
  const legs: Member[] = []
  const plates: Plate[] = []
  const joints: Joint[] = []
  const hardware: Hardware[] = []
  for (const [at, leg] of laid.entries()) {
    const finished = flat(leg, 'A', setting, thread ? 'open' : 'floor')
    let middle = origin(leg.pose)
    if (capThickness > 0) {
      const made = cap(`legs/cap-${at + 1}`, finished, 'A', capThickness, {
        name: `Foot cap ${at + 1}`,
        holes: drill > 0 ? [[0, 0, drill]] : [],
        ...(thread ? { thread } : {}),
      })
      legs.push(made.member)
      plates.push(at === 0 ? made.plate : likeFirst(made.plate, plates[0]!.polygon))
      joints.push(made.joint)
      middle = made.joint.at
    } else legs.push(finished)
    if (thread)
      hardware.push({
        id: `legs/leveler-${at + 1}`,
        kind: 'leveler',
        count: 1,
        at: [middle[0], middle[1], setting],
        text: levelerText(values, context, thread),
      })
  }
  const first = legs[0]!
  const warnings = levelerWarnings(values, context, footing, {
    height: thread ? studRoom(first, tapOf(thread).major / 2) : 0,
    width: capWidth(first),
    members: [first.id],
  })
  return { legs, plates, joints, hardware, warnings }
}

/**
 * The caps of mirrored legs are one plate turned over: described from its other side where that makes its outline
 * the first one's, so that all four carry one mark.
 */
function likeFirst(plate: Plate, first: Polygon): Plate {
  const over = plate.polygon.map(([x, y]) => [x, -y] as const)
  const same = (polygon: Polygon) =>
    polygon.every(([x, y]) => first.some(([u, v]) => Math.hypot(x - u, y - v) < samePoint))
  if (same(plate.polygon)) return { ...plate, polygon: first }
  if (!same(over)) return plate
  const { pose } = plate
  const [x, y, z] = [axisX(pose), scale(axisY(pose), -1), scale(axisZ(pose), -1)]
  const at = add(origin(pose), scale(axisZ(pose), plate.thickness))
  return { ...plate, polygon: first, pose: [...x, 0, ...y, 0, ...z, 0, ...at, 1] }
}

/** How far an upright stud of this radius, from the middle of the cap, reaches up before it meets the leaning wall. */
function studRoom(leg: Member, radius: Mm): Mm {
  const rooms = faces.flatMap((face) => {
    const rise = faceNormal(leg.pose, face)[2]
    const clear = faceAway(leg.section, face) - leg.section.wall - radius
    return rise > samePoint ? [Math.max(0, clear) / rise] : []
  })
  const height = norm(sub(dirToWorld(leg.pose, leg.ends[1].point), dirToWorld(leg.pose, leg.ends[0].point)))
  return Math.min(height * axisX(leg.pose)[2], ...rooms)
}

/** The lesser width of the leg's level outline. */
function capWidth(leg: Member): Mm {
  const rises = [axisY(leg.pose), axisZ(leg.pose)].map((across) => Math.sqrt(1 - dot(across, [0, 0, 1]) ** 2))
  return Math.min(leg.section.width / rises[0]!, leg.section.height / rises[1]!)
}
