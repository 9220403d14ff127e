import type { Warning } from '../frame/frame.ts'
import { sawFor } from '../parts/demand.ts'
import type { Part } from '../plan-shapes.ts'
import { showAngle } from '../reading/show.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameSlope } from '../tolerance.ts'
import { type Deg, toDeg } from '../units.ts'

/** Greatest miter that the saw makes on one side or the other. */
export const mostMiter = ({ limits }: Saw): Deg => Math.max(limits.towardStop, limits.awayFromStop)

/** Cuts of these parts that the saw of their section cannot make, each with a way out. Common practice. */
export function sawWarnings(parts: readonly Part[], shop: Shop): Warning[] {
  return parts.flatMap((part): Warning[] => {
    const saw = sawFor(shop, part.section)
    const most = mostMiter(saw)
    const beyond = Math.max(...part.angleFromSquare)
    const say = (angle: Deg) => showAngle(angle, shop.reading).text
    const compound = part.slopes.some(({ p, q }) => Math.abs(p) > sameSlope && Math.abs(q) > sameSlope)
    if (compound && saw.limits.bevel === 0)
      return [
        {
          code: 'compound-cut',
          text: `Part ${part.mark} has an end that leans both ways; ${saw.name} swings and does not tilt. Cut it from a cradle or on a ramp, and measure and mark it.`,
          members: part.members,
        },
      ]
    if (beyond <= most + toDeg(sameSlope)) return []
    // The head the other way takes the rest from a wedge block.
    const block = beyond / 2
    return [
      {
        code: 'beyond-the-saw',
        text:
          `Part ${part.mark}: ${say(beyond)} from square is more than ${saw.name} swings, ${say(most)}. ` +
          `A way out: a ${say(block)} wedge block against the fence and the head at ${say(block)} the other way; ` +
          'or a long blank held lengthwise; or a butt joint instead of the miter.',
        members: part.members,
      },
    ]
  })
}
