import type { SeamClass } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'

// Why a step stands where it stands, in one line. Common practice; that the inside weld pulls the corner closed and that
// opposite joints are welded in turn: reference.md section 6, there common practice as well.

export const whyFit = 'What does not close now is not closed by welding.'
export const whyClamp = 'What is clamped true while the tacks cool stays true.'
export const whyClean = 'Scale and oil in the puddle make holes, and paint makes bad fume.'
export const whyCheck = 'A tack can still be broken; a weld cannot.'
export const whyTurn = 'All that can be reached from this side is done.'
export const whyPilot = 'A hole is started in a cap that still lies flat under the drill.'
export const whyTapped = 'Welding pulls a finished thread out of round: it is cut when the heat is out.'
export const whyScribe = 'A frame is never quite the one drawn: a top that is scribed from it fits.'
export const whySheet = 'A thin sheet that is welded all round buckles; it is held at its corners only.'

export function whyTack(ring: boolean, tacking: Shop['tacking'], kind: SeamClass | undefined): string {
  if (!ring && kind === 'inside')
    return 'Inside first: the corner can still be opened or closed about it until the check says yes.'
  if (!ring) return 'A tack holds, and can still be broken when the check says no.'
  if (tacking === 'in a jig')
    return 'Joints opposite each other in turn, so that one pulls back what the other pulled.'
  if (kind === 'outside')
    return 'Outside first, round the frame: these tacks hinge, so the ring can still be closed.'
  return 'The other sides once the outside tacks have closed the ring.'
}

const passOf: Partial<Record<SeamClass, string>> = {
  outside: 'Upright seams first: they decide the angle of the corner.',
  inside: 'The inside weld pulls the corner closed; the outside one holds it by now.',
  top: 'Tops together: they decide whether the frame lies flat.',
  bottom: 'Bottoms pull back what the tops pulled.',
  edge: 'The cap takes little heat: one edge of each in turn.',
}

/** A pass: its class says when, the heat of the seams before it says which one of them is next. */
export const whyPass = (kind: SeamClass, coolest: boolean): string =>
  `${passOf[kind] ?? 'One seam of each joint in turn, so that no joint takes all its heat at once.'}${
    coolest ? ' This one lies farthest from the heat of those before.' : ''
  }`
