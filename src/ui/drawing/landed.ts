import type { Frame } from '../../core/frame/frame.ts'
import { faceWorld, touchingOf } from '../../core/frame/landing.ts'
import { faceNormal } from '../../core/frame/member.ts'
import { outsideAt } from '../../core/frame/round-end.ts'
import { dot, type Vec3 } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Seen } from './shapes.ts'
import { onPage, type View } from './view.ts'
import { addSeen, type Body, type Line } from './visible.ts'

/** Where one member lands on another, in the world, mm. */
export interface Landed {
  readonly on: string
  readonly by: string
  readonly outline: readonly Vec3[]
  /** Outward from the face; of a saddle, which bends round the tube, none. */
  readonly normal?: Vec3
}

/** Points that stand for a saddle. */
const saddlePoints = 48

/** The outline of every landing of a frame on the face that it covers. */
export function landedIn(frame: Frame): readonly Landed[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const flat = [...touchingOf(frame).values()].map(
    ({ on, by, face, outline }): Landed => ({
      on: on.id,
      by: by.id,
      outline: outline.map((at) => faceWorld(on, face, at)),
      normal: faceNormal(on.pose, face),
    }),
  )
  const saddles = frame.joints.flatMap(({ kind, members: [first, second], ends: [end] }): Landed[] => {
    const by = members.get(first ?? '')
    if (kind !== 'saddle' || !by || second === undefined || (end !== 'A' && end !== 'B')) return []
    const outline = Array.from({ length: saddlePoints }, (_, k) =>
      outsideAt(by, end, (2 * Math.PI * k) / saddlePoints),
    )
    return [{ on: second, by: by.id, outline }]
  })
  return [...flat, ...saddles]
}

export interface LandedLines {
  readonly on: string
  readonly lines: readonly Line[]
}

/** What of each landing would be seen if the part that lands there were away: drawn dashed, as a hidden edge. */
export function landedLines(landed: readonly Landed[], seen: readonly Seen[], view: View): LandedLines[] {
  const byId = new Map(seen.map((one) => [one.id, one]))
  return landed.flatMap(({ on, by, outline, normal }): LandedLines[] => {
    const under = byId.get(on)
    if (!under || (normal && dot(normal, view.toward) <= samePoint)) return []
    const before = under.before.filter(({ solid }) => solid.id !== by)
    const bodies: readonly Body[] = normal ? before : [...before, under.body]
    const places = outline.map((point) => onPage(view, point))
    const depths = outline.map((point) => dot(point, view.toward))
    const lines: Line[] = []
    for (let at = 0; at < places.length; at += 1) {
      const next = (at + 1) % places.length
      addSeen(lines, places[at]!, depths[at]!, places[next]!, depths[next]!, bodies)
    }
    return lines.length === 0 ? [] : [{ on, lines }]
  })
}
