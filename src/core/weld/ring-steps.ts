import type { Joint } from '../frame/frame.ts'
import type { WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import { opposite } from './opposite.ts'
import type { PartSteps } from './part-steps.ts'
import { whyFit } from './why.ts'

/** A ring laid on its outline and tacked: in a jig, as half rings, or piece by piece. `under` is what goes under it. */
export function ringSteps(of: PartSteps, tacking: Shop['tacking'], under: readonly string[]): WeldStep[] {
  const { assembly, part } = of
  const joints = new Map(part.joints.map((joint) => [joint.id, joint]))
  const ring = (assembly.ring ?? []).flatMap((id) => joints.get(id) ?? [])
  const name = assembly.name.toLowerCase()
  const inJig = tacking === 'in a jig'
  const laid = inJig
    ? `Clamp all parts of the ${name} on the outline, the side that will show down on a clean surface; check that the ring closes and lies flat.`
    : `Lay the ${name} on the outline, the side that will show down on a clean surface.`
  return [
    of.fit(assembly.id, laid, whyFit, under),
    ...(inJig ? clamped(of, ring) : hinged(of, ring, tacking)),
    of.check(
      `${assembly.id}/tacked`,
      'Check across corners and that it lies flat before welding; brush the soot off the tacks.',
    ),
  ]
}

/** Joints opposite each other in turn: one tack, a look at the angle, the other tacks. */
const clamped = (of: PartSteps, ring: readonly Joint[]): WeldStep[] =>
  opposite(ring).flatMap((joint) => {
    const [first, ...others] = of.tacksOf(joint).map(of.tack)
    const check = of.check(joint.id, `Check the angle at ${of.said(joint)}.`, joint)
    return [...(first ? [first] : []), check, ...others]
  })

/** Tacks at outside corners only, since these hinge; what is open stays open until the ring is tried. */
function hinged(of: PartSteps, ring: readonly Joint[], tacking: Shop['tacking']): WeldStep[] {
  const halves = tacking === 'half rings' && ring.length % 2 === 0
  const open = halves ? [ring[0]!, ring[ring.length / 2]!] : ring.slice(-1)
  const tacks = (joints: readonly Joint[], at: number) =>
    joints.flatMap((joint) => of.tacksOf(joint).slice(at, at + 1)).map(of.tack)
  const tried = halves
    ? 'Lay both halves on the outline, share what is left over between the two open joints, check.'
    : 'Try it on the outline, close the last joint, check.'
  return [
    ...tacks(
      ring.filter((joint) => !open.includes(joint)),
      0,
    ),
    of.check(`${of.assembly.id}/outline`, tried),
    ...tacks(open, 0),
    ...tacks(ring, 1),
    of.check(`${of.assembly.id}/inside`, 'Check the angles and that it lies flat.'),
    ...tacks(ring, 2),
    ...tacks(ring, 3),
  ]
}
