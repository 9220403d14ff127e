import type { Assembly, Frame, Joint } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import { meanLength } from '../frame/round-end.ts'
import { plateMass } from '../parts/plates.ts'
import type { Seam, SeamClass, Tack, WeldPlan, WeldStep } from '../plan-shapes.ts'
import { pound } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import type { Shop } from '../shop.ts'
import { bestOrder } from './best-order.ts'
import { heatQuestion } from './heat-plan.ts'
import { opposite } from './opposite.ts'
import { type Group, type Part, partsToWeld } from './parts-to-weld.ts'
import { type Stretch, stretchesOf } from './passes.ts'
import { seamsOf } from './seams.ts'
import {
  whyCheck,
  whyClamp,
  whyClean,
  whyFit,
  whyPass,
  whyPilot,
  whySheet,
  whyTack,
  whyTapped,
  whyTurn,
} from './why.ts'

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

const around: readonly SeamClass[] = ['outside', 'inside', 'top', 'bottom']
const corner: readonly SeamClass[] = ['inside', 'outside', 'top', 'bottom']

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

/**
 * Four tacks to a mitered joint, opposite corners first: of a ring outside, inside, top, bottom; of a corner of two pieces
 * inside first, so that the outside can still be opened. Two opposite ones else.
 */
function tacksOf(joint: Joint, seams: ByJoint<Seam>, inRing: boolean): Tack[] {
  const own = seams.get(joint.id) ?? []
  const said = sayJoint(joint.id)
  const chosen =
    joint.kind === 'miter'
      ? (inRing ? around : corner).flatMap((kind) => own.find((seam) => seam.class === kind) ?? [])
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
  const stage = assembly.name
  const tackStep = (tack: Tack): WeldStep => ({
    id: tack.id,
    kind: 'tack',
    assembly: assembly.id,
    stage,
    joint: tack.joint,
    seam: tack.seam,
    text: tack.text,
    why: whyTack(isRing, tacking, classOf(tack)),
  })
  const check = (id: string, text: string, joint?: Joint): WeldStep => ({
    id: `check:${id}`,
    kind: 'check',
    assembly: assembly.id,
    stage,
    ...(joint ? { joint: joint.id } : {}),
    text,
    why: whyCheck,
  })
  const of = (joint: Joint) => tacks.get(joint.id) ?? []
  const one = (joint: Joint): WeldStep[] => {
    const [head, ...others] = of(joint)
    if (!head) return []
    const said = sayJoint(joint.id)
    const text = joint.kind === 'cap' ? `Check that ${said} sits true.` : `Check ${said} for square.`
    return [tackStep(head), check(joint.id, text, joint), ...others.map(tackStep)]
  }
  const grouped = ({ id, stage: title, fit, joints }: Group): WeldStep[] => {
    const steps = joints.flatMap(one)
    if (steps.length === 0) return []
    const first: WeldStep = {
      id: `fit:${id}`,
      kind: 'fit',
      assembly: assembly.id,
      text: fit,
      why: whyClamp,
    }
    return [first, ...steps].map((step) => ({ ...step, stage: title }))
  }
  if (!isRing) return part.groups.length > 0 ? part.groups.flatMap(grouped) : part.joints.flatMap(one)
  const inJig = tacking === 'in a jig'
  const steps: WeldStep[] = [
    {
      id: `fit:${assembly.id}`,
      kind: 'fit',
      assembly: assembly.id,
      stage,
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
    // Outside corner tacks only, since these hinge; what is open stays open until the ring is tried.
    const halves = tacking === 'half rings' && ring.length % 2 === 0
    const open = halves ? [ring[0]!, ring[ring.length / 2]!] : ring.slice(-1)
    const outside = (joints: readonly Joint[]) =>
      joints.flatMap((joint) => of(joint).slice(0, 1)).map(tackStep)
    const tried = halves
      ? 'Lay both halves on the outline, share what is left over between the two open joints, check.'
      : 'Try it on the outline, close the last joint, check.'
    steps.push(
      ...outside(ring.filter((joint) => !open.includes(joint))),
      check(`${assembly.id}/outline`, tried),
      ...outside(open),
    )
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

const passStep = (seam: Seam, { id, name }: Assembly, coolest: boolean): WeldStep => ({
  id: `pass:${seam.id}`,
  kind: 'pass',
  assembly: id,
  stage: name,
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
  turned: () => string,
) {
  const { assembly } = part
  let turns = 0
  return stretches.flatMap((stretch): WeldStep[] => {
    if ('block' in stretch) {
      const seams = ordered(stretch.block)
      return seams.map((seam, at) => passStep(seam, assembly, seam !== stretch.block[at]))
    }
    turns += 1
    return [
      {
        id: turns === 1 ? `turn:${assembly.id}` : `turn:${assembly.id}/${turns}`,
        kind: 'turn',
        assembly: assembly.id,
        stage: assembly.name,
        text: `Turn the ${assembly.name.toLowerCase()} over: ${turned()}.`,
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

/** What is turned over, kg: the members of a sub-assembly and the plates welded to them, or all that is welded. */
function massOf(frame: Frame, { assembly, joints }: Part): number {
  const whole = assembly.members.length === 0
  const own = new Set(assembly.members)
  const welded = new Set(frame.joints.flatMap(({ members }) => members))
  const inJoints = new Set(joints.flatMap(({ members }) => members))
  const members = frame.members.filter(({ id }) => (whole ? welded : own).has(id))
  const plates = frame.plates.filter(({ id }) => (whole ? welded : inJoints).has(id))
  return (
    members.reduce((sum, of) => sum + (massPerLength(of.section) * meanLength(of)) / 1000, 0) +
    plates.reduce((sum, plate) => sum + plateMass(plate), 0)
  )
}

const sayMass = (kg: number, unit: Shop['mass']): string =>
  `${Math.max(1, Math.round(unit === 'lb' ? kg / pound : kg))} ${unit}`

/** Tacks and passes of a frame as one checklist, sub-assembly by sub-assembly. Common practice. */
export function weldPlan(frame: Frame, shop: Shop, touching = touchingOf(frame)): WeldPlan {
  const seams = seamsOf(frame, touching)
  const parts = partsToWeld(frame)
  const seamsAt = byJoint(seams)
  const tacks = parts.flatMap(({ joints, assembly }) =>
    joints.flatMap((joint) => tacksOf(joint, seamsAt, assembly.ring !== undefined)),
  )
  const tacksAt = byJoint(tacks)
  const stretches = blocksOf(parts, seamsAt, shop.passes)
  const blocks = stretches.flatMap((each) => each.flatMap((one) => ('block' in one ? [one.block] : [])))
  const cool = new Map(cooled(frame, blocks).map((seamsOfBlock, at) => [blocks[at]!, seamsOfBlock]))
  const tapped = frame.plates.filter((plate) => plate.thread)
  const clean: readonly WeldStep[] =
    seams.length === 0
      ? []
      : [
          {
            id: 'fit:clean',
            kind: 'clean',
            assembly: parts[0]?.assembly.id ?? 'all',
            stage: 'Before the first tack',
            text: 'Clean scale, oil and paint off wherever a weld goes, about 1 in (25 mm) each way.',
            why: whyClean,
          },
        ]
  const pilot: WeldStep[] =
    tapped.length > 0
      ? [
          {
            id: 'check:pilot',
            kind: 'drill',
            assembly: parts[0]?.assembly.id ?? 'all',
            stage: 'Before the first tack',
            text: `Drill the pilot holes in the ${tappedIn(tapped)}, before they are welded on.`,
            why: whyPilot,
          },
        ]
      : []
  const turns = stretches.flat().filter((one) => 'turn' in one).length
  let turn = 0
  const steps: WeldStep[] = [
    ...clean,
    ...pilot,
    ...parts.flatMap((part, at) => [
      ...tackSteps(part, tacksAt, shop.tacking),
      ...passSteps(
        part,
        stretches[at]!,
        (block) => cool.get(block) ?? block,
        () => {
          turn += 1
          return `turn ${turn} of ${turns}, about ${sayMass(massOf(frame, part), shop.mass)}`
        },
      ),
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
        stage: plate.name,
        text: `Tack the ${plate.name.toLowerCase()} at its corners only.`,
        why: whySheet,
      },
      {
        id: `check:${plate.id}`,
        kind: 'check',
        assembly: plate.id,
        stage: plate.name,
        text: `Check that the ${plate.name.toLowerCase()} lies flat.`,
        why: whyCheck,
      },
    )
  if (tapped.length > 0)
    steps.push({
      id: 'check:tapped',
      kind: 'drill',
      assembly: 'all',
      stage: 'When all is welded',
      text: `Drill and tap ${tapped[0]!.thread} in the ${tappedIn(tapped)}, after welding.`,
      why: whyTapped,
    })
  const order: string[] = []
  for (const step of steps)
    if (step.kind === 'turn') order.push(step.id)
    else if (step.kind === 'pass' && step.seam) order.push(step.seam)
  return { seams, tacks, order, round: blocks.flat().map(({ id }) => id), steps }
}
