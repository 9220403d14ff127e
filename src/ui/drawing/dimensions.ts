import type { Draft } from '../../core/draft.ts'
import { endCorners } from '../../core/frame/member.ts'
import type { Point } from '../../core/geometry/polygon.ts'
import { toWorld } from '../../core/geometry/pose.ts'
import { boxAround, type Vec3 } from '../../core/geometry/vec3.ts'
import type { Mm } from '../../core/units.ts'
import type { TypedLength } from './fields.ts'
import { type Extent, fromAbove, onPage } from './view.ts'

/** A dimension line of a view: between two places along the page's x or y, drawn on one side of the view. */
export interface Dimension {
  readonly view: 'plan' | 'front'
  readonly side: 'left' | 'right' | 'bottom'
  /** Along the side, mm on the page, the lesser first. */
  readonly from: Mm
  readonly to: Mm
  readonly name: string
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

/** What a solid takes up in both views. */
interface Spans {
  readonly plan: Extent
  readonly front: Extent
}

function spansOf(points: readonly Vec3[]): Spans {
  const { low, high } = boxAround(points)
  // On the page of the plan y is up, on that of the elevation z.
  return {
    plan: { left: low[0], right: high[0], bottom: low[1], top: high[1] },
    front: { left: low[0], right: high[0], bottom: low[2], top: high[2] },
  }
}

/** The spans of every member and plate of a frame, by their ids. */
function allSpans({ frame }: Draft): ReadonlyMap<string, Spans> {
  const of = new Map<string, Spans>()
  for (const member of frame.members)
    of.set(member.id, spansOf([...endCorners(member, 'A'), ...endCorners(member, 'B')]))
  for (const plate of frame.plates)
    of.set(
      plate.id,
      spansOf(
        [0, plate.thickness].flatMap((z) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z]))),
      ),
    )
  return of
}

/** What some of them take up together in a view. */
function around(spans: Iterable<Spans | undefined>, view: Dimension['view']): Extent | null {
  let all: Extent | null = null
  for (const one of spans) {
    if (!one) continue
    const { left, right, bottom, top } = one[view]
    all = all
      ? {
          left: Math.min(all.left, left),
          right: Math.max(all.right, right),
          bottom: Math.min(all.bottom, bottom),
          top: Math.max(all.top, top),
        }
      : one[view]
  }
  return all
}

/** What a drawn distance is called, and the field that it leads to. */
interface Known {
  readonly name: string
  readonly field?: string | undefined
}

/**
 * The one typed length of this size, or none: two fields may hold the same length, and a tap must never lead to the
 * wrong one. A label that says the same as the size's name decides.
 */
function fieldOf(typed: readonly TypedLength[], mm: Mm, name: string): TypedLength | undefined {
  const equal = typed.filter((one) => same(one.mm, mm))
  const named = equal.filter(({ label }) => label.toLowerCase() === name.toLowerCase())
  return named.length === 1 ? named[0] : equal.length === 1 ? equal[0] : undefined
}

/** A size among `sizes` that a drawn distance is, with its field where the person asked for it. */
function sizeAs(sizes: Draft['sizes'], typed: readonly TypedLength[], mm: Mm): Known | null {
  const equal = sizes.filter(({ exact }) => same(exact, mm))
  const size = equal.find(({ asked }) => asked) ?? equal[0]
  if (!size) return null
  return { name: size.name, field: size.asked ? fieldOf(typed, mm, size.name)?.name : undefined }
}

/** Sizes that follow from members of this sub-assembly alone, and the lengths that are asked for under its name. */
function ofAssembly(plan: Draft, typed: readonly TypedLength[], at: number) {
  const assembly = plan.frame.assemblies[at]
  const own = new Set(assembly?.members)
  const names = new Set(
    plan.frame.measures
      .filter(({ terms }) => terms.every(({ member }) => own.has(member)))
      .map(({ name }) => name),
  )
  return {
    members: assembly?.members ?? [],
    ring: assembly?.ring !== undefined,
    sizes: plan.sizes.filter(({ name }) => names.has(name)),
    others: plan.sizes.filter(({ name }) => !names.has(name)),
    typed: typed.filter(({ group }) => group === assembly?.name),
  }
}

/**
 * The dimension lines of plan and elevation: the sizes of the top, how far apart the feet of each other
 * sub-assembly stand, the overall sizes, and what is clear under the frame.
 */
