import { roundCorners } from '../frame/cap.ts'
import type { Plate } from '../frame/frame.ts'
import { leastRectangle } from '../geometry/in-rectangle.ts'
import { counterclockwise, type Point, type Polygon } from '../geometry/polygon.ts'
import { samePoint } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { slotEnds } from './slot.ts'

/** A plate as it lies on the sheet: its lower edge and its left side on the two factory edges, x right, y up. */
export interface MarkingOut {
  readonly width: Mm
  readonly height: Mm
  /** Counterclockwise; of a round plate the corners that stand for it. */
  readonly outline: Polygon
  /** A round plate is struck from its middle instead. */
  readonly circle?: { readonly at: Point; readonly radius: Mm }
  /** Corners in order, counterclockwise from the one at the lower left. None of a round plate. */
  readonly corners: readonly Point[]
  readonly holes: readonly { readonly at: Point; readonly diameter: Mm }[]
  readonly slots: readonly {
    readonly ends: readonly [Point, Point]
    readonly width: Mm
    readonly length: Mm
  }[]
  /** From corner to corner, to check what was marked: their places in `corners`. */
  readonly diagonals: readonly { readonly from: number; readonly to: number; readonly length: Mm }[]
}

/** Where to mark a plate: everything from two factory edges that are square to each other. */
export function markingOut(plate: Plate): MarkingOut {
  const { polygon, holes, slots = [] } = plate
  const { turn } = leastRectangle(polygon)
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)]
  const turned = ([x, y]: Point): Point => [x * cosine - y * sine, x * sine + y * cosine]
  const lying = counterclockwise(polygon).map(turned)
  const left = Math.min(...lying.map(([x]) => x))
  const low = Math.min(...lying.map(([, y]) => y))
  const clean = (mm: Mm) => (Math.abs(mm) < samePoint ? 0 : mm)
  const place = (point: Point): Point => {
    const [x, y] = turned(point)
    return [clean(x - left), clean(y - low)]
  }
  const moved = lying.map(([x, y]): Point => [clean(x - left), clean(y - low)])
  const first = moved.reduce((best, [x, y], at) => (x + y < moved[best]![0] + moved[best]![1] ? at : best), 0)
  const outline = [...moved.slice(first), ...moved.slice(0, first)]
  const radius = radiusOf(polygon)
  const corners = radius === undefined ? outline : []
  return {
    width: Math.max(...outline.map(([x]) => x)),
    height: Math.max(...outline.map(([, y]) => y)),
    outline,
    ...(radius === undefined ? {} : { circle: { at: place(middleOf(polygon)), radius } }),
    corners,
    holes: holes.map(([x, y, diameter]) => ({ at: place([x, y]), diameter })),
    slots: slots.map((slot) => {
      const [one, two] = slotEnds(slot)
      return { ends: [place(one), place(two)], width: slot.width, length: slot.length }
    }),
    diagonals: diagonalsOf(corners),
  }
}

const middleOf = (polygon: Polygon): Point => [
  polygon.reduce((sum, [x]) => sum + x, 0) / polygon.length,
  polygon.reduce((sum, [, y]) => sum + y, 0) / polygon.length,
]

/** Radius of a polygon that stands for a circle. */
function radiusOf(polygon: Polygon): Mm | undefined {
  if (polygon.length !== roundCorners) return undefined
  const [x, y] = middleOf(polygon)
  const away = polygon.map(([u, v]) => Math.hypot(u - x, v - y))
  return Math.max(...away) - Math.min(...away) < samePoint ? away[0] : undefined
}

/** Each corner to the one most nearly across from it; of a triangle its sides tell all. */
function diagonalsOf(corners: readonly Point[]): MarkingOut['diagonals'] {
  const n = corners.length
  if (n < 4) return []
  const across = Math.floor(n / 2)
  // With an even number each diagonal is met from both its ends.
  return Array.from({ length: n % 2 === 0 ? n / 2 : n }, (_, from) => {
    const to = (from + across) % n
    const [a, b] = [corners[from]!, corners[to]!]
    return { from, to, length: Math.hypot(a[0] - b[0], a[1] - b[1]) }
  })
}
