import type { Frame } from '../frame/frame.ts'
import type { SeamClass, WeldPlan } from '../plan-shapes.ts'
import { jointNames } from '../weld/joint-name.ts'
import { feetOf, standsOnFloor } from './floor.ts'
import { closedTubes } from './vents.ts'

/** One thing to do at Finish; facts name its id. */
export interface FinishStep {
  readonly id: string
  readonly group: 'grind' | 'drill and tap' | 'coat' | 'level'
  readonly text: string
  readonly why: string
  /** Of work that is the same at many joints: what it is, and which joint this one is of. */
  readonly each?: { readonly text: string; readonly joint: string }
}

const flats: readonly SeamClass[] = ['top', 'bottom', 'square groove']
const corners: readonly SeamClass[] = ['outside']

/**
 * What is left to do when all is welded, for each joint that has something to grind: flats first, then the corner is
 * blended to the radius of the tube. Fillets and flares stay as they are welded. Common practice.
 */
export function finishSteps(frame: Frame, weld: WeldPlan): readonly FinishStep[] {
  const steps: FinishStep[] = []
  const names = jointNames(frame)
  const sayJoint = (id: string): string => {
    const name = names.get(id) ?? id
    return name.charAt(0).toUpperCase() + name.slice(1)
  }
  for (const { id } of frame.joints) {
    const own = weld.seams.filter(({ joint }) => joint === id)
    const has = (kinds: readonly SeamClass[]) => own.some((seam) => kinds.includes(seam.class))
    if (has(flats))
      steps.push({
        id: `finish:grind:${id}/flats`,
        group: 'grind',
        text: `${sayJoint(id)}: grind the flats level with the tube.`,
        why: 'Flats first: they guide the disc when the corner is blended.',
        each: { text: 'Grind the flats level with the tube', joint: sayJoint(id) },
      })
    if (has(corners))
      steps.push({
        id: `finish:grind:${id}/corner`,
        group: 'grind',
        text: `${sayJoint(id)}: blend the corner to the radius of the tube.`,
        why: 'A corner ground flat shows under any paint.',
        each: { text: 'Blend the corner to the radius of the tube', joint: sayJoint(id) },
      })
  }
  steps.push({
    id: 'finish:grind:edges',
    group: 'grind',
    text: 'Soften every edge that a hand can reach; fill nicks from torch and disc, and grind them again.',
    why: 'What cuts a hand cuts a customer.',
  })
  const top = frame.plates.find(({ scribed }) => scribed !== undefined)
  if (top)
    steps.push({
      id: 'finish:grind:top',
      group: 'grind',
      text: `Dress the cut edge of the ${top.name.toLowerCase()} to the scribed line, and take the burr off both faces.`,
      why: 'It was cut last, by hand: its edge is the one that is seen.',
    })
  const tapped = frame.plates.filter((plate) => plate.thread !== undefined)
  if (tapped.length > 0)
    steps.push(
      tapped.every(({ holes }) => holes.length === 1)
        ? {
            id: 'finish:tap:centers',
            group: 'drill and tap',
            text: 'Find the middle of each cap: a cross from corner to corner, a punch mark where it meets.',
            why: 'A leveler out of the middle stands under the edge of the tube.',
          }
        : {
            id: 'finish:tap:centers',
            group: 'drill and tap',
            text: 'Look for the punch mark of each hole; mark anew from the plate’s drawing what the heat has hidden.',
            why: 'Feet at unequal distances leave the table standing askew on them.',
          },
      {
        id: 'finish:tap:holes',
        group: 'drill and tap',
        text: 'Drill, countersink, tap; back the tap off at every half turn, with cutting oil.',
        why: 'Chips that are not broken off break the tap.',
      },
    )
  const closed = closedTubes(frame)
  if (closed.length > 0)
    steps.push({
      id: 'finish:vents',
      group: 'coat',
      text: `Make sure that ${closed.length === 1 ? 'the closed tube has its' : `each of the ${closed.length} closed tubes has a`} vent hole, about 1/8 in (3 mm), where it does not show.`,
      why: 'A tube without one can burst in the oven or the galvanizing bath.',
    })
  steps.push(
    {
      id: 'finish:scale',
      group: 'coat',
      text: 'Scale off wherever a coat goes on; leave it where the bare look is wanted.',
      why: 'A coat on scale comes off with the scale.',
    },
    {
      id: 'finish:clean',
      group: 'coat',
      text: `Spatter and glassy islands off the welds, degrease${tapped.length > 0 ? ', plug the tapped holes' : ''}.`,
      why: `Nothing holds on grease${tapped.length > 0 ? ', and no foot turns into a painted thread' : ''}.`,
    },
    {
      id: 'finish:coat',
      group: 'coat',
      text: 'Prime or coat the same shift.',
      why: 'Bare clean steel rusts within hours.',
    },
  )
  const feet = feetOf(frame).length
  if (feet > 0)
    steps.push({
      id: 'finish:level',
      group: 'level',
      text: `Stand it on its floor, or on ${feet} blocks of one height, and turn the feet until it does not rock.`,
      why: 'A level that was set on a bench is no level on a floor.',
    })
  else if (standsOnFloor(frame))
    steps.push({
      id: 'finish:level',
      group: 'level',
      text: 'Stand it on a flat floor. If it rocks, grind off what stands too long, or shim what stands short.',
      why: 'It has no feet that turn: what is uneven now stays uneven.',
    })
  return steps
}
