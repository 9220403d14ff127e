import type { Member } from '../frame/frame.ts'
import { faceNormal } from '../frame/member.ts'
import { axisX } from '../geometry/pose.ts'
import type { Landing, Part, Plan } from '../plan-shapes.ts'

/**
 * A face in words that can be found on the steel as it stands in the frame: upper face and underside; of an upright
 * member the side that it turns to, front being where side 1 is; else left and right, seen from end A.
 */
export function faceWords(of: Member, face: Landing['face']): string {
  const [x, y, z] = faceNormal(of.pose, face)
  if (Math.abs(z) > Math.SQRT1_2) return z > 0 ? 'upper face' : 'underside'
  if (Math.abs(axisX(of.pose)[2]) > Math.SQRT1_2) {
    if (Math.abs(y) >= Math.abs(x)) return y < 0 ? 'front side' : 'back side'
    return x < 0 ? 'left side' : 'right side'
  }
  return face === '+y' || face === '+z' ? 'left side, seen from end A' : 'right side, seen from end A'
}

/** Faces in the order in which a right-hand turn about the axis meets them, from +y. */
const inTurn: readonly Landing['face'][] = ['+y', '+z', '-y', '-z']

/** On a round member, which has no faces: the nearest side, and how many degrees beside it toward the next one. */
function sideWords(of: Member, { face, around }: Landing): string {
  const at = inTurn.indexOf(face)
  const off = around === undefined ? 0 : ((around - at * 90 + 540) % 360) - 180
  const degrees = Math.round(Math.abs(off) * 10) / 10
  if (degrees === 0) return faceWords(of, face)
  const next = inTurn[(at + (off > 0 ? 1 : 3)) % 4]!
  return `${faceWords(of, face)}, ${degrees}° round toward ${faceWords(of, next)}`
}

export interface LandingLine {
  readonly key: string
  readonly on: string
  readonly by: string
  readonly landing: Landing
  /** Its face in words. */
  readonly face: string
  readonly times: number
}

const nameOf = (plan: Plan, id: string): string =>
  plan.frame.members.find((member) => member.id === id)?.name ??
  plan.frame.plates.find((plate) => plate.id === id)?.name ??
  id

/** Landings that read the same on parts of one mark are one line, with how often. */
export function landingLines(plan: Plan): readonly LandingLine[] {
  const markOf = new Map<string, Part>(
    plan.parts.flatMap((part) => part.members.map((id) => [id, part] as const)),
  )
  const members = new Map(plan.frame.members.map((member) => [member.id, member]))
  const lines = new Map<string, LandingLine>()
  for (const landing of plan.landings) {
    const on = markOf.get(landing.on)
    const by = markOf.get(landing.by)
    const onText = on ? `${on.mark}, ${nameOf(plan, landing.on)}` : nameOf(plan, landing.on)
    const byText = by ? `${by.mark}, ${nameOf(plan, landing.by)}` : nameOf(plan, landing.by)
    const { near, far } = landing.printed
    const receiver = members.get(landing.on)
    const face = receiver ? sideWords(receiver, landing) : landing.face
    const same = [landing.on, by?.mark ?? landing.by, face, landing.from, near.text, far.text].join(' ')
    const before = lines.get(same)
    lines.set(same, { key: same, on: onText, by: byText, landing, face, times: (before?.times ?? 0) + 1 })
  }
  return [...lines.values()]
}
