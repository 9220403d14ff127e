import type { Frame, Joint } from '../frame/frame.ts'
import type { Tack, WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import type { Lies } from './lying.ts'
import { type PartSteps, partSteps } from './part-steps.ts'
import { groupsOf, type Part } from './parts-to-weld.ts'
import { ringSteps } from './ring-steps.ts'
import type { ByJoint, Names } from './tacks.ts'
import { whyClamp } from './why.ts'

// Tacks and checks of a part before it is welded: a ring in a jig, piece by piece or as half rings, anything else joint
// by joint. Common practice.

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
  const of = partSteps(part, tacks, tacking, names)
  if (assembly.id === 'caps')
    return [
      of.fit('caps', 'Clamp each cap on the end of its tube, even on all sides.', whyClamp),
      ...part.joints.flatMap((joint) => oneByOne(of, joint)),
    ]
  const under = puttingUnder(lies)
  return assembly.ring === undefined
    ? grownSteps(frame, of, lies, under)
    : ringSteps(of, tacking, under(assembly.members))
}

/** Joint by joint, kind by kind of joint, from the table up. */
function grownSteps(frame: Frame, of: PartSteps, lies: Lies, under: Under): WeldStep[] {
  const groups = groupsOf(frame, of.part, lies.up ?? [0, 0, 1])
  const standing = groups.some(({ flat }) => !flat)
  const steps = groups.flatMap(({ id, stage, fit, flat, joints }) => {
    const own = joints.flatMap((joint) => oneByOne(of, joint))
    if (own.length === 0) return []
    const members = joints.flatMap((joint) => joint.members)
    // Corners that lie flat by themselves stand on nothing yet.
    const lines = flat && standing ? [] : under(members)
    return [of.fit(id, fit, whyClamp, lines), ...own].map((step) => ({ ...step, stage }))
  })
  if (steps.length === 0) return []
  const whole =
    'Check the whole once more, both diagonals and what must stand square; brush the soot off the tacks.'
  return [...steps, of.check(`${of.assembly.id}/tacked`, whole)]
}

/** The first tack, a look at how it sits, the other tacks. */
function oneByOne(of: PartSteps, joint: Joint): WeldStep[] {
  const [first, ...others] = of.tacksOf(joint).map(of.tack)
  if (!first) return []
  const said = of.said(joint)
  const text = joint.kind === 'cap' ? `Check that ${said} sits true.` : `Check ${said} for square.`
  return [first, of.check(joint.id, text, joint), ...others]
}

/** Lines for members that are put to the part now. */
type Under = (members: readonly string[]) => readonly string[]

/** How a part lies, said with what is laid first, and what goes under whatever is put to it, said once of each. */
function puttingUnder({ text, under }: Lies): Under {
  const laid = new Set<string>()
  return (members) => {
    const said = laid.size === 0 && text !== undefined ? [text] : []
    const fresh = new Set(members.filter((id) => !laid.has(id)))
    for (const id of fresh) laid.add(id)
    return [...said, ...under(fresh)]
  }
}
