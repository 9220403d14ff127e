import type { Assembly, Frame, Joint } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import type { Seam, SeamClass, Tack, WeldPlan, WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import { bestOrder } from './best-order.ts'
import { heatQuestion } from './heat-plan.ts'
import { type Stretch, stretchesOf } from './passes.ts'
import { seamsOf } from './seams.ts'
import { whyCheck, whyFit, whyPass, whyPilot, whySheet, whyTack, whyTapped, whyTurn } from './why.ts'

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

/** Steps of a sub-assembly before it is welded. */
function tackSteps(part: Part, tacks: ByJoint<Tack>, tacking: Shop['tacking']): WeldStep[] {
  const { assembly } = part
  const byId = new Map(part.joints.map((joint) => [joint.id, joint]))
  const ring = (assembly.ring ?? []).flatMap((id) => byId.get(id) ?? [])
  const isRing = assembly.ring !== undefined
  const name = assembly.name.toLowerCase()
  const tackStep = (tack: Tack): WeldStep => ({
    id: tack.id,
    kind: 'tack',
    assembly: assembly.id,
    joint: tack.joint,
    seam: tack.seam,
    text: tack.text,
    why: whyTack(isRing, tacking, isRing ? classOf(tack) : undefined),
  })
  const check = (id: string, text: string, joint?: Joint): WeldStep => ({
    id: `check:${id}`,
    kind: 'check',
    assembly: assembly.id,
    ...(joint ? { joint: joint.id } : {}),
    text,
    why: whyCheck,
  })
  const of = (joint: Joint) => tacks.get(joint.id) ?? []
  if (!isRing)
    return part.joints.flatMap((joint) => {
      const [head, ...others] = of(joint)
      if (!head) return []
      const said = sayJoint(joint.id)
      const text = joint.kind === 'cap' ? `Check that ${said} sits true.` : `Check ${said} for square.`
      return [tackStep(head), check(joint.id, text, joint), ...others.map(tackStep)]
    })
  const inJig = tacking === 'in a jig'
  const steps: WeldStep[] = [
    {
      id: `fit:${assembly.id}`,
      kind: 'fit',
      assembly: assembly.id,
      text: inJig
        ? `Clamp all parts of the ${name} on the outline, the side that will show down on a clean surface; check that the ring closes and lies flat.`
        : `Lay the ${name} on the outline, the side that will show down on a clean surface.`,
      why: whyFit,
    },
  ]
  if (inJig) {
    for (const joint of opposite(ring)) {
      const [head, ...others] = of(joint)
      if (head) steps.push(tackStep(head))
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
  steps.push(
    check(
      `${assembly.id}/tacked`,
      'Check across corners and that it lies flat before welding; brush the soot off the tacks.',
    ),
  )
  return steps
}

const classOf = ({ seam }: Tack): SeamClass | undefined => around.find((kind) => seam.endsWith(`/${kind}`))

const passStep = (seam: Seam, assembly: string, coolest: boolean): WeldStep => ({
  id: `pass:${seam.id}`,
  kind: 'pass',
  assembly,
  joint: seam.joint,
  seam: seam.id,
  text: `Weld ${sayJoint(seam.joint)}, ${saySeam(seam)}`,
  why: whyPass(seam.class, coolest),
})

/** Passes of all sub-assemblies in their blocks, the seams of a block as one goes round. */
function blocksOf(parts: readonly Part[], seams: ByJoint<Seam>, passes: Shop['passes']) {
  return parts.map((part) => {
    const ring = part.assembly.ring ?? []
    const place = new Map(ring.map((id, at) => [id, at]))
    const joints = [...part.joints].sort((a, b) => (place.get(a.id) ?? 0) - (place.get(b.id) ?? 0))
    const own = joints.flatMap((joint) => seams.get(joint.id) ?? [])
    return stretchesOf(own, passes)
  })
}

/** More seams than this are welded as one goes round: a plan follows the typing, and must not wait for them. */
const mostOrdered = 150

/** The seams of each block in the order that heats least, by the id of the block's first seam as given. */
function cooled(frame: Frame, blocks: readonly (readonly Seam[])[]): readonly (readonly Seam[])[] {
  const all = blocks.flat()
  if (all.length > mostOrdered) return blocks
  let at = 0
  const numbered = blocks.map((block) => block.map(() => at++))
  const { order } = bestOrder(numbered, heatQuestion(frame, all))
  let from = 0
  return blocks.map((block) => {
    const own = order.slice(from, from + block.length).map((k) => all[k]!)
    from += block.length
    return own
  })
}

/** What a part's own passes and turnings are, once their order is known. */
function passSteps(
  part: Part,
  stretches: readonly Stretch[],
  ordered: (block: readonly Seam[]) => readonly Seam[],
) {
  const { assembly } = part
  let turns = 0
  return stretches.flatMap((stretch): WeldStep[] => {
    if ('block' in stretch) {
      const seams = ordered(stretch.block)
      return seams.map((seam, at) => passStep(seam, assembly.id, seam !== stretch.block[at]))
    }
    turns += 1
    return [
      {
        id: turns === 1 ? `turn:${assembly.id}` : `turn:${assembly.id}/${turns}`,
        kind: 'turn',
        assembly: assembly.id,
        text: `Turn the ${assembly.name.toLowerCase()} over.`,
        why: whyTurn,
      },
    ]
  })
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
  const stretches = blocksOf(parts, seamsAt, shop.passes)
  const blocks = stretches.flatMap((each) => each.flatMap((one) => ('block' in one ? [one.block] : [])))
  const cool = new Map(cooled(frame, blocks).map((seamsOfBlock, at) => [blocks[at]!, seamsOfBlock]))
  const tapped = frame.plates.filter((plate) => plate.thread)
  const pilot: WeldStep[] =
    tapped.length > 0
      ? [
          {
            id: 'check:pilot',
            kind: 'check',
            assembly: parts[0]?.assembly.id ?? 'all',
            text: `Drill the pilot holes in the ${tappedIn(tapped)}, before they are welded on.`,
            why: whyPilot,
          },
        ]
      : []
  const steps = [
    ...pilot,
    ...parts.flatMap((part, at) => [
      ...tackSteps(part, tacksAt, shop.tacking),
      ...passSteps(part, stretches[at]!, (block) => cool.get(block) ?? block),
    ]),
  ]
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
        why: whySheet,
      },
      {
        id: `check:${plate.id}`,
        kind: 'check',
        assembly: plate.id,
        text: `Check that the ${plate.name.toLowerCase()} lies flat.`,
        why: whyCheck,
      },
    )
  if (tapped.length > 0)
    steps.push({
      id: 'check:tapped',
      kind: 'check',
      assembly: 'all',
      text: `Drill and tap ${tapped[0]!.thread} in the ${tappedIn(tapped)}, after welding.`,
      why: whyTapped,
    })
  const order: string[] = []
  for (const step of steps)
    if (step.kind === 'turn') order.push(step.id)
    else if (step.kind === 'pass' && step.seam) order.push(step.seam)
  return { seams, tacks, order, round: blocks.flat().map(({ id }) => id), steps }
}
