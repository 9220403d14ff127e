import type { Frame, Joint, Member } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import { endPlane, type Face, faceNormal, faceToward } from '../frame/member.ts'
import { plateFootprints } from '../frame/plate-landing.ts'
import { axisX, dirToWorld, toLocal, toWorld } from '../geometry/pose.ts'
import type { Part, Plan } from '../plan-shapes.ts'
import { isRound } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { faceWords } from './landing-lines.ts'
import {
  type FaceMark,
  type FaceView,
  faceView,
  firstFace,
  footprintMark,
  inTurn,
  saddleMark,
} from './part-faces.ts'
import { type Place, placeKey } from './part-places.ts'

/** A face with its number on the drawing, 1 to 4, and where it is found in the frame. */
export interface NumberedFace extends FaceView {
  readonly number: number
  readonly words: string
  /** It looks down in the finished frame. */
  readonly down: boolean
}

/** What one end meets: marks of members and plates; none where it is open or stands on the floor. */
export interface EndMeets {
  readonly marks: readonly string[]
  readonly floor: boolean
  readonly saddle: boolean
}

/**
 * A part as it is made: the piece unrolled, drawn as the first of `names` stands in the frame. Members of one mark that are
 * marked out alike share a drawing; a mark has as many as it has ways of being marked out.
 */
export interface PartDrawing {
  readonly part: Part
  /** 1, 2 … among the drawings of the mark, and how many those are. */
  readonly number: number
  readonly of: number
  /** Pieces of this way in one copy. */
  readonly count: number
  readonly names: readonly string[]
  readonly faces: readonly NumberedFace[]
  readonly ends: readonly [EndMeets, EndMeets]
  /** How it stands in the frame: the face that is down, or the end. */
  readonly down: number | 'end A' | 'end B'
  /** Numbers of the faces on which both ends show their angle, and of those on which they show none; empty where an end leans both ways. */
  readonly leaning: readonly number[]
  /** Mark of a member or plate that lands on it. */
  readonly markOf: (id: string) => string
}

/** Marks of members and plates by their ids. */
function marksById({ parts, plates }: Plan): ReadonlyMap<string, string> {
  return new Map([
    ...parts.flatMap(({ mark, members }) => members.map((id) => [id, mark] as const)),
    ...plates.map(({ id, mark }) => [id, mark] as const),
  ])
}

/** What lands on each member, by face. */
function landedOn(frame: Frame): ReadonlyMap<string, readonly (readonly [Face, FaceMark])[]> {
  const byId = new Map(frame.members.map((each) => [each.id, each]))
  const found = new Map<string, (readonly [Face, FaceMark])[]>()
  const add = (on: string, face: Face, mark: FaceMark | undefined) => {
    if (mark) found.set(on, [...(found.get(on) ?? []), [face, mark]])
  }
  for (const footprint of touchingOf(frame).values())
    add(footprint.on.id, footprint.face, footprintMark(footprint))
  for (const footprint of plateFootprints(frame))
    add(footprint.on.id, footprint.face, footprintMark(footprint))
  for (const joint of frame.joints) {
    const [by, on] = joint.members.map((id) => byId.get(id))
    if (joint.kind !== 'saddle' || !by || !on) continue
    const face = saddleFace(joint, on)
    add(on.id, face, saddleMark(joint, by, on, face))
  }
  return found
}

/** The side of the box round a tube that is nearest to what sits on it. */
function saddleFace(joint: Joint, on: Member): Face {
  const [, y, z] = toLocal(on.pose, joint.at)
  return faceToward(on, dirToWorld(on.pose, [0, y, z]))
}

