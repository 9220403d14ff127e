import type { Frame, Member, Plate } from '../frame/frame.ts'
import { faceWorld, type Touching, touchingOf } from '../frame/landing.ts'
import { type End, endCorners, faceNormal } from '../frame/member.ts'
import { axisX, toWorld } from '../geometry/pose.ts'
import { dot, scale, type Vec3 } from '../geometry/vec3.ts'
import type { Mm } from '../units.ts'
import { meetingsOf } from './loops.ts'
import { planesOf, runsIn } from './plane.ts'

// What must be put under a sub-assembly that lies on the table, so that nothing hangs while it is tacked.

/** How it lies: as it stands in the end, top side down, or flat where it is a frame that stands upright in the end. */
export type Lying = 'as it stands' | 'top side down' | 'flat on its side'

/** What is put together on the table by itself. */
export interface Load {
  readonly id: string
  readonly name: string
  readonly members: readonly string[]
  /** Members that are put on now: the others are welded already. */
  readonly fresh: ReadonlySet<string>
  readonly ring: boolean
}

/** What goes under one end of a member. */
export interface Block {
  readonly member: string
  /** Where; a member that stands upright has one lower end. */
  readonly end: End
  /** From the table to the steel, mm; of an end that leans, to its lowest corner. */
  readonly height: Mm
  /** A tube of this load is just as high: a scrap of it does. */
  readonly tube: boolean
}

/** Steel that is nearer to the table than this lies on it: a shim of a sheet of paper. */
const touches: Mm = 0.1
/** A member leans this much from level, as sine, before only its lower end counts. */
const steep = 0.7

/** Shims are thinner than this, mm, blocks thicker: common practice, the wall of a thick tube or a flat bar. */
export const shimUpTo: Mm = 13

const cornersOf = (plate: Plate): Vec3[] =>
  plate.polygon.flatMap(([x, y]) => [0, plate.thickness].map((z): Vec3 => toWorld(plate.pose, [x, y, z])))

/** The ways in which a load can lie, and which way is then up. */
export function lyingsOf(frame: Frame, load: Load, touching = touchingOf(frame)): ReadonlyMap<Lying, Vec3> {
  const ways = new Map<Lying, Vec3>([
    ['as it stands', [0, 0, 1]],
    ['top side down', [0, 0, -1]],
  ])
  const members = frame.members.filter(({ id }) => load.members.includes(id))
  const plane = planesOf(frame, meetingsOf(frame)).find(
    (each) => Math.abs(each.normal[2]) < steep && members.every((member) => runsIn(each, member)),
  )
  if (plane) {
    const two = [plane.normal, scale(plane.normal, -1)] as const
    const [sum, other] = two.map((up) => heightOf(blocksUnder(frame, load, up, touching)))
    ways.set('flat on its side', other! < sum! ? two[1] : two[0])
  }
  return ways
}

const heightOf = (blocks: readonly Block[]): Mm => blocks.reduce((all, { height }) => all + height, 0)

/** A ring lies its show side down, an upright frame flat; anything else the way that takes less under it. */
export function usualLying(frame: Frame, load: Load, touching = touchingOf(frame)): Lying {
  const ways = lyingsOf(frame, load, touching)
  if (load.ring) return 'top side down'
  if (ways.has('flat on its side')) return 'flat on its side'
  const sum = (lying: Lying) => heightOf(blocksUnder(frame, load, ways.get(lying)!, touching))
  return sum('top side down') < sum('as it stands') ? 'top side down' : 'as it stands'
}

