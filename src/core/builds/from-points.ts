import type { Frame, Member } from '../frame/frame.ts'
import { endIndex, member } from '../frame/member.ts'
import { endReach } from '../frame/reach.ts'
import { add, cross, dot, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import { badAll, type Problem, type Result } from '../result.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm, sinDeg } from '../units.ts'
import { assemble } from './assembly.ts'
import type { Build, BuildContext } from './build.ts'
import { clashWarnings, pastEndWarnings } from './from-points-clash.ts'
import { type Corner, cornersOf, type Settled, settle, standoffs } from './from-points-corners.ts'
import { type Cutting, cutCorner, isSaddled } from './from-points-cuts.ts'
import { fromPointsParams } from './from-points-params.ts'
import { fieldOf, type Sketch, type SketchMember, sketchOf } from './from-points-sketch.ts'

/** Named points, members whose axes go from point to point, and how they meet: any frame that can be drawn. */
export const fromPoints: Build = {
  kind: 'from-points',
  title: 'Frame from points',
  about: 'Named points, members between them, and a joint for each point: any frame, drawn as it is typed.',
  picture: 'M9 42 16 9h16l7 33h-5l-6-28h-8l-6 28zM14 29h20v5H14z',
  params: fromPointsParams,
  frame(values, context) {
    const sketch = sketchOf(values, context.say)
    return sketch.ok ? frameOf(sketch.value, context) : sketch
  },
}

/** Upright on the page of the section: the world's up, and for an upright axis the world's back; turned by `roll`. */
function upOf(axis: Vec3, roll: Deg): Vec3 {
  const upright = Math.hypot(axis[0], axis[1]) < sameSlope
  const up: Vec3 = upright ? [0, 1, 0] : [0, 0, 1]
  const level = unit(sub(up, scale(axis, dot(up, axis))))
  return add(scale(level, cosDeg(roll)), scale(cross(axis, level), sinDeg(roll)))
}

/** A name of figures alone would leave a part without one: `2` is said `Member 2`. */
const called = (name: string): string => (/^\d+$/.test(name) ? `Member ${name}` : name)

function square(of: SketchMember, { points }: Sketch, gap: Mm): Member {
  const [from, to] = [points[of.from]!.at, points[of.to]!.at]
  const up = upOf(unit(sub(to, from)), of.roll)
  return member(`frame/${of.slug}`, called(of.name), of.section, from, to, up, gap)
}

function frameOf(sketch: Sketch, { gap, say }: BuildContext): Result<Frame> {
  const problems: Problem[] = []
  const settled: [Corner, Settled][] = []
  for (const corner of cornersOf(sketch)) {
    const how = settle(corner, sketch)
    if (how.ok) settled.push([corner, how.value])
    else problems.push(...how.problems)
  }
  problems.push(...standoffs(settled, sketch))
  const members = sketch.members.map((each) => square(each, sketch, gap))
  const cutting: Cutting = { members, joints: [], warnings: [], gap, say }
  const last = settled.filter(([, how]) => isSaddled(how, cutting))
  for (const [corner, how] of [...settled.filter((each) => !last.includes(each)), ...last]) {
    const cut = cutCorner(corner, how, sketch, cutting)
    if (!cut.ok) problems.push(...cut.problems)
  }
  const { joints } = cutting
  if (problems.length > 0) return badAll(problems)
  const standing = onFloor(members, settled)
  const rowOf = new Map(sketch.members.map(({ slug, row }) => [`frame/${slug}`, row]))
  return assemble({
    members: standing,
    plates: [],
    joints,
    hardware: [],
    assemblies: [],
    measures: sketch.members.map((each, at) => ({
      name: `${standing[at]!.name}, ${sketch.points[each.from]!.name} to ${sketch.points[each.to]!.name}`,
      mm: norm(sub(sketch.points[each.to]!.at, sketch.points[each.from]!.at)),
      asked: false,
      terms: [{ member: standing[at]!.id, factor: 1 }],
    })),
    warnings: [
      ...cutting.warnings,
      ...pastEndWarnings(standing, joints, say),
      ...clashWarnings(standing, joints, say),
    ],
    tooShort: (of, shortPoint) => ({
      code: 'too-short',
      text:
        `${of.name} is left with no steel on its short side: ${say(Math.abs(shortPoint))} are missing there. ` +
        'Its points must lie farther apart, or its joints be cut less slanting.',
      field: fieldOf('members', rowOf.get(of.id) ?? 0, 'name'),
    }),
  })
}

/** Ends cut flat at the height of the lowest steel stand on the floor; the others stay open. */
function onFloor(members: readonly Member[], settled: readonly (readonly [Corner, Settled])[]): Member[] {
  const cut = settled.filter(([, { how }]) => how === 'flat').flatMap(([corner]) => corner.ends)
  if (cut.length === 0) return [...members]
  let floor = Number.POSITIVE_INFINITY
  for (const of of members)
    for (const end of ['A', 'B'] as const) floor = Math.min(floor, -endReach(of, end, [0, 0, -1]))
  const standing = [...members]
  for (const { member: at, end } of cut) {
    const of = standing[at]!
    if (-endReach(of, end, [0, 0, -1]) - floor > sameLength) continue
    const mates = of.mates.map((mate, k) => (k === endIndex(end) ? 'floor' : mate)) as [string, string]
    standing[at] = { ...of, mates }
  }
  return standing
}
