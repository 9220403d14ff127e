import type { Params, RowGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

type Point = readonly [number, number]

const tenths = (mm: number) => Math.round(mm * 10) / 10

/** Corners at random distances round a middle: goes round once, with corners that point inward now and then. */
function star(roll: Dice, n: number): Point[] {
  const even = roll() < 0.5
  const wide = roll.between(400, 900)
  return Array.from({ length: n }, (_, at): Point => {
    const angle = (2 * Math.PI * (at + roll.between(-0.15, 0.15))) / n
    const r = wide * (even ? roll.between(0.9, 1.1) : roll.between(0.6, 1.3))
    return [tenths(r * Math.cos(angle)), tenths(r * Math.sin(angle))]
  })
}

const apart = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1])

function inside(points: readonly Point[], at: number): number {
  const n = points.length
  const heading = (k: number) => {
    const [a, b] = [points[(k + n) % n]!, points[(k + 1) % n]!]
    return (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI
  }
  return (((180 - heading(at) + heading(at - 1)) % 360) + 360) % 360
}

/** Sides and corners as a person would write them down off a drawing: to 0.1 mm and 0.01°. */
function rows(points: readonly Point[], sides: number, corners: number): RowGiven[] {
  return points.slice(0, sides).map((point, at): RowGiven => {
    const side = tenths(apart(point, points[(at + 1) % points.length]!))
    return at < corners ? { side, corner: Math.round(inside(points, at + 1) * 100) / 100 } : { side }
  })
}

/** Random parameters of an uneven polygon frame, given in each of its ways; now and then an impossible one. */
export function randomParams(roll: Dice): Params {
  const n = roll.whole(3, 9)
  const points = star(roll, n)
  const way = roll.pick(['last side open', 'last corners open', 'corner points'])
  const outline: Params =
    way === 'corner points'
      ? { points: (roll() < 0.5 ? points : [...points].reverse()).map(([x, y]) => ({ x, y })) }
      : way === 'last side open'
        ? { sides: rows(points, n - 1, n - 2) }
        : { allSides: rows(points, n, n - 3) }
  const top = roll.pick(['none', 'plate', 'top sheet'])
  const topEdge = roll.pick(['flush', 'inset', 'overhang'])
  return {
    way,
    ...outline,
    section:
      roll() < 0.6
        ? { kind: 'square-tube', width: roll.pick([20, 25.4, 40, 50.8]), wall: 2 }
        : { kind: 'rect-tube', width: roll.pick([60, 50.8]), height: roll.pick([25.4, 30, 40]), wall: 3 },
    stands: roll.pick(['flat', 'on edge']),
    top,
    ...(top === 'none' ? {} : { topThickness: roll.pick([2, 5]), topEdge }),
    ...(top === 'none' || topEdge === 'flush' ? {} : { topEdgeBy: roll.pick([4, 8, 12.7]) }),
    ...(top === 'none' ? {} : { topCut: roll.pick(['last', 'by numbers']) }),
  }
}
