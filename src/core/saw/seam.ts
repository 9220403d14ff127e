import type { Frame, Member, Warning } from '../frame/frame.ts'
import { type Edges, edgesOf, endPlane, faceNormal } from '../frame/member.ts'
import { axisX, toWorld } from '../geometry/pose.ts'
import { add, dot, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Job } from '../job.ts'
import type { Part, StickFace } from '../plan-shapes.ts'
import { isHollow, isRound } from '../section/section.ts'
import { sameKey, sameSlope } from '../tolerance.ts'
import { type Lying, sideAfter, tipOf, turnedBy } from './lying.ts'
import { lays, sideOfFace } from './ways.ts'

// The side of each member that its tube's weld seam must be on, found in the frame and carried to the part in the stick.

export type Pin = NonNullable<Job['seam']>

export interface Pinned {
  readonly parts: readonly Part[]
  readonly warnings: readonly Warning[]
}

/** cos 60°. */
const halfWay = 0.5

const allFaces: readonly StickFace[] = ['+z', '-z', '+y', '-y']

/**
 * Parts with the faces that may bear the weld seam, member by member. Where a half turn brings a part onto itself both faces
 * are right, and the piece may be turned over; the proper turnings decide, never a mirror image. Geometry keys stay as
 * they are: pieces of one mark whose seams lie on different sides are the same steel until the seam is looked at, so the
 * warnings say which to keep apart. Also said: members that have no such side, round tubes, sticks that would need the
 * seam on a wide and on a narrow side at once.
 */
export function pinSeams(parts: readonly Part[], frame: Frame, pin: Pin | undefined): Pinned {
  if (pin === undefined) return { parts, warnings: [] }
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const free: Member[] = []
  const round: Member[] = []
  const pinned = parts.map((part): Part => {
    if (!isHollow(part.section)) return part
    const seam = part.members.map((id): readonly StickFace[] => {
      const of = members.get(id)!
      if (isRound(of.section)) {
        round.push(of)
        return []
      }
      const face = sideOf(of, frame, pin)
      if (!face) free.push(of)
      return face ? facesInStick(of, part, face) : []
    })
    return { ...part, seam }
  })
  return {
    parts: pinned,
    warnings: [
      ...(free.length > 0 ? [noSide(free, pin)] : []),
      ...(round.length > 0 ? [roundTubes(round)] : []),
      ...pinned.flatMap(apart),
      ...bothSides(pinned),
    ],
  }
}

/** Where the pinned side of a member looks, in the world; of no length in the middle of an assembly. */
function directionOf(of: Member, frame: Frame, pin: Pin): Vec3 {
  if (pin === 'top') return [0, 0, 1]
  if (pin === 'bottom') return [0, 0, -1]
  const { members, ring } =
    frame.assemblies.find((each) => each.members.includes(of.id)) ?? ({ members: [] } as const)
  const around = new Set((ring ?? []).includes(of.id) ? ring : members)
  const all = frame.members.filter(({ id }) => around.has(id)).map(middleOf)
  const middle = scale(all.reduce(add, [0, 0, 0]), 1 / Math.max(1, all.length))
  const out = sub(middleOf(of), middle)
  // A ring has a plane of its own; of anything else inside and outside are seen in plan.
  const flat: Vec3 = ring ? out : [out[0], out[1], 0]
  return pin === 'outside' ? flat : scale(flat, -1)
}

const middleOf = (of: Member): Vec3 => {
  const { a, b }: Edges = edgesOf(of)
  const ends = [...a, ...b]
  return toWorld(of.pose, [(Math.max(...ends) + Math.min(...ends)) / 2, 0, 0])
}

/**
 * The one face that looks the pinned way: nearer to it than 45°, on a member that does not itself run that way by more
 * than 60°. Two faces alike, or a post whose top is its end, have no such side.
 */
function sideOf(of: Member, frame: Frame, pin: Pin): StickFace | undefined {
  const direction = directionOf(of, frame, pin)
  // In the middle of its assembly a member has no inside.
  if (norm(direction) < sameKey) return undefined
  const toward = unit(direction)
  const along = axisX(of.pose)
  const beside = sub(toward, scale(along, dot(toward, along)))
  if (norm(beside) < halfWay) return undefined
  const way = unit(beside)
  return allFaces.find((face) => dot(faceNormal(of.pose, face), way) > Math.SQRT1_2 + sameSlope)
}

