import type { Plan } from '../core/plan-shapes.ts'
import { type MarkingOut, markingOut } from '../core/plates/marking-out.ts'
import { scribedWords } from '../core/plates/scribed.ts'
import type { Mm } from '../core/units.ts'

/** A plate as it is marked out, from two edges that are square to each other, once for all that are alike. */
export interface LaidPlate extends MarkingOut {
  readonly mark: string
  readonly name: string
  /** Of the whole order. */
  readonly count: number
  readonly thickness: Mm
  readonly thread?: string
  /** How it is marked where it is cut last, from the frame as built. */
  readonly scribed?: string
}

/** Every plate of the job once, with how many there are. */
export function laidPlates(plan: Plan, say: (mm: Mm) => string): readonly LaidPlate[] {
  const marks = [...new Set(plan.plates.map(({ mark }) => mark))]
  return marks.flatMap((mark) => {
    const same = plan.plates.filter((each) => each.mark === mark)
    const plate = plan.frame.plates.find(({ id }) => id === same[0]?.id)
    if (!plate) return []
    const { thickness, thread } = plate
    const scribed = scribedWords(plate, say)
    const count = same.length * plan.quantity
    return [
      {
        mark,
        name: same[0]!.name,
        count,
        thickness,
        ...(thread ? { thread } : {}),
        ...(scribed ? { scribed } : {}),
        ...markingOut(plate),
      },
    ]
  })
}
