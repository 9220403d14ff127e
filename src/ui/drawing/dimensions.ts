import { endCorners } from '../../core/frame/member.ts'
import type { Point } from '../../core/geometry/polygon.ts'
import { toWorld } from '../../core/geometry/pose.ts'
import type { Vec3 } from '../../core/geometry/vec3.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Mm } from '../../core/units.ts'
import type { TypedLength } from './fields.ts'
import { type Extent, extentOf, fromAbove, fromFront, onPage, type View } from './view.ts'

/** A dimension line of a view: between two places along the page's x or y, drawn on one side of the view. */
export interface Dimension {
  readonly view: 'plan' | 'front'
  readonly side: 'left' | 'right' | 'bottom'
  /** Along the side, mm on the page, the lesser first. */
  readonly from: Mm
  readonly to: Mm
  readonly name: string
  readonly asked: boolean
  /** Parameter that it shows, when one does. */
  readonly field?: string
}

/** A circle that a size means, where no two sides lie across from each other. */
export interface Circle {
  readonly center: Point
  readonly diameter: Mm
  readonly name: string
  readonly field?: string
}

/** A drawn distance is a given one when they agree to a hundredth of a millimeter: finer than any reading. */
const same = (a: Mm, b: Mm) => Math.abs(a - b) < 0.01

type Corners = ReadonlyMap<string, readonly Vec3[]>

function cornersOf({ frame }: Plan): Corners {
  const of = new Map<string, readonly Vec3[]>()
  for (const member of frame.members)
    of.set(member.id, [...endCorners(member, 'A'), ...endCorners(member, 'B')])
  for (const plate of frame.plates)
    of.set(
      plate.id,
      [0, plate.thickness].flatMap((z) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z]))),
    )
  return of
}

/** Extent of some solids in a view. */
function spanOf(corners: Corners, ids: readonly string[], view: View): Extent | null {
  const points = ids.flatMap((id) => corners.get(id) ?? []).map((point) => onPage(view, point))
  return points.length > 0 ? extentOf(points) : null
}

/** The name and field of a drawn distance: a size of the plan, else a length that was typed. */
function known(plan: Plan, typed: readonly TypedLength[], mm: Mm) {
  const size =
    plan.sizes.find(({ exact, asked }) => asked && same(exact, mm)) ??
    plan.sizes.find(({ exact }) => same(exact, mm))
  const field = typed.find((one) => same(one.mm, mm))
  return size || field
    ? { name: size?.name ?? field?.label ?? '', asked: field !== undefined, field: field?.name }
    : null
}

/**
 * The dimension lines of plan and elevation: the overall sizes, and every width, depth or height of a sub-assembly
 * that has a name. A distance that equals a typed length belongs to that field.
 */
export function dimensionsOf(plan: Plan, typed: readonly TypedLength[]): readonly Dimension[] {
  const corners = cornersOf(plan)
  const all = [...corners.keys()]
  const found: Dimension[] = []
  const add = (
    view: Dimension['view'],
    side: Dimension['side'],
    from: Mm,
    to: Mm,
    otherwise: string | null,
  ) => {
    const knows = known(plan, typed, to - from)
    const name = knows?.name ?? otherwise
    if (name === null || to - from < 1e-3) return
    if (
      found.some((one) => one.view === view && one.side === side && same(one.from, from) && same(one.to, to))
    )
      return
    found.push({
      view,
      side,
      from,
      to,
      name,
      asked: knows?.asked ?? false,
      ...(knows?.field ? { field: knows.field } : {}),
    })
  }

  const first = plan.frame.assemblies[0]
  const ring = first?.ring ? first.members : []
  const side = ring[0] === undefined ? null : spanOf(corners, [ring[0]], fromAbove)
  if (side) add('plan', 'bottom', side.left, side.right, null)
  for (const { members } of plan.frame.assemblies) {
    const above = spanOf(corners, members, fromAbove)
    const front = spanOf(corners, members, fromFront)
    const isTop = members === first?.members
    if (above && isTop) {
      add('plan', 'bottom', above.left, above.right, null)
      add('plan', 'left', above.bottom, above.top, null)
    }
    if (front && !isTop) add('front', 'bottom', front.left, front.right, null)
  }
  const above = spanOf(corners, all, fromAbove)
  const front = spanOf(corners, all, fromFront)
  if (above && front) {
    add('plan', 'bottom', above.left, above.right, 'overall width')
    add('plan', 'left', above.bottom, above.top, 'overall depth')
    add('front', 'right', plan.frame.floor, front.top, 'overall height')
    add('front', 'right', 0, front.top, null)
    for (const level of levels(corners, plan)) add('front', 'right', plan.frame.floor, level, null)
    for (const level of levels(corners, plan)) add('front', 'right', 0, level, null)
  }
  return found
}

/** Heights of the undersides of members, for what is clear under them. */
function levels(corners: Corners, plan: Plan): readonly Mm[] {
  const under = plan.frame.members.map(({ id }) => spanOf(corners, [id], fromFront)?.bottom ?? 0)
  return [...new Set(under.map((level) => +level.toFixed(3)))].filter((level) => level > 0.01)
}

/** A ring's asked size as a circle: through its corners, touching its sides, or clear inside. */
export function circleOf(
  plan: Plan,
  typed: readonly TypedLength[],
  shown: readonly Dimension[],
): Circle | null {
  const ring = plan.frame.assemblies[0]
  const asked = plan.sizes.find((size) => size.asked)
  if (!ring?.ring || !asked || shown.some(({ view, name }) => view === 'plan' && name === asked.name))
    return null
  const members = plan.frame.members.filter(({ id }) => ring.members.includes(id))
  const points = members.flatMap((member) =>
    [...endCorners(member, 'A'), ...endCorners(member, 'B')].map((point) => onPage(fromAbove, point)),
  )
  if (points.length === 0) return null
  const center: Point = [
    points.reduce((sum, [x]) => sum + x, 0) / points.length,
    points.reduce((sum, [, y]) => sum + y, 0) / points.length,
  ]
  const radii = points.map(([x, y]) => Math.hypot(x - center[0], y - center[1]))
  const outer = Math.max(...radii)
  const inner = Math.min(...radii)
  const half = Math.PI / members.length
  const radius = [outer, outer * Math.cos(half), inner * Math.cos(half)].find((r) => same(2 * r, asked.exact))
  if (radius === undefined) return null
  const field = typed.find(({ mm }) => same(mm, asked.exact))
  return { center, diameter: 2 * radius, name: asked.name, ...(field ? { field: field.name } : {}) }
}
