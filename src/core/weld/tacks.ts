import type { Joint } from '../frame/frame.ts'
import type { Seam, SeamClass, Tack } from '../plan-shapes.ts'

// Where a joint is tacked, in which order, and what that is called. Common practice.

/** Of joints, by id. */
export type Names = ReadonlyMap<string, string>

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

export function saySeam({ id, joint }: Seam): string {
  const name = id.slice(joint.length + 1)
  return name.includes('-') ? name.replaceAll('-', ' ') : name
}

const around: readonly SeamClass[] = ['outside', 'inside', 'top', 'bottom']
const corner: readonly SeamClass[] = ['inside', 'outside', 'top', 'bottom']

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

/** The side of a mitered joint that a tack is on. */
export const sideOf = ({ seam }: Tack): SeamClass | undefined =>
  around.find((kind) => seam.endsWith(`/${kind}`))
