import type { Joint, Member } from '../frame/frame.ts'
import type { Footprint } from '../frame/landing.ts'
import { type End, endIndex, endPlane, type Face, faceAway, faceNormal, xAt } from '../frame/member.ts'
import type { PlateFootprint } from '../frame/plate-landing.ts'
import { endX, outermost, outsideAt, rimAt } from '../frame/round-end.ts'
import type { Point, Polygon } from '../geometry/polygon.ts'
import { axisX, toLocal } from '../geometry/pose.ts'
import { isRound } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, toDeg } from '../units.ts'

// A piece unrolled: its long faces one under another, end A at the left, as it is rolled away from the eye. All x run from
// the outermost steel at end A, all v upward from the middle of the face.

/** What lands on a face: a member, a plate, or a saddle. */
export interface FaceMark {
  /** Id of the member or plate that covers it. */
  readonly by: string
  readonly outline: Polygon
  readonly near: Mm
  readonly far: Mm
}

/** A long edge between two faces: where it begins and ends. Of round steel, the line that is seen as the rim there. */
export interface EdgeLine {
  readonly from: Mm
  readonly to: Mm
}

export interface FaceView {
  readonly face: Face
  /** Size across the face. */
  readonly across: Mm
  /** What is seen of the steel, counterclockwise. */
  readonly outline: Polygon
  readonly upper: EdgeLine
  readonly lower: EdgeLine
  /** From square on this face, end A and end B: over 0 where the upper edge is the longer one at that end. */
  readonly angles: readonly [Deg, Deg]
  readonly marks: readonly FaceMark[]
}

/** Faces in the order in which they come up as the piece is rolled away from the eye, from +z. */
export const inTurn: readonly Face[] = ['+z', '-y', '-z', '+y']

/** The face that looks up in the frame; of an upright member the one that looks to the front. */
export function firstFace(of: Member): Face {
  const upright = Math.abs(axisX(of.pose)[2]) > Math.SQRT1_2
  const toward = (face: Face) => {
    const [, y, z] = faceNormal(of.pose, face)
    return upright ? -y : z
  }
  return inTurn.reduce((best, face) => (toward(face) > toward(best) + sameSlope ? face : best))
}

/** Upward on the page, in the local frame, when this face looks at the eye and end A is at the left. */
const upOf: Readonly<Record<Face, readonly [0 | 1, 1 | -1]>> = {
  '+z': [0, 1],
  '-y': [1, 1],
  '-z': [0, -1],
  '+y': [1, -1],
}

/** A place of the section, y and z, on a face: (up the page, toward the eye). */
function laid(face: Face, [y, z]: readonly [Mm, Mm]): readonly [Mm, Mm] {
  const [axis, sign] = upOf[face]
  const out = face[0] === '+' ? 1 : -1
  return axis === 0 ? [sign * y, out * z] : [sign * z, out * y]
}

/** The place of the section that lies so far up the page on this face. */
function place(face: Face, up: Mm, toward: Mm): readonly [Mm, Mm] {
  const [axis, sign] = upOf[face]
  const out = face[0] === '+' ? 1 : -1
  return axis === 0 ? [sign * up, out * toward] : [out * toward, sign * up]
}

const acrossOf = ({ section }: Member, face: Face): Mm => (face[1] === 'y' ? section.height : section.width)

/** Points that stand for the half of a round end that is seen. */
const seenPoints = 48

/** The end as it is seen on a face, from the upper rim to the lower one. */
function endOn(of: Member, end: End, face: Face, start: Mm): readonly Point[] {
  const half = acrossOf(of, face) / 2
  const cut = of.ends[endIndex(end)]
  if (!isRound(of.section)) {
    const plane = endPlane(cut)
    const out = faceAway(of.section, face)
    return [half, -half].map((up): Point => [xAt(plane, ...place(face, up, out)) - start, up])
  }
  return Array.from({ length: seenPoints + 1 }, (_, k): Point => {
    const [up, toward] = rimAt(half, Math.PI / 2 - (k * Math.PI) / seenPoints)
    return [endX(cut, end, ...place(face, up, toward)) - start, up]
  })
}

/** The face of a member, with what lands on it. */
export function faceView(of: Member, face: Face, marks: readonly FaceMark[]): FaceView {
  const start = outermost(of, 'A')
  const [a, b] = [endOn(of, 'A', face, start), endOn(of, 'B', face, start)]
  const across = acrossOf(of, face)
  const leans = (line: readonly Point[]) => toDeg(Math.atan2(line[0]![0] - line.at(-1)![0], across))
  return {
    face,
    across,
    outline: [...a, ...[...b].reverse()],
    upper: { from: a[0]![0], to: b[0]![0] },
    lower: { from: a.at(-1)![0], to: b.at(-1)![0] },
    angles: [-leans(a), leans(b)],
    marks,
  }
}

function marked(by: string, outline: Polygon): FaceMark {
  const xs = outline.map(([x]) => x)
  return { by, outline, near: Math.min(...xs), far: Math.max(...xs) }
}

/** A footprint, whose v runs along local y or z, as it lies on the unrolled face. */
export function footprintMark({ on, by, face, outline }: Footprint | PlateFootprint): FaceMark {
  const start = outermost(on, 'A')
  const sign = upOf[face][1]
  return marked(
    by.id,
    outline.map(([x, v]): Point => [x - start, sign * v]),
  )
}

/** Where a saddle sits on this round member, seen on the face nearest to it. */
export function saddleMark(joint: Joint, by: Member, on: Member, face: Face): FaceMark | undefined {
  const end = joint.ends[0]
  if (end !== 'A' && end !== 'B') return undefined
  const start = outermost(on, 'A')
  const points = Array.from({ length: 2 * seenPoints }, (_, k): Point | undefined => {
    const [x, y, z] = toLocal(on.pose, outsideAt(by, end, (k * Math.PI) / seenPoints))
    const [up, toward] = laid(face, [y, z])
    return toward < 0 ? undefined : [x - start, up]
  }).filter((point) => point !== undefined)
  return points.length < 3 ? undefined : marked(by.id, points)
}
