import { closedTubes } from '../../core/finish/vents.ts'
import { oneLift, overOneLift } from '../../core/parts/weight.ts'
import type { Plan, WeldStep } from '../../core/plan-shapes.ts'
import { showMass } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { ampsFor, leastShade } from '../../core/weld/shade.ts'

// Cautions stand at the step where the danger is. They are said once, where it begins, and defer to local codes, the
// machine's manual and licensed people. Sources stand beside each; a rule without one is common practice.

const fume =
  'its fume makes ill (zinc, cadmium, lead, chromium). Grind or strip the coating back well past both sides of the joint, draw the fume away and keep your head out of it. When in doubt what the coating is, do not weld it.'
// 29 CFR 1910.252(c); strip-back width is common practice and not given here.

const ifCoated = `If any of it is galvanized, plated or painted: ${fume}`
const coated = `This steel is coated: ${fume}`

const hotWork =
  'Before the first arc: nothing that burns within 35 ft (11 m), or shielded; extinguisher at hand; somebody watches for fire for at least half an hour after the last arc. Local codes may ask for more.'
// 29 CFR 1910.252(a)(2).

const wear =
  'Hood with the shade your process needs, glasses under it, dry gloves, skin covered, others screened from the arc. The welding machine’s manual comes first; wiring and outlets are work for a licensed electrician.'
// 29 CFR 1910.133(a)(5), 1910.252(b); electric supply: common practice.

const closed =
  'A tube welded shut on both ends needs a small vent hole first: hot air inside blows out the last of the weld, and a closed tube can burst in a galvanizing bath or an oven.'
// Common practice; ASTM A385 for vents, from memory.

const air =
  'Fresh air or a hood at the arc indoors. In a small or closed room, a trailer, a tank or a pit it takes more than that, also against the shielding gas: such a confined space is work for people trained for it, by local rules.'
// 29 CFR 1910.252(c)(2) to (4); 29 CFR 1910.146 for confined spaces, from memory.

const hot = 'The steel is hot and looks cold: mark it HOT.'
// Common practice.

const tapping = 'Clamp the work before drilling, no gloves near the drill, ease off as it breaks through.'
// Common practice.

const turnIt = 'turn it with a second person or a hoist, and nobody under it.'
const liftIt = 'lift it with a second person or a hoist; a bad grip or a long reach makes it less.'

const clamps =
  'Clamps under load jump off: keep your face out of their line, and nothing on the table that can roll or slide.'
// Common practice.

/** Shade for the thickest wall that is welded: 1 A to the thousandth of an inch, and the least for that current. */
function shade(plan: Plan): string {
  const wall = Math.max(0, ...plan.weld.seams.map(({ size }) => size))
  if (wall === 0) return ''
  const amps = ampsFor(wall)
  return ` For wire at about ${Math.round(amps / 5) * 5} A: shade ${leastShade(amps)} at least; begin darker.`
}
// 29 CFR 1910.133(a)(5); the current is a rule of thumb, reference.md 5.5.

const isFirst = (steps: readonly WeldStep[], step: WeldStep, like: (one: WeldStep) => boolean): boolean =>
  steps.find(like)?.id === step.id

/** A grade that says that the steel has a coat. */
const coats = /galv|zinc|coat|plated|paint|prime/i

const isCoated = ({ frame }: Plan): boolean =>
  frame.members.some(({ section: { grade } }) => grade !== undefined && coats.test(grade))

/** Cautions for one step, none where nothing new begins; `unit` is what the shop weighs in. */
export function cautionsFor(step: WeldStep, plan: Plan, unit: Shop['mass']): readonly string[] {
  const { steps } = plan.weld
  const coating = isCoated(plan) ? coated : ifCoated
  const joint = plan.frame.joints.find((one) => one.id === step.joint)
  const said: string[] = []
  const kg = step.kg ?? 0
  if (isFirst(steps, step, (one) => one.kind === 'clean' || one.kind === 'fit' || one.kind === 'tack'))
    said.push(coating)
  if (isFirst(steps, step, (one) => one.kind === 'tack')) said.push(hotWork, wear + shade(plan))
  if (isFirst(steps, step, (one) => one.kind === 'pass')) said.push(air, coating, wear)
  const isCap = (one: WeldStep) =>
    one.kind === 'tack' && plan.frame.joints.some(({ id, kind }) => id === one.joint && kind === 'cap')
  if (joint?.kind === 'cap' && isFirst(steps, step, isCap)) said.push(closed)
  // A ring is shut by its last seams; where caps shut the tubes it was said there.
  const shuts = (one: WeldStep) => one.kind === 'pass'
  if (isFirst(steps, step, shuts) && !steps.some(isCap) && closedTubes(plan.frame).length > 0)
    said.push(closed)
  if (step.kind === 'fit' && isFirst(steps, step, (one) => one.kind === 'fit' && /clamp/i.test(one.text)))
    said.push(clamps)
  if (kg > oneLift)
    said.push(
      `About ${showMass(kg, unit)} by estimate, ${overOneLift}: ${step.kind === 'turn' ? turnIt : liftIt}`,
    )
  if (step.kind === 'turn') said.push(hot)
  if (step.id === 'check:pilot') said.push(tapping)
  if (step.id === 'check:tapped') said.push(hot, tapping)
  return said
}
