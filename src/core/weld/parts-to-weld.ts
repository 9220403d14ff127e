import type { Assembly, Frame, Joint } from '../frame/frame.ts'
import { axisX } from '../geometry/pose.ts'
import { dot, type Vec3 } from '../geometry/vec3.ts'

// What is tacked and welded by itself, in order: caps while they still lie flat, what stands by itself, frames that lie
// flat, then all together. Common practice.

/** Joints that are made alike: each arm to the post. */
export interface Group {
  readonly id: string
  /** `Base, arm to post`. */
  readonly stage: string
  /** What to clamp, shim, block and weigh down. */
  readonly fit: string
  /** Corners of two pieces, each laid flat on the table by itself, however the rest lies. */
  readonly flat: boolean
  readonly joints: readonly Joint[]
}

export interface Part {
  readonly assembly: Assembly
  readonly joints: readonly Joint[]
}

export function partsToWeld(frame: Frame): readonly Part[] {
  const names = kindsOf(frame)
  const plates = new Set(frame.plates.map(({ id }) => id))
  const caps = frame.joints.filter(({ kind }) => kind === 'cap')
  const left = new Set(frame.joints.filter(({ kind }) => kind !== 'cap'))
  // What stands by itself first: a frame that lies flat waits for nothing, and lies in nobody's way when it comes last.
  const inOrder = [
    ...frame.assemblies.filter(({ ring }) => ring === undefined),
    ...frame.assemblies.filter(({ ring }) => ring !== undefined),
  ]
  const parts = inOrder.flatMap((assembly): readonly Part[] => {
    const inside = new Set(assembly.members)
    // What is welded to a frame beside its own corners, as tabs, comes when all is put together.
    const ring = assembly.ring && new Set(assembly.ring)
    const joints = [...left].filter(
      (joint) =>
        (!ring || ring.has(joint.id)) &&
        joint.members.every((id) => inside.has(id) || plates.has(id)) &&
        joint.members.some((id) => inside.has(id)),
    )
    for (const joint of joints) left.delete(joint)
    if (joints.length === 0) return []
    return [{ assembly, joints }]
  })
  const all: Assembly = { id: 'all', name: 'All together', members: [] }
  const capped: Assembly = {
    id: 'caps',
    name: capsName(caps.map(({ members }) => names.get(members[1] ?? '') ?? 'cap')),
    members: [],
  }
  return [
    ...(caps.length > 0 ? [{ assembly: capped, joints: caps }] : []),
    ...parts,
    ...(left.size > 0 ? [{ assembly: all, joints: [...left] }] : []),
  ]
}

/** `Foot cap 3` → `foot cap`. */
const kindOf = (name: string): string => name.replace(/[\s\d]+$/, '').toLowerCase()

function capsName(names: readonly string[]): string {
  const kinds = [...new Set(names)]
  const name = kinds.length === 1 ? `${kinds[0]}s` : 'caps'
  return name.charAt(0).toUpperCase() + name.slice(1)
}

const kindsOf = ({ members, plates }: Frame): ReadonlyMap<string, string> =>
  new Map([...members, ...plates].map(({ id, name }) => [id, kindOf(name)]))

/**
 * Joints of a part that is no ring, put together by what meets: corners of two pieces first, since they lie flat on the
 * table; then from the lowest joints up, as it lies with `up` upward, or as the build puts it together.
 */
export function groupsOf(frame: Frame, { assembly: { id, name }, joints }: Part, up: Vec3): readonly Group[] {
  const names = kindsOf(frame)
  const plates = new Set(frame.plates.map((plate) => plate.id))
  const poses = new Map(frame.members.map((member) => [member.id, member.pose]))
  /** What ends here points up, as it lies: what it ends on comes down onto it. */
  const pointsUp = ({ members, ends }: Joint): boolean => {
    const pose = poses.get(members[0] ?? '')
    const along = pose && ends[0] !== 'side' ? dot(axisX(pose), up) : 0
    return (ends[0] === 'B' ? along : -along) > Math.SQRT1_2
  }
  const found = new Map<string, Joint[]>()
  for (const joint of joints) {
    const [by = '', on = ''] = joint.members.map((member) => names.get(member) ?? '')
    const key = `${joint.kind === 'miter' ? 0 : 1}/${by}/${on}/${joint.ends[0] === 'side' ? 'lies' : 'ends'}`
    found.set(key, [...(found.get(key) ?? []), joint])
  }
  const along = (way: Vec3, all: readonly Joint[]) =>
    all.reduce((sum, { at }) => sum + dot(way, at), 0) / all.length
  const height = (all: readonly Joint[]) => Math.round(along(up, all)) + along([0, 0, 1e-6], all)
  const inOrder = [...found].sort(
    ([one, a], [two, b]) =>
      one.charCodeAt(0) - two.charCodeAt(0) || (id === 'all' ? 0 : height(a) - height(b)),
  )
  return inOrder.map(([key, own]): Group => {
    const [kind, by = '', on = '', how] = key.split('/')
    // A plate is laid on the tube, not the tube on the plate.
    const laid = how === 'lies' && own.every(({ members }) => plates.has(members[1] ?? ''))
    const turned = laid || (kind !== '0' && own.every(pointsUp))
    const [one, two] = (turned ? [on, by] : [by, on]).map(called) as [string, string]
    const only = theOnly(own, turned ? 1 : 0)
    return {
      id: `${id}/${by}-${on}-${how}`.replaceAll(' ', '-'),
      stage: `${name}, ${called(by)} to ${called(on)}`,
      flat: kind === '0',
      fit: fitOf(kind === '0', how === 'lies', only ? `the ${one}` : `each ${one}`, two),
      joints: own,
    }
  })
}

/** `half leg, lower` → `lower half leg`, as it stands in a sentence. */
const called = (kind: string): string => kind.replace(/^(.+), (.+)$/, '$2 $1')

const theOnly = (joints: readonly Joint[], which: 0 | 1): boolean =>
  new Set(joints.map(({ members }) => members[which])).size === 1

function fitOf(miter: boolean, lies: boolean, by: string, on: string): string {
  if (miter)
    return `Lay ${by} with its ${on} flat on the table, the outside edges in line; clamp both, shim what rocks.`
  if (lies) return `Lay ${by} on the ${on} at its layout marks; clamp or weigh it down until the faces touch.`
  return `Set ${by} on the ${on} between its layout marks, square both ways; clamp it, block up what hangs free, weigh down what could tip.`
}