/** Every way in which the pieces of a plan are made and marked out, by mark. */
export function partDrawings(plan: Plan, mark?: string): readonly PartDrawing[] {
  const { frame } = plan
  const landed = landedOn(frame)
  const markOf = marksById(plan)
  const byId = new Map(frame.members.map((each) => [each.id, each]))
  return plan.parts
    .filter((part) => mark === undefined || part.mark === mark)
    .flatMap((part) => {
      const alike = new Map<string, Member[]>()
      for (const id of part.members) {
        const of = byId.get(id)
        if (!of) continue
        const places = (landed.get(id) ?? []).map(
          ([face, each]): Place => ({ face, mark: markOf.get(each.by) ?? '', outline: each.outline }),
        )
        const key = placeKey(of, places)
        alike.set(key, [...(alike.get(key) ?? []), of])
      }
      return [...alike.values()].map(
        (members, at): PartDrawing => ({
          part,
          number: at + 1,
          of: alike.size,
          count: members.length,
          names: namesOf(members, frame, alike.size > 1),
          markOf: (id) => markOf.get(id) ?? '',
          ...drawn(members[0]!, landed.get(members[0]!.id) ?? [], plan, markOf),
        }),
      )
    })
}

/** Names as they are found in the frame; where several are called alike and made differently, with the place of each. */
function namesOf(members: readonly Member[], frame: Frame, told: boolean): readonly string[] {
  const names = members.map((of) => {
    const called = frame.members.filter(({ name }) => name === of.name).length
    const at = called > 1 && told ? placeIn(of, frame) : ''
    return at === '' ? of.name : `${of.name} ${at}`
  })
  return [...new Set(names)]
}

/** Nearer to the middle of the frame than this is neither side of it, mm. */
const middling = 1

/** `front left`: on which sides of the middle of the frame a member stands, seen from where side 1 is. */
function placeIn(of: Member, { members }: Frame): string {
  const middle = ({ pose, ends: [a, b] }: Member) => toWorld(pose, [(a.point[0] + b.point[0]) / 2, 0, 0])
  const all = members.map(middle)
  const [x, y] = ([0, 1] as const).map((axis) => {
    const values = all.map((at) => at[axis])
    return middle(of)[axis] - (Math.min(...values) + Math.max(...values)) / 2
  })
  return [
    ...(Math.abs(y!) < middling ? [] : [y! < 0 ? 'front' : 'back']),
    ...(Math.abs(x!) < middling ? [] : [x! < 0 ? 'left' : 'right']),
  ].join(' ')
}

function drawn(
  of: Member,
  landed: readonly (readonly [Face, FaceMark])[],
  plan: Plan,
  markOf: ReadonlyMap<string, string>,
): Pick<PartDrawing, 'faces' | 'ends' | 'down' | 'leaning'> {
  const first = inTurn.indexOf(firstFace(of))
  const alongZ = axisX(of.pose)[2]
  const upright = Math.abs(alongZ) > Math.SQRT1_2
  const faces = inTurn.map((_, k): NumberedFace => {
    const face = inTurn[(first + k) % 4]!
    const marks = landed.filter(([on]) => on === face).map(([, each]) => each)
    return {
      ...faceView(of, face, marks),
      number: k + 1,
      words: faceWords(of, face),
      down: !upright && faceNormal(of.pose, face)[2] < -Math.SQRT1_2,
    }
  })
  const meets = (end: 'A' | 'B'): EndMeets => {
    const ids = plan.frame.joints.flatMap(({ members, ends }) => {
      const at = members.indexOf(of.id)
      return at >= 0 && ends[at] === end ? members.filter((id) => id !== of.id) : []
    })
    const cut = of.ends[end === 'A' ? 0 : 1]
    const mate = of.mates[end === 'A' ? 0 : 1]
    const marks = [...ids, mate].flatMap((id) => markOf.get(id) ?? [])
    return { marks: [...new Set(marks)], floor: mate === 'floor', saddle: cut.saddle !== undefined }
  }
  return {
    faces,
    ends: [meets('A'), meets('B')],
    down: upright ? (alongZ > 0 ? 'end A' : 'end B') : (faces.find(({ down }) => down)?.number ?? 3),
    leaning: leaningOn(of, faces),
  }
}

/** The two faces that show the angles of a piece whose ends lean in one plane, as they lie on the saw's table. */
function leaningOn(of: Member, faces: readonly NumberedFace[]): readonly number[] {
  if (isRound(of.section)) return []
  const planes = of.ends.map(endPlane)
  const [p, q] = [
    planes.some((end) => Math.abs(end.p) > sameSlope),
    planes.some((end) => Math.abs(end.q) > sameSlope),
  ]
  if (p === q) return []
  return faces.filter(({ face }) => (face[1] === 'z') === p).map(({ number }) => number)
}
