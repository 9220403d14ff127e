import type { Frame, Member } from '../frame/frame.ts'
import { edgesOf } from '../frame/member.ts'
import { toLocal } from '../geometry/pose.ts'
import { mid } from '../geometry/vec3.ts'
import type { Seam } from '../plan-shapes.ts'
import type { Mm } from '../units.ts'

// The steel as heat sees it: members from joint to joint. Heat goes along the steel, never through the air.

export interface SteelEdge {
  readonly id: string
  /** Joints, or the free end of a member (`ID/A`, `ID/B`). */
  readonly a: string
  readonly b: string
  readonly length: Mm
}

/** A seam on an edge, `pos` from its end a. */
export interface OnSteel {
  readonly edge: string
  readonly pos: Mm
}

interface Stretch extends SteelEdge {
  /** Local x of a and b on the member. */
  readonly from: Mm
  readonly to: Mm
}

function stretchesOf(of: Member, joints: readonly { readonly id: string; readonly x: Mm }[]): Stretch[] {
  const { a, b } = edgesOf(of)
  const ends = [
    { id: `${of.id}/A`, x: Math.min(...a) },
    { id: `${of.id}/B`, x: Math.max(...b) },
  ]
  const spots = joints.length > 1 ? joints : [...(joints[0] ? [joints[0]] : [ends[0]!]), ends[1]!]
  const inOrder = [...spots].sort((one, two) => one.x - two.x)
  return inOrder.slice(1).map((next, at) => {
    const before = inOrder[at]!
    return {
      id: `${of.id}/${at + 1}`,
      a: before.id,
      b: next.id,
      length: next.x - before.x,
      from: before.x,
      to: next.x,
    }
  })
}

/** Edges of a frame, and where each of these seams lies on them: on its own member, at its middle. */
export function steelOf(frame: Frame, seams: readonly Seam[]) {
  const joints = new Map<string, { id: string; x: Mm }[]>(frame.members.map(({ id }) => [id, []]))
  const members = new Map(frame.members.map((each) => [each.id, each]))
  for (const joint of frame.joints)
    for (const id of joint.members) {
      const of = members.get(id)
      if (of) joints.get(id)!.push({ id: joint.id, x: toLocal(of.pose, joint.at)[0] })
    }
  const stretches = new Map(frame.members.map((of) => [of.id, stretchesOf(of, joints.get(of.id)!)]))
  const places = seams.map((seam): OnSteel => {
    const of = members.get(seam.place.member)
    const own = of && stretches.get(of.id)
    if (!of || !own?.[0]) return { edge: '', pos: 0 }
    const x = toLocal(of.pose, mid(seam.from, seam.to))[0]
    const touching = own.filter(({ a, b }) => a === seam.joint || b === seam.joint)
    const from = touching.length > 0 ? touching : own
    // The stretch that it lies on, else the nearest end of the nearest.
    const away = ({ from: start, to }: Stretch) => Math.max(start - x, x - to, 0)
    const best = from.reduce((near, one) => (away(one) < away(near) ? one : near))
    return { edge: best.id, pos: Math.min(Math.max(x - best.from, 0), best.length) }
  })
  const edges: SteelEdge[] = [...stretches.values()]
    .flat()
    .map(({ id, a, b, length }) => ({ id, a, b, length }))
  return { edges, places }
}

/** The nodes that each node is joined to, and how far off. */
type Ways = readonly (readonly (readonly [number, Mm])[])[]

/** Shortest ways along the steel from one node to all others, mm. */
function waysFrom(start: number, next: Ways): Float64Array {
  const far = new Float64Array(next.length).fill(Number.POSITIVE_INFINITY)
  far[start] = 0
  // What was reached in the last round, until nothing gets nearer: frames are wide nets with few nodes to a joint.
  for (let reached = [start]; reached.length > 0; ) {
    const beyond = new Set<number>()
    for (const at of reached)
      for (const [to, length] of next[at]!) {
        const way = far[at]! + length
        if (way >= far[to]!) continue
        far[to] = way
        beyond.add(to)
      }
    reached = [...beyond]
  }
  return far
}

/** Distance along the steel between every two places, row by row; infinite where no steel joins them. */
export function alongSteel(edges: readonly SteelEdge[], places: readonly OnSteel[]): Float64Array {
  const nodes = new Map<string, number>()
  const nodeOf = (id: string): number => {
    if (!nodes.has(id)) nodes.set(id, nodes.size)
    return nodes.get(id)!
  }
  const numbered = edges.map((edge) => ({ ...edge, from: nodeOf(edge.a), to: nodeOf(edge.b) }))
  const next: [number, Mm][][] = Array.from({ length: nodes.size }, () => [])
  for (const { from, to, length } of numbered) {
    next[from]!.push([to, length])
    next[to]!.push([from, length])
  }
  const ways: Float64Array[] = []
  const way = (from: number): Float64Array => {
    ways[from] ??= waysFrom(from, next)
    return ways[from]
  }
  const byId = new Map(numbered.map((edge) => [edge.id, edge]))
  const spots = places.map(({ edge: id, pos }) => {
    const edge = byId.get(id)
    return edge && { edge, pos, rest: edge.length - pos }
  })
  const n = places.length
  const far = new Float64Array(n * n).fill(Number.POSITIVE_INFINITY)
  // Plain columns of numbers: two thousand seams are four million pairs.
  const from = Int32Array.from(spots, (spot) => spot?.edge.from ?? 0)
  const to = Int32Array.from(spots, (spot) => spot?.edge.to ?? 0)
  const pos = Float64Array.from(spots, (spot) => spot?.pos ?? Number.POSITIVE_INFINITY)
  const rest = Float64Array.from(spots, (spot) => spot?.rest ?? Number.POSITIVE_INFINITY)
  for (const [i, one] of spots.entries()) {
    if (!one) continue
    const [a, b] = [way(one.edge.from), way(one.edge.to)]
    const row = i * n
    for (let k = 0; k < n; k++) {
      const overA = Math.min(a[from[k]!]! + pos[k]!, a[to[k]!]! + rest[k]!)
      const overB = Math.min(b[from[k]!]! + pos[k]!, b[to[k]!]! + rest[k]!)
      far[row + k] = Math.min(one.pos + overA, one.rest + overB)
    }
    for (const [k, two] of spots.entries())
      if (two?.edge === one.edge) far[row + k] = Math.min(far[row + k]!, Math.abs(one.pos - two.pos))
  }
  return far
}
