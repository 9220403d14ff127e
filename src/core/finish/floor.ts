import type { Frame } from '../frame/frame.ts'
import { endCorners } from '../frame/member.ts'
import { axisX } from '../geometry/pose.ts'
import { sameLength } from '../tolerance.ts'

/** What a leveling foot turns in: a leg or its cap by itself, or a plate that holds several of them. */
export interface Foot {
  /** From 1. */
  readonly number: number
  /** Seen from above: `front left`. */
  readonly lies: string
}

const ways = [
  'right',
  'back right',
  'back',
  'back left',
  'left',
  'front left',
  'front',
  'front right',
] as const

/** The leveling feet of a frame, in their order. */
export function feetOf({ hardware }: Pick<Frame, 'hardware'>): readonly Foot[] {
  const spots = hardware.flatMap(({ kind, count, at }) =>
    kind === 'leveler' ? Array.from({ length: count }, () => at) : [],
  )
  const middle = (k: 0 | 1) => spots.reduce((sum, at) => sum + at[k], 0) / spots.length
  return spots.map(([x, y], at) => {
    const turn = Math.atan2(y - middle(1), x - middle(0)) / (Math.PI / 4)
    return { number: at + 1, lies: ways[(Math.round(turn) + 8) % 8]! }
  })
}

/** The plate that holds several leveling feet, by its name; undefined where each foot has its own leg. */
export const footPlate = ({ plates }: Pick<Frame, 'plates'>): string | undefined =>
  plates.find(({ thread, holes }) => thread !== undefined && holes.length > 1)?.name.toLowerCase()

/** A member leans this much from level, as sine, before it counts as a leg. */
const steep = 0.5

/**
 * Whether it stands on legs, or on a post with a plate: at the lowest steel there is an end of something upright. A frame
 * that only lies, as a top frame by itself, does not.
 */
export function standsOnFloor({ members }: Pick<Frame, 'members'>): boolean {
  const lows = members.map((of) =>
    Math.min(...(['A', 'B'] as const).flatMap((end) => endCorners(of, end).map(([, , z]) => z))),
  )
  const lowest = Math.min(...lows)
  return members.some(({ pose }, at) => Math.abs(axisX(pose)[2]) > steep && lows[at]! - lowest < sameLength)
}
