import type { Assembly, Joint } from '../frame/frame.ts'
import type { Tack, WeldStep } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import type { Part } from './parts-to-weld.ts'
import { type ByJoint, type Names, sideOf } from './tacks.ts'
import { whyCheck, whyTack } from './why.ts'

/** What a part is tacked by, and how its steps are written. */
export interface PartSteps {
  readonly part: Part
  readonly assembly: Assembly
  /** In the order in which a joint is tacked. */
  tacksOf(joint: Joint): readonly Tack[]
  said(joint: Joint): string
  tack(tack: Tack): WeldStep
  check(id: string, text: string, joint?: Joint): WeldStep
  fit(id: string, text: string, why: string, under?: readonly string[]): WeldStep
}

export function partSteps(
  part: Part,
  tacks: ByJoint<Tack>,
  tacking: Shop['tacking'],
  names: Names,
): PartSteps {
  const { assembly } = part
  const own = { assembly: assembly.id, stage: assembly.name }
  const isRing = assembly.ring !== undefined
  return {
    part,
    assembly,
    tacksOf: ({ id }) => tacks.get(id) ?? [],
    said: ({ id }) => names.get(id) ?? id,
    tack: (tack) => ({
      id: tack.id,
      kind: 'tack',
      ...own,
      joint: tack.joint,
      seam: tack.seam,
      text: tack.text,
      why: whyTack(isRing, tacking, sideOf(tack)),
    }),
    check: (id, text, joint) => ({
      id: `check:${id}`,
      kind: 'check',
      ...own,
      ...(joint && { joint: joint.id }),
      text,
      why: whyCheck,
    }),
    fit: (id, text, why, under = []) => ({
      id: `fit:${id}`,
      kind: 'fit',
      ...own,
      text,
      why,
      ...(under.length > 0 && { under }),
    }),
  }
}
