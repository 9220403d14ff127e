import type { Point, Polygon } from '../geometry/polygon.ts'
import { samePoint } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** What stands through a sheet at its rim, seen from above: its middle and its size. */
export interface Standing {
  readonly x: Mm
  readonly y: Mm
  readonly width: Mm
  readonly depth: Mm
}

/**
 * A rectangle about the origin, counterclockwise, notched round what stands along its front edge, and round the same along its
 * back edge, as half a turn brings it there. Each notch is `clear` wider all round. Notches must not run together.
 */
export function notched(width: Mm, depth: Mm, front: readonly Standing[], clear: Mm): Polygon {
  const [right, low] = [width / 2, -depth / 2]
  const edge = [...front]
    .sort((one, two) => one.x - two.x)
    .flatMap((post): Point[] => {
      const from = post.x - post.width / 2 - clear
      const to = post.x + post.width / 2 + clear
      const top = post.y + post.depth / 2 + clear
      const start: Point[] =
        from <= -right + samePoint
          ? [[-right, top]]
          : [
              [from, low],
              [from, top],
            ]
      const end: Point[] =
        to >= right - samePoint
          ? [[right, top]]
          : [
              [to, top],
              [to, low],
            ]
      return [...start, ...end]
    })
  const atLeft = front.some((post) => post.x - post.width / 2 - clear <= -right + samePoint)
  const atRight = front.some((post) => post.x + post.width / 2 + clear >= right - samePoint)
  const run: Point[] = [
    ...(atLeft ? [] : [[-right, low] as Point]),
    ...edge,
    ...(atRight ? [] : [[right, low] as Point]),
  ]
  return [...run, ...run.map(([x, y]): Point => [-x, -y])]
}