/** The member as it stands in its frame, its end B leading. */
const standing = (of: Member): Lying => {
  const [a, b] = [endPlane(of.ends[0]), endPlane(of.ends[1])]
  const { width, height } = of.section
  return { lead: b, trail: a, mid: b.x - a.x, depth: width, height }
}

/** Where a face of the member may come to lie on its part in the stick: once for each turning that makes it that part. */
function facesInStick(of: Member, part: Part, face: StickFace): readonly StickFace[] {
  const from = standing(of)
  const { width, height } = part.section
  const lying = { ...from, depth: Math.max(width, height), height: Math.min(width, height) }
  const apart = (one: Lying, end: 'lead' | 'trail', slope: Part['slopes'][0]) =>
    tipOf({ p: one[end].p - slope.p, q: one[end].q - slope.q }, lying)
  const sides = lays
    .filter((turns) => {
      const laid = turnedBy(from, turns)
      return (
        Math.abs(laid.depth - lying.depth) <= sameKey &&
        apart(laid, 'lead', part.slopes[0]) <= sameKey &&
        apart(laid, 'trail', part.slopes[1]) <= sameKey
      )
    })
    .map((turns) => sideAfter(sideOfFace(face), turns))
  return allFaces.filter((each) => sides.includes(sideOfFace(each)))
}

const looks: Readonly<Record<Pin, string>> = {
  top: 'looks up',
  bottom: 'looks down',
  inside: 'looks inward',
  outside: 'looks outward',
}

const names = (members: readonly Member[]): string => [...new Set(members.map(({ name }) => name))].join(', ')

const noSide = (free: readonly Member[], pin: Pin): Warning => ({
  code: 'seam-no-side',
  text: `No one side of ${names(free)} ${looks[pin]}: there the weld seam may lie anywhere.`,
  members: free.map(({ id }) => id),
})

const roundTubes = (round: readonly Member[]): Warning => ({
  code: 'seam-round',
  text: `${names(round)}: on round tube the weld seam is not pinned. Mark its line yourself before the first cut, and keep to it.`,
  members: round.map(({ id }) => id),
})

/** Pieces of one mark that need the seam on different sides: they may not stand for each other. */
function apart({ mark, members, seam = [] }: Part): Warning[] {
  const groups = new Map<string, number[]>()
  for (const [at, faces] of seam.entries()) {
    if (faces.length === 0) continue
    const key = faces.join(' ')
    groups.set(key, [...(groups.get(key) ?? []), at + 1])
  }
  if (groups.size < 2) return []
  const said = [...groups.values()].map((numbers) => numbers.map((number) => `${mark}${number}`).join(', '))
  return [
    {
      code: 'seam-apart',
      text: `${mark}: one shape, and yet the weld seam lies on another side of ${said.join(' than of ')}, and so on in each copy. They are cut in set-ups of their own; keep them apart.`,
      members,
    },
  ]
}

const isWide = (face: StickFace): boolean => face[1] === 'z'

/** A rectangular stick has its seam on a wide or on a narrow side: one delivery cannot serve both. */
function bothSides(parts: readonly Part[]): Warning[] {
  const bySection = new Map<string, Part[]>()
  for (const part of parts) {
    const { width, height } = part.section
    if (!part.seam || Math.abs(width - height) <= sameKey) continue
    const key = `${part.section.kind} ${Math.max(width, height)} ${Math.min(width, height)} ${part.section.wall}`
    bySection.set(key, [...(bySection.get(key) ?? []), part])
  }
  return [...bySection.values()].flatMap((of) => {
    const on = (wide: boolean) =>
      of.filter(({ seam }) => seam!.some((faces) => faces.some((face) => isWide(face) === wide)))
    const [wide, narrow] = [on(true), on(false)]
    if (wide.length === 0 || narrow.length === 0) return []
    const marks = (parts: readonly Part[]) => parts.map(({ mark }) => mark).join(', ')
    return [
      {
        code: 'seam-both-sides',
        text: `The weld seam of ${marks(wide)} must be on a wide side of the tube, that of ${marks(narrow)} on a narrow one; a stick has it on one of them only. Ways out: pin another side, lay one of them the other way, or buy sticks of each.`,
        members: of.flatMap(({ members }) => members),
      },
    ]
  })
}
