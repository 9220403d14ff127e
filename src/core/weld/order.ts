import type { Assembly, Frame } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import type { Seam, WeldPlan, WeldStep } from '../plan-shapes.ts'
import { pound } from '../reading/show.ts'
import type { Shop } from '../shop.ts'
import { bestOrder } from './best-order.ts'
import { heatQuestion } from './heat-plan.ts'
import { jointNames } from './joint-name.ts'
import { calledIn, type Lies, liesOf, liftedMass, turnedMass } from './lying.ts'
import { type Part, partsToWeld } from './parts-to-weld.ts'
import { type Stretch, stretchesOf } from './passes.ts'
import { seamsOf } from './seams.ts'
import { sheetSteps, stepsAfter, stepsBefore } from './steps-around.ts'
import { tackSteps } from './tack-steps.ts'
import { type ByJoint, byJoint, type Names, saySeam, tacksOf } from './tacks.ts'
import { whyPass, whyTurn } from './why.ts'

const passStep = (seam: Seam, { id, name }: Assembly, names: Names, coolest: boolean): WeldStep => ({
  id: `pass:${seam.id}`,
  kind: 'pass',
  assembly: id,
  stage: name,
  joint: seam.joint,
  seam: seam.id,
  text: `Weld ${names.get(seam.joint)}, ${saySeam(seam)}`,
  why: whyPass(seam.class, coolest),
})

/** Passes of all sub-assemblies in their blocks, the seams of a block as one goes round. */
function blocksOf(
  parts: readonly Part[],
  lies: readonly Lies[],
  seams: ByJoint<Seam>,
  passes: Shop['passes'],
) {
  return parts.map((part, at) => {
    const ring = part.assembly.ring ?? []
    const place = new Map(ring.map((id, at) => [id, at]))
    const joints = [...part.joints].sort((a, b) => (place.get(a.id) ?? 0) - (place.get(b.id) ?? 0))
    const own = joints.flatMap((joint) => seams.get(joint.id) ?? [])
    return stretchesOf(own, passes, lies[at]!.up)
  })
}

/** More seams than this are welded as one goes round: how near every two of them are would fill the memory of a tablet. */
const mostOrdered = 2000

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
  names: Names,
  ordered: (block: readonly Seam[]) => readonly Seam[],
  turned: () => { readonly text: string; readonly kg: number },
) {
  const { assembly } = part
  const what = assembly.members.length === 0 ? 'it all' : calledIn(assembly)
  let turns = 0
  return stretches.flatMap((stretch): WeldStep[] => {
    if ('block' in stretch) {
      const seams = ordered(stretch.block)
      return seams.map((seam, at) => passStep(seam, assembly, names, seam !== stretch.block[at]))
    }
    turns += 1
    const { text, kg } = turned()
    return [
      {
        id: turns === 1 ? `turn:${assembly.id}` : `turn:${assembly.id}/${turns}`,
        kind: 'turn',
        assembly: assembly.id,
        stage: assembly.name,
        text: `Turn ${what} over: ${text}.`,
        why: whyTurn,
        kg,
      },
    ]
  })
}

const sayMass = (kg: number, unit: Shop['mass']): string =>
  `${Math.max(1, Math.round(unit === 'lb' ? kg / pound : kg))} ${unit}`

/** The first step of a part says what is lifted to it. */
const withLift = ([first, ...rest]: readonly WeldStep[], kg: number): readonly WeldStep[] =>
  first ? [kg > 0 ? { ...first, kg } : first, ...rest] : []

/** Tacks and passes of a frame as one checklist, sub-assembly by sub-assembly. Common practice. */
export function weldPlan(frame: Frame, shop: Shop, touching = touchingOf(frame)): WeldPlan {
  const seams = seamsOf(frame, touching)
  const parts = partsToWeld(frame)
  const names = jointNames(frame)
  const lies = liesOf(frame, parts, touching, shop.reading)
  const seamsAt = byJoint(seams)
  const tacks = parts.flatMap(({ joints, assembly }) =>
    joints.flatMap((joint) => tacksOf(joint, seamsAt, assembly.ring !== undefined, names)),
  )
  const tacksAt = byJoint(tacks)
  const stretches = blocksOf(parts, lies, seamsAt, shop.passes)
  const blocks = stretches.flatMap((each) => each.flatMap((one) => ('block' in one ? [one.block] : [])))
  const cool = new Map(cooled(frame, blocks).map((seamsOfBlock, at) => [blocks[at]!, seamsOfBlock]))
  const turns = stretches.flat().filter((one) => 'turn' in one).length
  let turn = 0
  const steps: WeldStep[] = [
    ...stepsBefore(frame, seams, parts[0]?.assembly.id ?? 'all'),
    ...parts.flatMap((part, at) => [
      ...withLift(
        tackSteps(frame, part, tacksAt, shop.tacking, names, lies[at]!),
        liftedMass(frame, parts, at),
      ),
      ...passSteps(
        part,
        stretches[at]!,
        names,
        (block) => cool.get(block) ?? block,
        () => {
          turn += 1
          const kg = turnedMass(frame, parts, at)
          return { text: `turn ${turn} of ${turns}, about ${sayMass(kg, shop.mass)}`, kg }
        },
      ),
    ]),
    ...sheetSteps(frame, shop.reading),
    ...stepsAfter(frame),
  ]
  const order: string[] = []
  for (const step of steps)
    if (step.kind === 'turn') order.push(step.id)
    else if (step.kind === 'pass' && step.seam) order.push(step.seam)
  return { seams, tacks, order, round: blocks.flat().map(({ id }) => id), steps }
}