/** Blocks and shims under a load that lies with this way up, its end caps being on already and no top sheet. */
export function blocksUnder(
  frame: Frame,
  load: Load,
  up: Vec3,
  touching = touchingOf(frame),
): readonly Block[] {
  const own = new Set(load.members)
  const members = frame.members.filter(({ id }) => own.has(id))
  const capped = new Set(frame.joints.flatMap((joint) => (joint.kind === 'cap' ? joint.members : [])))
  const plates = frame.plates.filter(({ id, on }) => capped.has(id) && on.every((one) => own.has(one)))
  const heights = (points: readonly Vec3[]) => points.map((point) => dot(up, point))
  const table = Math.min(
    ...members.flatMap((each) => [...heights(endCorners(each, 'A')), ...heights(endCorners(each, 'B'))]),
    ...plates.flatMap((each) => heights(cornersOf(each))),
  )
  const heightAt = (of: Member, end: End): Mm => Math.min(...heights(endCorners(of, end))) - table
  const held = restsOf(touching, own, up)
  const heightsOfTube = members.flatMap(({ section }) => [section.width, section.height])
  const ends = (of: Member): readonly End[] => {
    const rise = dot(axisX(of.pose), up)
    return Math.abs(rise) > steep ? [rise > 0 ? 'A' : 'B'] : ['A', 'B']
  }
  /** The lower end of something upright that stands on the table itself, or on a plate that does. */
  const stands = (id: string): boolean => {
    const of = members.find((each) => each.id === id)
    if (!of || ends(of).length !== 1) return false
    const height = heightAt(of, ends(of)[0]!)
    return (
      height < touches ||
      plates.some(
        (plate) =>
          plate.on.includes(id) &&
          Math.min(...heights(cornersOf(plate))) - table < touches &&
          Math.abs(Math.max(...heights(cornersOf(plate))) - table - height) < touches,
      )
    )
  }
  return members
    .filter(({ id }) => load.fresh.has(id))
    .flatMap((of) =>
      ends(of).flatMap((end): Block[] => {
        const height = heightAt(of, end)
        if (height < touches || held.has(`${of.id} ${end}`) || stands(of.id)) return []
        // Mitered to something that stands: the two are one piece by then.
        const carried = frame.joints.some(
          ({ kind, members: [one, two], ends: joined }) =>
            kind === 'miter' &&
            ((one === of.id && joined[0] === end && stands(two!)) ||
              (two === of.id && joined[1] === end && stands(one!))),
        )
        if (carried) return []
        const tube = heightsOfTube.some((high) => Math.abs(high - height) < touches)
        return [{ member: of.id, end, height, tube }]
      }),
    )
}

/** Ends, as `ID END`, that lie on a lower member of the same sub-assembly. */
function restsOf(touching: Touching, own: ReadonlySet<string>, up: Vec3): ReadonlySet<string> {
  const found = new Set<string>()
  /** How far along the member a point lies: 0 at end A, 1 at end B. */
  const share = (of: Member, at: Vec3): number => {
    const [a, b] = (['A', 'B'] as const).map(
      (end) => endCorners(of, end).reduce((sum, corner) => sum + dot(axisX(of.pose), corner), 0) / 4,
    )
    return (dot(axisX(of.pose), at) - a!) / (b! - a!)
  }
  const half = (of: Member, at: Vec3): End => (share(of, at) < 0.5 ? 'A' : 'B')
  const balanced = (of: Member, at: Vec3): boolean => Math.abs(share(of, at) - 0.5) < 0.1
  for (const { on, by, face, outline } of touching.values()) {
    if (!own.has(on.id) || !own.has(by.id)) continue
    const rises = dot(faceNormal(on.pose, face), up)
    if (Math.abs(rises) < steep) continue
    const [above, below] = rises > 0 ? [by, on] : [on, by]
    const [sx, sy] = outline.reduce(([x, y], [a, b]) => [x + a, y + b], [0, 0] as readonly [number, number])
    const at = faceWorld(on, face, [sx / outline.length, sy / outline.length])
    found.add(`${above.id} ${half(above, at)}`)
    // What lies along the lower one, or across it by its middle, is held at both ends.
    if (Math.abs(dot(axisX(below.pose), axisX(above.pose))) > steep || balanced(above, at)) {
      found.add(`${above.id} A`)
      found.add(`${above.id} B`)
    }
  }
  return found
}

/**
 * What is put together on the table, in order: the sub-assemblies, each with the free members that join nothing else;
 * then all together, where members are left that join several of them.
 */
export function loadsOf(frame: Frame): readonly Load[] {
  const meetings = meetingsOf(frame)
  const taken = new Set(frame.assemblies.flatMap(({ members }) => members))
  const loads = frame.assemblies.map(({ id, name, members, ring }): Load => {
    const own = new Set(members)
    for (let more = true; more; ) {
      more = false
      for (const { id: free } of frame.members) {
        if (taken.has(free)) continue
        const others = (meetings.get(free) ?? []).flatMap((joint) =>
          joint.members.filter((one) => one !== free),
        )
        if (others.length === 0 || !others.every((one) => own.has(one))) continue
        own.add(free)
        taken.add(free)
        more = true
      }
    }
    return { id, name, members: [...own], fresh: own, ring: ring !== undefined }
  })
  const left = frame.members.map(({ id }) => id).filter((id) => !taken.has(id))
  if (left.length === 0) return loads
  const all = frame.members.map(({ id }) => id)
  return [...loads, { id: 'all', name: 'All together', members: all, fresh: new Set(left), ring: false }]
}
