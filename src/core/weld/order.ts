import type { Assembly, Frame, Joint } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import type { Seam, SeamClass, Tack, WeldPlan, WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import { seamsOf } from './seams.ts'

/** `top/corner-3` → `corner 3`. */
const sayJoint = (id: string) =>
  id
    .slice(id.indexOf('/') + 1)
    .replaceAll('-', ' ')
    .replaceAll('/', ' to ')

function saySeam({ id, joint }: Seam): string {
  const name = id.slice(joint.length + 1)
  return name.includes('-') ? name.replaceAll('-', ' ') : name
}

/**
 * Order of the joints of a ring in a jig: the opposite joint next each time, and for five and more no two neighbors
 * in a row. Common practice.
 */
export function opposite<T>(ring: readonly T[]): T[] {
  const n = ring.length
  const order: number[] = []
  const left = new Set(ring.keys())
  const away = (one: number, two: number) => Math.min((one - two + n) % n, (two - one + n) % n)
  while (left.size > 0) {
    const last = order.at(-1)
    const before = order.at(-2)
    let best: number | undefined
    let bestScore = Number.NEGATIVE_INFINITY
    for (const at of left) {
      const fromLast = last === undefined ? 0 : away(at, last)
      const fromBefore = before === undefined ? 0 : away(at, before)
      // Farthest from the last one first; then away from the one before; neighbors only when nothing else is left.
      const score =
        fromLast * n + Math.min(fromBefore, 2) - at / (n * n) - (n >= 5 && fromLast === 1 ? n * n : 0)
      if (score > bestScore) {
        bestScore = score
        best = at
      }
    }
    order.push(best!)
    left.delete(best!)
  }
  // The greedy walk may end on a neighbor: move that joint to where it has none.
  if (n >= 5) mend(order, away)
  return order.map((at) => ring[at]!)
}

function mend(order: number[], away: (one: number, two: number) => number): void {
  const touching = (at: number) =>
    (at > 0 && away(order[at]!, order[at - 1]!) === 1) ||
    (at + 1 < order.length && away(order[at]!, order[at + 1]!) === 1)
  for (let at = 1; at < order.length; at++) {
    if (!touching(at)) continue
    for (let other = 0; other < order.length; other++) {
      const swap = () => {
        const kept = order[at]!
        order[at] = order[other]!
        order[other] = kept
      }
      const faults = () => order.filter((_, k) => touching(k)).length
      const before = faults()
      swap()
      if (faults() < before) break
      swap()
    }
  }
}

const around: readonly SeamClass[] = ['outside', 'inside', 'top', 'bottom']

interface Part {
  readonly assembly: Assembly
  readonly joints: readonly Joint[]
}

/** Joints by the assembly that holds all their members; what joins assemblies comes last, as `all`. */
function partsToWeld(frame: Frame): Part[] {
  const left = new Set(frame.joints)
  const plates = new Set(frame.plates.map(({ id }) => id))
  const parts: Part[] = frame.assemblies.map((assembly) => {
    const inside = new Set(assembly.members)
    const joints = frame.joints.filter(
      (joint) =>
        joint.members.every((id) => inside.has(id) || plates.has(id)) &&
        joint.members.some((id) => inside.has(id)),
    )
    for (const joint of joints) left.delete(joint)
    return { assembly, joints }
  })
  const rest = frame.joints.filter((joint) => left.has(joint))
  if (rest.length > 0)
    parts.push({ assembly: { id: 'all', name: 'All together', members: [] }, joints: rest })
  return parts
}

/** What belongs to a joint, in the order in which it is given. */
type ByJoint<T> = ReadonlyMap<string, readonly T[]>

function byJoint<T extends { readonly joint: string }>(all: readonly T[]): ByJoint<T> {
  const found = new Map<string, T[]>()
  for (const each of all) {
    const own = found.get(each.joint)
    if (own) own.push(each)
    else found.set(each.joint, [each])
  }
  return found
}

/** Four tacks to a mitered joint, opposite corners first (outside, inside, top, bottom); two opposite ones else. */
function tacksOf(joint: Joint, seams: ByJoint<Seam>): Tack[] {
  const own = seams.get(joint.id) ?? []
  const said = sayJoint(joint.id)
  const chosen =
    joint.kind === 'miter'
      ? around.flatMap((kind) => own.find((seam) => seam.class === kind) ?? [])
      : [...own.filter((_, at) => at % 2 === 0), ...own.filter((_, at) => at % 2 === 1)]
  return chosen.map((seam) => ({
    id: `tack:${seam.id}`,
    joint: joint.id,
    seam: seam.id,
    text: `Tack ${said}, ${saySeam(seam)}`,
  }))
}

const passClass = (kind: SeamClass): 0 | 1 | 2 => (kind === 'bottom' ? 2 : kind === 'top' ? 1 : 0)

function ringSteps(part: Part, tacks: ByJoint<Tack>, seams: ByJoint<Seam>, shop: Shop): WeldStep[] {
  const { assembly } = part
  const byId = new Map(part.joints.map((joint) => [joint.id, joint]))
  const ring = (assembly.ring ?? []).flatMap((id) => byId.get(id) ?? [])
  const inJig = shop.tacking === 'in a jig'
  const steps: WeldStep[] = [
    {
      id: `fit:${assembly.id}`,
      kind: 'fit',
      assembly: assembly.id,
      text: inJig
        ? `Clamp all parts of the ${assembly.name.toLowerCase()} on the outline; check that the ring closes and lies flat.`
        : `Lay the ${assembly.name.toLowerCase()} on the outline.`,
    },
  ]
  const tackStep = (tack: Tack): WeldStep => ({
    id: tack.id,
    kind: 'tack',
    assembly: assembly.id,
    joint: tack.joint,
    seam: tack.seam,
    text: tack.text,
  })
  const of = (joint: Joint) => tacks.get(joint.id) ?? []
  const check = (id: string, text: string, joint?: Joint): WeldStep => ({
    id: `check:${id}`,
    kind: 'check',
    assembly: assembly.id,
    ...(joint ? { joint: joint.id } : {}),
    text,
  })
  if (inJig) {
    for (const joint of opposite(ring)) {
      const [first, ...others] = of(joint)
      if (first) steps.push(tackStep(first))
      steps.push(check(joint.id, `Check the angle at ${sayJoint(joint.id)}.`, joint))
      steps.push(...others.map(tackStep))
    }
  } else {
    // Round, outside corner tacks only, since these hinge; the last joint stays open until the ring is tried.
    const outside = ring.flatMap((joint) => of(joint).slice(0, 1))
    steps.push(...outside.slice(0, -1).map(tackStep))
    steps.push(check(`${assembly.id}/outline`, 'Try it on the outline, close the last joint, check.'))
    steps.push(...outside.slice(-1).map(tackStep))
    for (const at of [1, 2, 3]) {
      steps.push(...ring.flatMap((joint) => of(joint).slice(at, at + 1)).map(tackStep))
      if (at === 1) steps.push(check(`${assembly.id}/inside`, 'Check the angles and that it lies flat.'))
    }
  }
  steps.push(check(`${assembly.id}/tacked`, 'Check across corners and that it lies flat before welding.'))
  const order = opposite(ring)
  const passes = (kinds: readonly SeamClass[]) =>
    order.flatMap((joint) =>
      kinds.flatMap((kind) => (seams.get(joint.id) ?? []).filter((seam) => seam.class === kind)),
    )
  const pass = (seam: Seam): WeldStep => passStep(seam, assembly.id)
  steps.push(...passes(['outside']).map(pass), ...passes(['inside']).map(pass), ...passes(['top']).map(pass))
  steps.push({
    id: `turn:${assembly.id}`,
    kind: 'turn',
    assembly: assembly.id,
    text: `Turn the ${assembly.name.toLowerCase()} over.`,
  })
  steps.push(...passes(['bottom']).map(pass))
  return steps
}

const passStep = (seam: Seam, assembly: string, said = sayJoint(seam.joint)): WeldStep => ({
  id: `pass:${seam.id}`,
  kind: 'pass',
  assembly,
  joint: seam.joint,
  seam: seam.id,
  text: `Weld ${said}, ${saySeam(seam)}`,
})

/** Joints that form no ring: every joint is tacked and checked, then welded, seams of one joint apart in time. */
function otherSteps(part: Part, tacks: ByJoint<Tack>, seams: ByJoint<Seam>): WeldStep[] {
  const { assembly, joints } = part
  const steps: WeldStep[] = []
  for (const joint of joints) {
    const own = tacks.get(joint.id) ?? []
    own.forEach((tack, at) => {
      steps.push({
        id: tack.id,
        kind: 'tack',
        assembly: assembly.id,
        joint: joint.id,
        seam: tack.seam,
        text: tack.text,
      })
      if (at === 0)
        steps.push({
          id: `check:${joint.id}`,
          kind: 'check',
          assembly: assembly.id,
          joint: joint.id,
          text:
            joint.kind === 'cap'
              ? `Check that ${sayJoint(joint.id)} sits true.`
              : `Check ${sayJoint(joint.id)} for square.`,
        })
    })
  }
  const passes = joints.map((joint) => {
    const said = sayJoint(joint.id)
    const steps: WeldStep[][] = [[], [], []]
    for (const seam of seams.get(joint.id) ?? [])
      steps[passClass(seam.class)]!.push(passStep(seam, assembly.id, said))
    return steps
  })
  const rank = (at: 0 | 1 | 2) => passes.flatMap((of) => of[at]!)
  // One seam of every joint in turn, so that no joint takes all its heat at once.
  const longest = Math.max(0, ...passes.map((of) => of[0]!.length))
  for (let at = 0; at < longest; at++)
    for (const of of passes) {
      const step = of[0]![at]
      if (step) steps.push(step)
    }
  const bottoms = rank(2)
  steps.push(...rank(1))
  if (bottoms.length > 0)
    steps.push({
      id: `turn:${assembly.id}`,
      kind: 'turn',
      assembly: assembly.id,
      text: `Turn the ${assembly.name.toLowerCase()} over.`,
    })
  steps.push(...bottoms)
  return steps
}

/** `4 foot caps`, `base plate`. */
const tappedIn = (plates: Frame['plates']): string =>
  plates.length === 1 && !plates[0]!.name.includes('cap')
    ? plates[0]!.name.toLowerCase()
    : `${plates.length} foot caps`

/** Tacks and passes of a frame as one checklist, sub-assembly by sub-assembly. Common practice. */
export function weldPlan(frame: Frame, shop: Shop, touching = touchingOf(frame)): WeldPlan {
  const seams = seamsOf(frame, touching)
  const parts = partsToWeld(frame)
  const seamsAt = byJoint(seams)
  const tacks = parts.flatMap((part) => part.joints.flatMap((joint) => tacksOf(joint, seamsAt)))
  const tacksAt = byJoint(tacks)
  const steps = parts.flatMap((part) =>
    part.assembly.ring ? ringSteps(part, tacksAt, seamsAt, shop) : otherSteps(part, tacksAt, seamsAt),
  )
  const joined = new Set<string>()
  for (const joint of frame.joints) for (const id of joint.members) joined.add(id)
  const plates = frame.plates.filter((plate) => !joined.has(plate.id))
  for (const plate of plates)
    steps.push(
      {
        id: `tack:${plate.id}`,
        kind: 'tack',
        assembly: plate.id,
        text: `Tack the ${plate.name.toLowerCase()} at its corners only.`,
      },
      {
        id: `check:${plate.id}`,
        kind: 'check',
        assembly: plate.id,
        text: `Check that the ${plate.name.toLowerCase()} lies flat.`,
      },
    )
  const tapped = frame.plates.filter((plate) => plate.thread)
  if (tapped.length > 0)
    steps.push({
      id: 'check:tapped',
      kind: 'check',
      assembly: 'all',
      text: `Drill and tap ${tapped[0]!.thread} in the ${tappedIn(tapped)}, after welding.`,
    })
  const order: string[] = []
  for (const step of steps)
    if (step.kind === 'turn') order.push(step.id)
    else if (step.kind === 'pass' && step.seam) order.push(step.seam)
  return { seams, tacks, order, steps }
}
