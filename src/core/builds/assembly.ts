import type { DrawnAt, Frame, Measure, Member, Plate, Warning } from '../frame/frame.ts'
import { edgesOf, endCorners } from '../frame/member.ts'
import { roundReach } from '../frame/reach.ts'
import { toWorld } from '../geometry/pose.ts'
import { dot, type Vec3 } from '../geometry/vec3.ts'
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
  const round = frame.members.filter(({ section }) => isRound(section))
  const corners = [
    ...frame.members
      .filter(({ section }) => !isRound(section))
      .flatMap((member) => [...endCorners(member, 'A'), ...endCorners(member, 'B')]),
    ...frame.plates.flatMap(plateCorners),
  ]
  const reach = (direction: Vec3): Mm => {
    let most = Number.NEGATIVE_INFINITY
    for (const corner of corners) most = Math.max(most, dot(corner, direction))
    for (const member of round)
      most = Math.max(most, roundReach(member, 'A', direction), roundReach(member, 'B', direction))
    return most
  }
  // 0 − 0 is 0, and no minus zero.
  const floor = frame.floor ?? 0 - reach([0, 0, -1])
  const lengths = new Map(frame.members.map((member) => [member.id, primaryLength(member)]))
  const measures: Measure[] = frame.measures.map((measure) => ({
    ...measure,
    offset: measure.terms.reduce(
      (left, { member, factor }) => left - factor * (lengths.get(member) ?? 0),
      measure.mm,
    ),
  }))
  return good({
    ...frame,
    measures,
    warnings: frame.warnings ?? [],
    size: [
      reach([1, 0, 0]) + reach([-1, 0, 0]),
      reach([0, 1, 0]) + reach([0, -1, 0]),
      reach([0, 0, 1]) - floor,
    ],
    floor,
  })
}
