import type { Frame, Member } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import { edgesOf } from '../frame/member.ts'
import type { Mm } from '../units.ts'

/** Where a member stands on another, as four distances from edge to edge: measured both ways, they tell on each other. */
export interface Stand {
  readonly joint: string
  readonly on: string
  readonly by: string
  /** From the two ends of the receiving piece, its long points, to the nearer side of what stands on it. */
  readonly along: readonly [Mm, Mm]
  /** From the two edges of the face, across it; below 0 where it hangs past the edge. */
  readonly across: readonly [Mm, Mm]
}

/** Distances for each member that stands or lies on another's face. */
export function standsOf(frame: Frame): readonly Stand[] {
  const byId = new Map<string, Member>(frame.members.map((each) => [each.id, each]))
  return [...touchingOf(frame)].flatMap(([joint, { on, by, face, whole }]) => {
    if (!byId.has(on.id) || !byId.has(by.id)) return []
    const { a, b } = edgesOf(on)
    const [first, last] = [Math.min(...a), Math.max(...b)]
    const half = (face[1] === 'y' ? on.section.height : on.section.width) / 2
    const xs = whole.map(([x]) => x)
    const vs = whole.map(([, v]) => v)
    return [
      {
        joint: joint.id,
        on: on.id,
        by: by.id,
        along: [Math.min(...xs) - first, last - Math.max(...xs)] as const,
        across: [Math.min(...vs) + half, half - Math.max(...vs)] as const,
      },
    ]
  })
}
