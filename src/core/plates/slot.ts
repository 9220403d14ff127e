import type { Slot } from '../frame/frame.ts'
import type { Point } from '../geometry/polygon.ts'
import { cosDeg, sinDeg } from '../units.ts'

/** Middles of the two round ends of a slot. */
export function slotEnds({ x, y, width, length, angle }: Slot): readonly [Point, Point] {
  const half = (length - width) / 2
  const [dx, dy] = [cosDeg(angle) * half, sinDeg(angle) * half]
  return [
    [x - dx, y - dy],
    [x + dx, y + dy],
  ]
}

/** Square mm. */
export const slotArea = ({ width, length }: Slot): number =>
  (length - width) * width + (Math.PI * width ** 2) / 4
