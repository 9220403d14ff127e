import type { DrawnAt, Frame, Measure, Member, Plate, Warning } from '../frame/frame.ts'
import { edgesOf, endCorners } from '../frame/member.ts'
import { roundReach } from '../frame/reach.ts'
import { toWorld } from '../geometry/pose.ts'
import { scale, type Vec3 } from '../geometry/vec3.ts'
import { primaryLength } from '../parts/parts.ts'
import { badAll, good, type Problem, type Result } from '../result.ts'
import { isRound } from '../section/section.ts'
import { samePoint } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** A measure before its offset is known: what the exact lengths leave over is the offset. */
export interface MeasureDraft {
  readonly name: string
  readonly mm: Mm
  readonly asked: boolean
  /** Parameter that asks for it, where it grows with that mm for mm. */
  readonly param?: string
  readonly drawn?: DrawnAt
  readonly terms: readonly { readonly member: string; readonly factor: number }[]
}

/** A size that lies aboutMiddle about the middle of the frame. */
export const aboutMiddle = (axis: 'x' | 'y', mm: Mm, field: string): DrawnAt => ({
  axis,
  from: -mm / 2,
  field,
})

/** A height over the floor, or over another level. */
export const upward = (field: string, from: Mm = 0): DrawnAt => ({ axis: 'z', from, field })

export interface FrameDraft extends Omit<Frame, 'size' | 'floor' | 'measures' | 'warnings'> {
  readonly measures: readonly MeasureDraft[]
  readonly warnings?: readonly Warning[]
  /** World z of the floor where the steel does not reach down to it (leveling feet); absent: the lowest steel. */
  readonly floor?: Mm
  /** Parameter to name when a member is left with no steel on its short side. */
  readonly tooShort: (member: Member, shortPoint: Mm) => Problem
}

function plateCorners(plate: Plate): Vec3[] {
  return [0, plate.thickness].flatMap((z) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z])))
}

const axes: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

/** Checks that every member has steel on all its edges, and adds what follows from the members: size, floor, offsets. */
export function assemble(draft: FrameDraft): Result<Frame> {
  const { tooShort, ...frame } = draft
  const problems = new Map<string, Problem>()
  for (const member of frame.members) {
    const shortPoint = Math.min(...edgesOf(member).lengths)
    if (shortPoint > samePoint) continue
    const problem = tooShort(member, shortPoint)
    problems.set(problem.text, problem)
  }
  if (problems.size > 0) return badAll([...problems.values()])
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY]
  const take = (corner: Vec3) => {
    for (let axis = 0; axis < 3; axis += 1) {
      const at = corner[axis]!
      if (at < low[axis]!) low[axis] = at
      if (at > high[axis]!) high[axis] = at
    }
  }
  for (const member of frame.members) {
    if (isRound(member.section)) continue
    for (const corner of endCorners(member, 'A')) take(corner)
    for (const corner of endCorners(member, 'B')) take(corner)
  }
  for (const plate of frame.plates) for (const corner of plateCorners(plate)) take(corner)
  for (const member of frame.members) {
    if (!isRound(member.section)) continue
    for (const [axis, direction] of axes.entries())
      for (const end of ['A', 'B'] as const) {
        low[axis] = Math.min(low[axis]!, -roundReach(member, end, scale(direction, -1)))
        high[axis] = Math.max(high[axis]!, roundReach(member, end, direction))
      }
  }
  // 0 − 0 is 0, and no minus zero.
  const floor = frame.floor ?? 0 + low[2]!
  const byId = new Map(frame.members.map((member) => [member.id, member]))
  const lengthOf = (id: string): Mm => {
    const member = byId.get(id)
    return member ? primaryLength(member) : 0
  }
  const measures: Measure[] = frame.measures.map((measure) => ({
    ...measure,
    offset: measure.terms.reduce((left, { member, factor }) => left - factor * lengthOf(member), measure.mm),
  }))
  return good({
    ...frame,
    measures,
    warnings: frame.warnings ?? [],
    size: [high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - floor],
    floor,
  })
}
