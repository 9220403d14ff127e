// What a drawing leaves out against rays through exact solids: random points of the edges that look at the eye.
import type { Frame } from '../../src/core/frame/frame.ts'
import { backToFront, type Seen } from '../../src/ui/drawing/shapes.ts'
import { solidsOf } from '../../src/ui/drawing/solid.ts'
import { fromAbove, fromFront, turned, type View } from '../../src/ui/drawing/view.ts'
import type { Dice } from '../prove/seed.ts'
import { dot, scope, surfaceOf, type Xyz } from './kernel.ts'
import { memberSolid, plateSolid } from './solid.ts'

/** On the page, a point this near to the rim of something may count as on either side of it, mm. */
const rim = 0.02
/** Toward the eye, faces this near to each other touch: either may be drawn over the other's edge, mm. */
const touch = 0.05

/** Nearer than this to a corner, the way through a re-entrant corner of its own solid may be shorter than `touch`, mm. */
const corner = 0.2

type Flat = readonly [number, number]

export const views: readonly (readonly [string, View])[] = [
  ['from above', fromAbove],
  ['from the front', fromFront],
  ['turned', turned(28, 34)],
]

const onPage = (view: View, point: Xyz): Flat => [dot(point, view.right), dot(point, view.up)]

/** A triangle of a solid on the page, counterclockwise, with the depths of its corners toward the eye. */
interface Facet {
  readonly id: string
  readonly corners: readonly [Flat, Flat, Flat]
  readonly depths: readonly number[]
  readonly box: readonly [number, number, number, number]
}

function facetsOf(frame: Frame, view: View): Facet[] {
  return scope(() =>
    [
      ...frame.members.map((member) => ({ id: member.id, solid: memberSolid(member, 'box', 6) })),
      // The drawing shows a plate without its holes.
      ...frame.plates.map((plate) => ({
        id: plate.id,
        solid: plateSolid({ ...plate, holes: [], slots: [] }),
      })),
    ].flatMap(({ id, solid }) => {
      const { points, triangles } = surfaceOf(solid)
      return triangles.flatMap((places): Facet[] => {
        const three = places.map((at) => points[at]!)
        const flat = three.map((point) => onPage(view, point))
        const depths = three.map((point) => dot(point, view.toward))
        const [a, b, c] = flat as [Flat, Flat, Flat]
        const twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        if (Math.abs(twice) < 1e-6) return []
        const [xs, ys] = [flat.map(([x]) => x), flat.map(([, y]) => y)]
        return [
          {
            id,
            corners: twice > 0 ? [a, b, c] : [a, c, b],
            depths: twice > 0 ? depths : [depths[0]!, depths[2]!, depths[1]!],
            box: [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)],
          },
        ]
      })
    }),
  )
}

/** How far inside a convex counterclockwise outline a point lies; negative outside. */
const within = (outline: readonly Flat[], [x, y]: Flat): number =>
  Math.min(
    ...outline.map(([ax, ay], at) => {
      const [bx, by] = outline[(at + 1) % outline.length]!
      return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay)
    }),
  )

/** Depth of a facet over a point of the page. */
function depthAt({ corners: [a, b, c], depths }: Facet, [x, y]: Flat): number {
  const of = (p: Flat, q: Flat) => (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])
  const [u, v, w] = [of(b, c), of(c, a), of(a, b)]
  return (u * depths[0]! + v * depths[1]! + w * depths[2]!) / (u + v + w)
}

/** What stands before a point of an edge, as a ray to the eye meets it: something, nothing, or too near to say. */
function beforeIt(
  facets: readonly Facet[],
  own: string,
  page: Flat,
  depth: number,
): 'some' | 'none' | 'unsure' {
  let near = false
  for (const facet of facets) {
    const [left, right, low, high] = facet.box
    if (page[0] < left - rim || page[0] > right + rim || page[1] < low - rim || page[1] > high + rim) continue
    const inside = within(facet.corners, page)
    if (inside < -rim) continue
    const ahead = depthAt(facet, page) - depth
    if (ahead > touch && inside > rim) return 'some'
    // A rim in front of it, or a face of another that touches it.
    if (ahead > touch || (ahead > -touch && facet.id !== own)) near = true
  }
  return near ? 'unsure' : 'none'
}

/** Whether the drawing leaves the edge out there, is so near to where it begins that it may do either, or draws it. */
function leftOut({ rim: outline, edges }: Seen, [x, y]: Flat): 'some' | 'none' | 'unsure' {
  let said: 'some' | 'unsure' = 'some'
  for (const [[ax, ay], [bx, by]] of [...outline, ...edges]) {
    const long = Math.hypot(bx - ax, by - ay)
    if (long === 0) continue
    const along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / long
    const beside = Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / long
    if (beside > 1e-5 || along < -rim || along > long + rim) continue
    if (along > rim && along < long - rim) return 'none'
    said = 'unsure'
  }
  return said
}

/** Edges that look at the eye, of every solid, with the key and id of it; none between the sides of round steel. */
const edgesOf = (frame: Frame, view: View) =>
  solidsOf(frame).flatMap((solid) =>
    solid.edges.flatMap(({ from, to, faces }) => {
      const looking = faces
        .map((at) => solid.faces[at]!)
        .filter(({ normal }) => dot(normal, view.toward) > 1e-6)
      const smooth = solid.round && looking.length === 2 && looking.every(({ end }) => !end)
      return looking.length === 0 || smooth
        ? []
        : [{ key: solid.key, id: solid.id, a: solid.points[from]!, b: solid.points[to]! }]
    }),
  )

export interface DrawnTold {
  readonly faults: readonly string[]
  readonly points: number
  readonly hidden: number
}

/** Throws `many` points on the edges of a view, of which ray and drawing must say the same; those too near to say do not count. */
export function drawnFaults(
  frame: Frame,
  view: View,
  many: number,
  roll: Dice,
  draw = backToFront,
): DrawnTold {
  const seen = draw(solidsOf(frame), view)
  const byKey = new Map(seen.map((one) => [one.key, one]))
  const edges = edgesOf(frame, view)
  const facets = facetsOf(frame, view)
  const faults: string[] = []
  let [points, hidden] = [0, 0]
  for (let tries = 0; points < many; tries++) {
    if (tries > 100 * many) throw new Error(`only ${points} of ${tries} points are clear of every rim`)
    const { key, id, a, b } = roll.pick(edges)
    const t = roll.between(0.001, 0.999)
    if (Math.min(t, 1 - t) * Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) < corner) continue
    const at: Xyz = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])]
    const page = onPage(view, at)
    const real = beforeIt(facets, id, page, dot(at, view.toward))
    const drawn = leftOut(byKey.get(key)!, page)
    if (real === 'unsure' || drawn === 'unsure') continue
    points += 1
    if (real === 'some') hidden += 1
    if (real !== drawn)
      faults.push(
        `${key} at ${page.map((mm) => mm.toFixed(3)).join(', ')}: before it ${real}, left out ${drawn}`,
      )
  }
  return { faults, points, hidden }
}
