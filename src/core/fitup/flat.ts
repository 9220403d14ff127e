import type { Point } from '../geometry/polygon.ts'
import type { Mm } from '../units.ts'

export const heightName = (loop: string, corner: number): string => `height:${loop}/${corner}`

export interface Flatness {
  /** Each corner's height over the plane that fits all of them best, mm. */
  readonly over: readonly Mm[]
  /** Of a four-cornered frame: how far corner 4 lies off the plane of the other three. */
  readonly twist?: Mm
  /** From the lowest to the highest of `over`. */
  readonly spread: Mm
  /** Corners to lift, lowest first, by number from 1: those below the plane. */
  readonly lift: readonly number[]
  readonly press: readonly number[]
}

/** How flat a frame lies, from the height of every corner over the table. Corners that all lie in one line: as they are. */
export function flatness(corners: readonly Point[], heights: readonly Mm[]): Flatness {
  const over = overPlane(corners, heights)
  const order = over.map((_, at) => at).sort((a, b) => over[a]! - over[b]! || a - b)
  const slack = 1e-6
  const numbers = (of: readonly number[]) => of.map((at) => at + 1)
  return {
    over,
    ...(heights.length === 4
      ? { twist: Math.abs(heights[0]! - heights[1]! + heights[2]! - heights[3]!) }
      : {}),
    spread: Math.max(...over) - Math.min(...over),
    lift: numbers(order.filter((at) => over[at]! < -slack)),
    press: numbers(order.filter((at) => over[at]! > slack).toReversed()),
  }
}

/** Heights less the plane z = p + q·x + r·y that fits them with least squares. */
function overPlane(corners: readonly Point[], heights: readonly Mm[]): readonly Mm[] {
  const n = corners.length
  const mean = (of: readonly number[]) => of.reduce((sum, each) => sum + each, 0) / n
  const [mx, my, mz] = [mean(corners.map(([x]) => x)), mean(corners.map(([, y]) => y)), mean(heights)]
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0]
  corners.forEach(([x, y], at) => {
    const [dx, dy, dz] = [x - mx, y - my, heights[at]! - mz]
    xx += dx * dx
    xy += dx * dy
    yy += dy * dy
    xz += dx * dz
    yz += dy * dz
  })
  const det = xx * yy - xy * xy
  const q = det === 0 ? 0 : (xz * yy - yz * xy) / det
  const r = det === 0 ? 0 : (yz * xx - xz * xy) / det
  return corners.map(([x, y], at) => heights[at]! - mz - q * (x - mx) - r * (y - my))
}
