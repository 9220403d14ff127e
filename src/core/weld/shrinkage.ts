import type { Frame, Joint, Measure, Member } from '../frame/frame.ts'
import { axisX } from '../geometry/pose.ts'
import { dot, scale } from '../geometry/vec3.ts'
import type { Shrinkage } from '../job.ts'
import type { Plan } from '../plan-shapes.ts'
import type { Mm } from '../units.ts'

// What welds draw in. A joint is taken to draw in one figure of its kind on the line that is measured: a mitered frame
// is drawn in by it on every side, whatever the angle of its corners; a member that stops on another gets shorter by it.

export type Drawn = keyof Shrinkage

export const drawnKinds: readonly Drawn[] = ['miter', 'butt', 'flat', 'saddle']

/** How many joints of each kind a size crosses: a weld that draws in by 1 mm at each makes it smaller by so many mm. */
export type Crossed = Readonly<Partial<Record<Drawn, number>>>

/** The share of a joint that counts along a member which ends in it. Caps draw nothing in along their member. */
function shareOf(joint: Joint, of: Member, end: 'A' | 'B', members: ReadonlyMap<string, Member>): number {
  if (joint.kind !== 'miter') return 1 / Math.abs(of.ends[end === 'A' ? 0 : 1].normal[0])
  const other = joint.members.findIndex((id) => id !== of.id)
  const mate = members.get(joint.members[other] ?? '')
  if (!mate) return 0
  const away = (one: Member, at: 'A' | 'B' | 'side') => scale(axisX(one.pose), at === 'B' ? -1 : 1)
  // A side moved out by 1 mm lengthens its neighbors by tan(half of the turn) at the corner between them.
  const cos = dot(away(of, end), away(mate, joint.ends[other]!))
  return Math.sqrt((1 + cos) / (1 - cos))
}

export function crossedBy(frame: Pick<Frame, 'members' | 'joints'>, { terms }: Measure): Crossed {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const crossed: Partial<Record<Drawn, number>> = {}
  for (const joint of frame.joints)
    for (const [at, id] of joint.members.entries()) {
      const { kind } = joint
      const end = joint.ends[at]
      const of = members.get(id)
      if (!of || kind === 'cap' || (end !== 'A' && end !== 'B')) continue
      const factor = terms.reduce((sum, term) => sum + (term.member === id ? term.factor : 0), 0)
      if (factor !== 0) crossed[kind] = (crossed[kind] ?? 0) + factor * shareOf(joint, of, end, members)
    }
  return crossed
}

/** By how much each asked parameter is planned larger, mm; empty where nothing is. */
export function enlarged(frame: Frame, shrinkage: Shrinkage): Readonly<Record<string, Mm>> {
  const more: Record<string, Mm> = {}
  for (const measure of frame.measures) {
    if (!measure.asked || measure.param === undefined) continue
    const crossed = crossedBy(frame, measure)
    const mm = drawnKinds.reduce((sum, kind) => sum + (shrinkage[kind] ?? 0) * (crossed[kind] ?? 0), 0)
    if (mm > 0) more[measure.param] = mm
  }
  return more
}

/** What one copy says of one kind of joint. */
export interface Sample {
  readonly job: string
  readonly name: string
  readonly copy: number
  /** mm at each joint. */
  readonly mm: Mm
}

export interface Learned {
  readonly kind: Drawn
  readonly samples: readonly Sample[]
  /** Figures left out: no weld draws a joint in by so much, or pushes it out. */
  readonly left: readonly Sample[]
  readonly median: Mm
  readonly least: Mm
  readonly most: Mm
}

/** More than this at one joint is a slip of the tape or of the hand, not shrinkage (common practice). */
export const mostDrawn: Mm = 3

/** Less than this on a size cannot be told from a size that no joint of the kind crosses. */
const leastCrossed = 0.05

/**
 * What each kind of joint drew in, from the measured sizes of copies that are done: planned as tacked less measured, over
 * the joints that the size crosses. A size that crosses two kinds says nothing of either. One figure per copy and kind.
 */
export function learnedFrom(
  plans: readonly Plan[],
  measured: (job: string, copy: number, size: string) => Mm | undefined,
): readonly Learned[] {
  const samples = new Map<Drawn, Sample[]>()
  for (const { job, name, quantity, sizes, frame } of plans) {
    const crossing = new Map<number, ReturnType<typeof alone>>()
    for (let copy = 1; copy <= quantity; copy++) {
      const found = new Map<Drawn, Mm[]>()
      for (const [at, size] of sizes.entries()) {
        const got = measured(job, copy, size.name)
        if (got === undefined) continue
        if (!crossing.has(at)) crossing.set(at, alone(crossedBy(frame, frame.measures[at]!)))
        const one = crossing.get(at)
        if (!one) continue
        const each = ((size.tacked ?? size.built) - got) / one.joints
        found.set(one.kind, [...(found.get(one.kind) ?? []), each])
      }
      for (const [kind, all] of found) {
        const mm = all.reduce((sum, one) => sum + one, 0) / all.length
        samples.set(kind, [...(samples.get(kind) ?? []), { job, name, copy, mm }])
      }
    }
  }
  return drawnKinds.flatMap((kind) => {
    const all = samples.get(kind) ?? []
    const sound = all.filter(({ mm }) => mm >= -mostDrawn && mm <= mostDrawn)
    const inOrder = sound.map(({ mm }) => mm).sort((a, b) => a - b)
    if (all.length === 0) return []
    const middle = (inOrder.length - 1) / 2
    const median = ((inOrder[Math.floor(middle)] ?? 0) + (inOrder[Math.ceil(middle)] ?? 0)) / 2
    return [
      {
        kind,
        samples: sound,
        left: all.filter((one) => !sound.includes(one)),
        median,
        least: inOrder[0] ?? 0,
        most: inOrder.at(-1) ?? 0,
      },
    ]
  })
}

/** The one kind of joint that a size crosses, and how many of it. */
function alone(crossed: Crossed): { readonly kind: Drawn; readonly joints: number } | undefined {
  const kinds = drawnKinds.filter((kind) => Math.abs(crossed[kind] ?? 0) > leastCrossed)
  return kinds.length === 1 ? { kind: kinds[0]!, joints: crossed[kinds[0]!]! } : undefined
}
