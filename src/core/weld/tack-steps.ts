import type { Frame, Joint } from '../frame/frame.ts'
import type { Seam, SeamClass, Tack, WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import type { Lies } from './lying.ts'
import { opposite } from './opposite.ts'
import { type Group, groupsOf, type Part } from './parts-to-weld.ts'
import { whyCheck, whyClamp, whyFit, whyTack } from './why.ts'

// Tacks and checks of a part before it is welded: a ring in a jig, piece by piece or as half rings, anything else joint
// by joint. Common practice.

export type Names = ReadonlyMap<string, string>

export function saySeam({ id, joint }: Seam): string {
  const name = id.slice(joint.length + 1)
  return name.includes('-') ? name.replaceAll('-', ' ') : name
}

const around: readonly SeamClass[] = ['outside', 'inside', 'top', 'bottom']
const corner: readonly SeamClass[] = ['inside', 'outside', 'top', 'bottom']

/** What belongs to a joint, in the order in which it is given. */
export type ByJoint<T> = ReadonlyMap<string, readonly T[]>

export function byJoint<T extends { readonly joint: string }>(all: readonly T[]): ByJoint<T> {
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
export function tacksOf(joint: Joint, seams: ByJoint<Seam>, inRing: boolean, names: Names): Tack[] {
  const own = seams.get(joint.id) ?? []
  const said = names.get(joint.id)
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
export function tackSteps(
  frame: Frame,
  part: Part,
  tacks: ByJoint<Tack>,
  tacking: Shop['tacking'],
  names: Names,
  lies: Lies,
): WeldStep[] {
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
    const said = names.get(joint.id)
    const text = joint.kind === 'cap' ? `Check that ${said} sits true.` : `Check ${said} for square.`
    return [tackStep(head), check(joint.id, text, joint), ...others.map(tackStep)]
  }
  const laid = new Set<string>()
  /** How it lies, said once, and what goes under what is put to it now. */
  const under = (members: readonly string[], first: boolean): Pick<WeldStep, 'under'> => {
    const fresh = new Set(members.filter((id) => !laid.has(id)))
    for (const id of fresh) laid.add(id)
    const lines = [...(first && lies.text !== undefined ? [lies.text] : []), ...lies.under(fresh)]
    return lines.length > 0 ? { under: lines } : {}
  }
  const grouped = ({ id, stage: title, fit, joints }: Group, at: number): WeldStep[] => {
    const steps = joints.flatMap(one)
    if (steps.length === 0) return []
    const first: WeldStep = {
      id: `fit:${id}`,
      kind: 'fit',
      assembly: assembly.id,
      text: fit,
      why: whyClamp,
      ...under(
        joints.flatMap(({ members }) => members),
        at === 0,
      ),
    }
    return [first, ...steps].map((step) => ({ ...step, stage: title }))
  }
  if (assembly.id === 'caps')
    return [
      {
        id: 'fit:caps',
        kind: 'fit',
        assembly: assembly.id,
        stage,
        text: 'Clamp each cap on the end of its tube, even on all sides.',
        why: whyClamp,
      },
      ...part.joints.flatMap(one),
    ]
  if (!isRing) {
    const grown = groupsOf(frame, part, lies.up ?? [0, 0, 1]).flatMap(grouped)
    const last = check(
      `${assembly.id}/tacked`,
      'Check the whole once more, both diagonals and what must stand square; brush the soot off the tacks.',
    )
    return grown.length > 0 ? [...grown, last] : []
  }
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
      ...under(assembly.members, true),
    },
  ]
  if (inJig) {
    for (const joint of opposite(ring)) {
      const [head, ...others] = of(joint)
      if (head) steps.push(tackStep(head))
      steps.push(check(joint.id, `Check the angle at ${names.get(joint.id)}.`, joint))
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