export function dimensionsOf(plan: Draft, typed: readonly TypedLength[]): readonly Dimension[] {
  const spans = allSpans(plan)
  const together = (ids: readonly string[], view: Dimension['view']) =>
    around(
      ids.map((id) => spans.get(id)),
      view,
    )
  const found: Dimension[] = []
  const add = (view: Dimension['view'], side: Dimension['side'], from: Mm, to: Mm, known: Known | null) => {
    const before = found.some(
      (one) => one.view === view && one.side === side && same(one.from, from) && same(one.to, to),
    )
    if (!known || before || to - from < 1e-3) return
    const { name, field } = known
    found.push({ view, side, from, to, name, ...(field === undefined ? {} : { field }) })
  }

  for (const { name, mm, drawn } of plan.frame.measures) {
    if (!drawn) continue
    const { axis, from } = drawn
    const view = axis === 'z' || drawn.front ? 'front' : 'plan'
    const side = axis === 'z' ? 'right' : axis === 'y' ? 'left' : 'bottom'
    // Only what is asked for now can be gone to.
    const field = typed.find((one) => one.name === drawn.field)?.name
    add(view, side, from, from + mm, { name, field })
  }

  const top = ofAssembly(plan, typed, 0)
  if (top.ring) {
    const size = (mm: Mm) => sizeAs(top.sizes, top.typed, mm)
    const first = together(top.members.slice(0, 1), 'plan')
    const ring = together(top.members, 'plan')
    if (first) add('plan', 'bottom', first.left, first.right, size(first.right - first.left))
    if (ring) add('plan', 'bottom', ring.left, ring.right, size(ring.right - ring.left))
    if (ring) add('plan', 'left', ring.bottom, ring.top, size(ring.top - ring.bottom))
  }
  for (let at = top.ring ? 1 : 0; at < plan.frame.assemblies.length; at += 1) {
    const part = ofAssembly(plan, typed, at)
    const front = together(lowest(spans, part.members), 'front')
    const field = front && fieldOf(part.typed, front.right - front.left, '')
    if (front && field)
      add('front', 'bottom', front.left, front.right, { name: field.label, field: field.name })
  }

  const above = around(spans.values(), 'plan')
  const front = around(spans.values(), 'front')
  if (!above || !front) return found
  add('plan', 'bottom', above.left, above.right, { name: 'overall width' })
  add('plan', 'left', above.bottom, above.top, { name: 'overall depth' })
  const floor = Math.min(0, plan.frame.floor)
  const height = sizeAs(top.ring ? top.others : plan.sizes, typed, front.top - floor)
  add('front', 'right', floor, front.top, height ?? { name: 'overall height' })
  const clear = plan.sizes.filter(
    ({ name }) => name.startsWith('clear') && !top.sizes.some((one) => one.name === name),
  )
  for (const level of levels(spans, plan))
    add('front', 'right', floor, level, sizeAs(clear, typed, level - floor))
  return found
}

/** The members that reach down the farthest: what a sub-assembly stands on. */
function lowest(spans: ReadonlyMap<string, Spans>, members: readonly string[]): readonly string[] {
  const under = (id: string) => spans.get(id)?.front.bottom ?? Number.POSITIVE_INFINITY
  const least = Math.min(...members.map(under))
  return members.filter((id) => same(under(id), least))
}

/** Heights of the undersides of members, for what is clear under them. */
function levels(spans: ReadonlyMap<string, Spans>, plan: Draft): readonly Mm[] {
  const under = plan.frame.members.map(({ id }) => spans.get(id)?.front.bottom ?? 0)
  // To a thousandth of a millimeter: the dust of a rotation makes no level of its own.
  return [...new Set(under.map((level) => Math.round(level * 1000) / 1000))].filter((level) => level > 0.01)
}

/** A ring's asked size as a circle: through its corners, touching its sides, or clear inside. */
export function circleOf(
  plan: Draft,
  typed: readonly TypedLength[],
  shown: readonly Dimension[],
): Circle | null {
  const top = ofAssembly(plan, typed, 0)
  const asked = top.sizes.find((size) => size.asked)
  if (!top.ring || !asked || shown.some(({ view, name }) => view === 'plan' && name === asked.name))
    return null
  const members = plan.frame.members.filter(({ id }) => top.members.includes(id))
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
  const half = Math.PI / members.length
  const radius = [outer, outer * Math.cos(half), Math.min(...radii) * Math.cos(half)].find((r) =>
    same(2 * r, asked.exact),
  )
  if (radius === undefined) return null
  const field = fieldOf(top.typed, asked.exact, asked.name)?.name
  return { center, diameter: 2 * radius, name: asked.name, ...(field === undefined ? {} : { field }) }
}
